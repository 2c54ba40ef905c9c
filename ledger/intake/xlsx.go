package intake

import (
	"bytes"
	"regexp"
	"strings"

	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
)

// workbook answers what a grid of texts cannot: whether a cell is a date, a
// text, or a formula without a value. It is asked only where it matters,
// since the first question loads the whole sheet.
type workbook struct {
	file     *excelize.File
	sheet    string
	is1904   bool
	formulas bool // some cell of the workbook is a formula
}

// openWorkbook reads all sheets of a workbook. A damaged one must not stop
// the run, whatever the library does on it, so a panic is a damaged file.
func openWorkbook(f rawFile, problems *fault.List) (sheets []*sheet) {
	defer func() {
		if recover() != nil {
			sheets = nil
			problems.Add(notRead(f.name, damagedBook))
		}
	}()
	formulas, why := inspect(f.bytes)
	if why != "" {
		problems.Add(notRead(f.name, why))
		return nil
	}
	book, err := excelize.OpenReader(bytes.NewReader(f.bytes), excelize.Options{RawCellValue: true, UnzipSizeLimit: unzipBytesMax})
	if err != nil {
		problems.Add(notRead(f.name, damagedBook))
		return nil
	}
	props, err := book.GetWorkbookProps()
	is1904 := err == nil && props.Date1904 != nil && *props.Date1904
	if len(book.GetSheetList()) == 0 {
		problems.Add(notRead(f.name, damagedBook))
		return nil
	}
	for _, name := range book.GetSheetList() {
		s := &sheet{file: f.name, name: name, known: name,
			asks: &workbook{file: book, sheet: name, is1904: is1904, formulas: formulas}}
		if lines, ok := readRows(book, s, problems); ok {
			s.lines = lines
			sheets = append(sheets, s)
		}
	}
	return sheets
}

// readRows streams one sheet. A chart sheet has no rows; a sheet that is
// damaged or beyond the limits is refused whole.
func readRows(book *excelize.File, s *sheet, problems *fault.List) ([]line, bool) {
	rows, err := book.Rows(s.name)
	if err != nil {
		problems.Add(damagedSheet(s))
		return nil, false
	}
	defer rows.Close()
	var lines []line
	for number := 1; rows.Next(); number++ {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			problems.Add(damagedSheet(s))
			return nil, false
		}
		if blank(cells) && !unsavedRow(s, lines, number) {
			continue
		}
		if len(lines) >= sheetRowsMax || len(cells) > sheetColsMax && !blank(cells[sheetColsMax:]) {
			problems.Add(tooManyRows(s.place()))
			return nil, false
		}
		lines = append(lines, line{number: number, cells: cells})
	}
	if rows.Error() != nil {
		problems.Add(damagedSheet(s))
		return nil, false
	}
	return lines, true
}

// damagedSheet refuses a sheet whole: a part of it would drop rows.
func damagedSheet(s *sheet) fault.Problem {
	p := notRead(s.file, "This sheet is damaged.")
	p.Place = s.place()
	return p
}

// unsavedRow says that a row below the header, blank to the eye, has a formula
// that never got a value: it must be told, not skipped.
func unsavedRow(s *sheet, above []line, number int) bool {
	if !s.asks.formulas || len(above) == 0 || number > sheetRowsMax {
		return false
	}
	for column := range above[0].cells {
		if s.asks.isUnsaved(column, number) {
			return true
		}
	}
	return false
}

// cellName is B4 for column 1 of row 4; empty where there is none such.
func cellName(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column+1, row)
	if err != nil {
		return ""
	}
	return name
}

// safely answers a question about a damaged sheet with no.
func safely(question func() bool) (yes bool) {
	defer func() {
		if recover() != nil {
			yes = false
		}
	}()
	return question()
}

// isFormula says that a cell (column from 0) is a formula.
func (w *workbook) isFormula(column, row int) bool {
	return w != nil && w.formulas && safely(func() bool {
		formula, err := w.file.GetCellFormula(w.sheet, cellName(column, row))
		return err == nil && formula != ""
	})
}

// isUnsaved says that a cell is a formula that never got a value. One whose
// value is an empty text (the usual =IF(A2="","",...) ) is merely blank.
func (w *workbook) isUnsaved(column, row int) bool {
	return w.isFormula(column, row) && !w.isText(column, row)
}

// isText says that a cell was saved as text rather than as a number.
func (w *workbook) isText(column, row int) bool {
	return w == nil || safely(func() bool {
		kind, err := w.file.GetCellType(w.sheet, cellName(column, row))
		return err == nil && (kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString || kind == excelize.CellTypeFormula)
	})
}

// isDate says that a cell is a number shown as a date or a time.
func (w *workbook) isDate(column, row int) bool {
	return w != nil && !w.isText(column, row) && safely(func() bool { return w.dateStyle(column, row) })
}

// dateStyle says that a cell's number format shows a date or a time.
func (w *workbook) dateStyle(column, row int) bool {
	index, err := w.file.GetCellStyle(w.sheet, cellName(column, row))
	if err != nil {
		return false
	}
	style, err := w.file.GetStyle(index)
	if err != nil {
		return false
	}
	if style.CustomNumFmt != nil {
		return showsDate(*style.CustomNumFmt)
	}
	n := style.NumFmt
	return n >= 14 && n <= 22 || n >= 27 && n <= 36 || n >= 45 && n <= 47 || n >= 50 && n <= 58
}

// isPercent says that a cell is a number shown as a percentage, which is
// stored as a hundredth of what is shown.
func (w *workbook) isPercent(column, row int) bool {
	return w != nil && !w.isText(column, row) && safely(func() bool {
		index, err := w.file.GetCellStyle(w.sheet, cellName(column, row))
		if err != nil {
			return false
		}
		style, err := w.file.GetStyle(index)
		if err != nil {
			return false
		}
		if style.CustomNumFmt != nil {
			return strings.Contains(formatText.ReplaceAllString(*style.CustomNumFmt, ""), "%")
		}
		return style.NumFmt == 9 || style.NumFmt == 10
	})
}

// formatText is what a number format shows as it stands: quoted text, escaped
// characters, colours and currencies in square brackets (not [h], hours).
var formatText = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^\]hms][^\]]*\]`)

// showsDate says that a number format shows a date or a time.
func showsDate(format string) bool {
	format = formatText.ReplaceAllString(strings.ToLower(format), "")
	if strings.HasPrefix(format, "general") {
		return false
	}
	return strings.ContainsAny(format, "ymdhs")
}
