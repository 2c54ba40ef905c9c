package accountant

import (
	"fmt"

	"piecebook/report"
)

// RecordFile is one table's records as rows of text, the heads first: where
// each stands, then its cells as they were read.
type RecordFile struct {
	Table string
	Rows  [][]string
}

// RecordFiles is every record that was read, a file a table, in the tables'
// order. Tables without a row are left out. Amounts of supplies are in their
// usual containers, lists of pieces separated by commas.
func RecordFiles(in report.Input) []RecordFile {
	var out []RecordFile
	for t := range recordTables(in.Books) {
		head := []string{"file", "sheet", "row"}
		for _, c := range t.columns {
			head = append(head, c.Column)
		}
		f := RecordFile{Table: t.name, Rows: [][]string{head}}
		for _, r := range t.records {
			row := []string{r.At.File, r.At.Sheet, fmt.Sprint(r.At.Row)}
			for _, c := range r.Cells(nil) {
				row = append(row, recordCell(c).String())
			}
			f.Rows = append(f.Rows, row)
		}
		out = append(out, f)
	}
	return out
}
