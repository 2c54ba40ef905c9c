package bookgen

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"piecebook/ledger/calendar"
)

// epoch is day 0 of a workbook's dates.
var epoch = calendar.Date{Year: 1899, Month: 12, Day: 30}

// workbook writes sheets into one XLSX file: dates and numbers as such in some
// columns, as text in others.
func (r *reshaper) workbook(sheets []sheet) []byte {
	f := excelize.NewFile()
	defer f.Close()
	usual := f.GetSheetName(0)
	day, err := f.NewStyle(&excelize.Style{NumFmt: r.pickInt(14, 15, 22)})
	must(err)
	for i, s := range sheets {
		// Names of sheets are without regard to case, and must differ.
		name := s.name
		for n := 2; taken(f, name); n++ {
			name = fmt.Sprintf("%s (%d)", s.name, n)
		}
		if i == 0 {
			must(f.SetSheetName(usual, name))
		} else {
			_, err := f.NewSheet(name)
			must(err)
		}
		r.fill(f, name, s, day)
	}
	b, err := f.WriteToBuffer()
	must(err)
	return b.Bytes()
}

func taken(f *excelize.File, name string) bool {
	for _, other := range f.GetSheetList() {
		if strings.EqualFold(other, name) {
			return true
		}
	}
	return false
}

// fill writes a sheet's header and rows; the columns' kinds are known by the
// header as it was before it is renamed.
func (r *reshaper) fill(f *excelize.File, name string, s sheet, day int) {
	columns := append([]string(nil), s.header...)
	r.pad(&s)
	for c, header := range s.header {
		must(f.SetCellStr(name, axis(c, 1), header))
	}
	for c, column := range columns {
		asText := r.chance(30)
		for i, row := range s.rows {
			at, text := axis(c, i+2), row[c]
			kind := kindOf(s.table, column)
			d, err := calendar.Parse(text)
			switch {
			case text == "":
			case strings.HasPrefix(strings.ToLower(text), "example:"):
				must(f.SetCellStr(name, at, text))
			case asText:
				must(f.SetCellStr(name, at, r.cell(s.table, column, text)))
			case kind == "date" && err == nil:
				must(f.SetCellInt(name, at, int64(d.DaysSince(epoch))))
				must(f.SetCellStyle(name, at, at, day))
			case plainNumber(text) && kind != "text" && kind != "list":
				// A number cell from its text: the cent never is a float here.
				must(f.SetCellDefault(name, at, text))
			default:
				must(f.SetCellStr(name, at, text))
			}
		}
	}
}

// plainNumber says that the text is digits, with a sign or a point at most.
func plainNumber(text string) bool {
	digits := strings.TrimPrefix(text, "-")
	return digits != "" && strings.Trim(digits, "0123456789.") == "" && strings.Count(digits, ".") <= 1
}

// axis is a cell's name, both counted as a spreadsheet does but the column
// from 0.
func axis(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column+1, row)
	must(err)
	return name
}

// must is for what cannot fail on a workbook of our own making.
func must(err error) {
	if err != nil {
		panic("bookgen: " + err.Error())
	}
}
