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
// usual containers, lists of pieces parted by commas.
func RecordFiles(in report.Input) []RecordFile {
	b := &book{in: &in}
	var out []RecordFile
	for _, t := range b.recordTables() {
		if len(t.rows) == 0 {
			continue
		}
		f := RecordFile{Table: t.name, Rows: [][]string{append([]string{"file", "sheet", "row"}, t.fields...)}}
		for i, cells := range t.rows {
			at := t.places[i]
			row := []string{at.File, at.Sheet, fmt.Sprint(at.Row)}
			for _, c := range cells {
				row = append(row, c.String())
			}
			f.Rows = append(f.Rows, row)
		}
		out = append(out, f)
	}
	return out
}
