package intake

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
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
			problems.Add(notRead(f.name, "This workbook is damaged."))
		}
	}()
	formulas, why := lookInside(f.bytes)
	if why != "" {
		problems.Add(notRead(f.name, why))
		return nil
	}
	book, err := excelize.OpenReader(bytes.NewReader(f.bytes), excelize.Options{RawCellValue: true, UnzipSizeLimit: unzipBytesMax})
	if err != nil {
		problems.Add(notRead(f.name, "This workbook is damaged or only half there."))
		return nil
	}
	props, err := book.GetWorkbookProps()
	is1904 := err == nil && props.Date1904 != nil && *props.Date1904
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

// lookInside tells a workbook from other zip files, refuses one that unpacks
// beyond the limit, and says whether any cell is a formula.
func lookInside(b []byte) (formulas bool, why string) {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return false, "This workbook is damaged or only half there."
	}
	var total uint64
	isBook := false
	for _, part := range z.File {
		total += part.UncompressedSize64
		name := strings.ToLower(part.Name)
		if name == "mimetype" {
			return false, "This is a workbook of the .ods kind."
		}
		isBook = isBook || strings.HasPrefix(name, "xl/workbook.")
	}
	switch {
	case !isBook:
		return false, "This file is no workbook."
	case total > unzipBytesMax:
		return false, "This workbook unpacks to over 1 GB, far above any shop's records."
	}
	for _, part := range z.File {
		if strings.HasPrefix(strings.ToLower(part.Name), "xl/worksheets/") && mentionsFormula(part) {
			return true, ""
		}
	}
	return false, ""
}

// mentionsFormula looks for the tag of a formula in a sheet's text.
func mentionsFormula(part *zip.File) bool {
	in, err := part.Open()
	if err != nil {
		return false
	}
	defer in.Close()
	buffer := make([]byte, 1<<16)
	kept := 0
	in2 := io.LimitReader(in, unzipBytesMax)
	for {
		n, err := in2.Read(buffer[kept:])
		text := buffer[:kept+n]
		if bytes.Contains(text, []byte("<f>")) || bytes.Contains(text, []byte("<f ")) {
			return true
		}
		if err != nil {
			return false
		}
		// The tag may lie across two reads.
		kept = copy(buffer, text[max(0, len(text)-2):])
	}
}

// readRows streams one sheet. A sheet that cannot be read (a chart sheet) has
// no rows; one beyond the limits is refused whole.
func readRows(book *excelize.File, s *sheet, problems *fault.List) ([]line, bool) {
	rows, err := book.Rows(s.name)
	if err != nil {
		var noSheet excelize.ErrSheetNotExist
		if errors.As(err, &noSheet) || strings.Contains(err.Error(), "not a worksheet") {
			return nil, true
		}
		p := notRead(s.file, "This sheet is damaged.")
		p.Place = s.place()
		problems.Add(p)
		return nil, false
	}
	defer rows.Close()
	var lines []line
	for number := 1; rows.Next(); number++ {
		cells, err := rows.Columns(excelize.Options{RawCellValue: true})
		if err != nil {
			break
		}
		if blank(cells) {
			continue
		}
		if len(lines) >= sheetRowsMax || len(cells) > sheetColsMax && !blank(cells[sheetColsMax:]) {
			problems.Add(tooManyRows(s.place()))
			return nil, false
		}
		lines = append(lines, line{number: number, cells: cells})
	}
	if rows.Error() != nil {
		p := notRead(s.file, "This sheet is damaged.")
		p.Place = s.place()
		problems.Add(p)
		return nil, false
	}
	return lines, true
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
