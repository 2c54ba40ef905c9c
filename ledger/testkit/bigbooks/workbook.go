package bigbooks

import (
	"archive/zip"
	"bytes"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"piecebook/ledger/calendar"
)

// Workbook is the books as one XLSX file, a sheet a table, with dates and
// numbers in cells of their kind, as a spreadsheet would have saved them.
func (b *Books) Workbook() []byte {
	f := excelize.NewFile()
	defer f.Close()
	first := f.GetSheetName(0)
	day, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	must(err)
	for i, t := range b.Tables {
		if i == 0 {
			must(f.SetSheetName(first, t.Name))
		} else {
			_, err := f.NewSheet(t.Name)
			must(err)
		}
		w, err := f.NewStreamWriter(t.Name)
		must(err)
		cells := make([]any, len(t.Lines[0]))
		for r, line := range t.Lines {
			for c, text := range line {
				cells[c] = cell(text, day)
			}
			at, err := excelize.CoordinatesToCellName(1, r+1)
			must(err)
			must(w.SetRow(at, cells))
		}
		must(w.Flush())
	}
	var out bytes.Buffer
	must(f.Write(&out))
	return inOrder(out.Bytes())
}

// inOrder is a workbook with its parts by name: the library writes them in a
// random order.
func inOrder(book []byte) []byte {
	in, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	must(err)
	slices.SortFunc(in.File, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, part := range in.File {
		must(w.Copy(part))
	}
	must(w.Close())
	return out.Bytes()
}

// cell is a text as a spreadsheet would hold what was typed.
func cell(text string, day int) any {
	if text == "" {
		return nil
	}
	if digit := strings.IndexByte("-0123456789", text[0]) >= 0; !digit {
		return text
	}
	if d, err := calendar.Parse(text); err == nil {
		return excelize.Cell{StyleID: day, Value: d.DaysSince(epoch)}
	}
	if n, err := strconv.ParseFloat(text, 64); err == nil {
		return n
	}
	return text
}

// epoch is day 0 of a workbook's dates.
var epoch = calendar.Date{Year: 1899, Month: 12, Day: 30}
