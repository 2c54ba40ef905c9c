package intake

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
)

// workbook answers what a grid of texts cannot: whether a cell is a date, a
// text, or a formula without a value. A nil one is a plain file, all text.
type workbook struct {
	facts  *sheetFacts
	styles []style
	is1904 bool
}

// openWorkbook reads all sheets of a workbook. A damaged one must not stop
// the run, whatever the library does on it, so a panic is a damaged file.
func openWorkbook(f rawFile, problems *fault.List) (sheets []*sheet) {
	defer func() {
		if recover() != nil {
			sheets = nil
			problems.Add(notRead(f.name, damagedBook, saveAgain))
		}
	}()
	in, why := inspect(f.bytes)
	switch {
	case strings.HasSuffix(why, "records."):
		problems.Add(tooBig(f.name, why, "Take out what is not records, or part it into several files."))
		return nil
	case strings.HasSuffix(why, "letters."):
		problems.Add(fault.Problem{Code: fault.CodeCellTooLong, Place: fault.Place{File: f.name}, Why: why, Fix: "Shorten the text, or take it out."})
		return nil
	case why != "":
		problems.Add(notRead(f.name, why, saveAgain))
		return nil
	}
	if in.isOwnReport() {
		problems.Add(fault.Problem{Code: fault.CodeOwnReport, Note: true, Place: fault.Place{File: f.name},
			Why: "Piecebook made this workbook as part of a report, so it is not read as records.",
			Fix: "Move it out of the records. If you keep records in it, save it as a new workbook in your spreadsheet program."})
		return nil
	}
	packed, err := in.slim()
	if err != nil {
		problems.Add(notRead(f.name, damagedBook, saveAgain))
		return nil
	}
	book, err := excelize.OpenReader(bytes.NewReader(packed), excelize.Options{RawCellValue: true, UnzipSizeLimit: 2 * unzipBytesMax})
	if err != nil {
		problems.Add(notRead(f.name, damagedBook, saveAgain))
		return nil
	}
	// A failure to remove the library's temporary files is no concern of the
	// owner's records.
	defer func() { _ = book.Close() }()
	props, err := book.GetWorkbookProps()
	is1904 := err == nil && props.Date1904 != nil && *props.Date1904
	filled := 0
	for _, facts := range in.sheets {
		s := &sheet{file: f.name, name: facts.name, known: facts.name,
			asks: &workbook{facts: facts, styles: in.styles, is1904: is1904}}
		if lines, ok := readRows(book, s, &filled, problems); ok {
			s.lines = lines
			sheets = append(sheets, s)
		}
	}
	return sheets
}

// slim is the workbook with nothing but the parts that cells come from, under
// their usual names: the library would read pictures and all else into memory,
// and knows the list of texts by its usual name only. What is written here was
// read through before.
func (in *inspection) slim() ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	var failed error
	add := func(name, text string) {
		to, err := w.Create(name)
		if err == nil {
			_, err = io.WriteString(to, text)
		}
		if err != nil {
			failed = err
		}
	}
	take := func(part, name string) {
		if err := copyPart(w, in.parts[part], name); err != nil {
			failed = err
		}
	}
	const kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	links := func(lines ...string) string {
		return xml.Header + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` + strings.Join(lines, "") + `</Relationships>`
	}
	line := func(id, what, target string) string {
		return fmt.Sprintf(`<Relationship Id="%s" Type="%s%s" Target="%s"/>`, id, kind, what, target)
	}
	add("[Content_Types].xml", xml.Header+`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"></Types>`)
	add("_rels/.rels", links(line("rId1", "officeDocument", "xl/workbook.xml")))
	take(in.main, "xl/workbook.xml")
	var parts []string
	for i, f := range in.sheets {
		name := fmt.Sprintf("worksheets/sheet%d.xml", i+1)
		parts = append(parts, line(escaped(f.id), "worksheet", name))
		take(f.part, "xl/"+name)
	}
	if in.texts != "" {
		parts = append(parts, line("texts", "sharedStrings", "sharedStrings.xml"))
		take(in.texts, "xl/sharedStrings.xml")
	}
	add("xl/_rels/workbook.xml.rels", links(parts...))
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), failed
}

// escaped is a text within quotation marks of XML.
func escaped(text string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(text)) // a buffer cannot fail
	return b.String()
}

// copyPart copies a packed part as it is, under another name.
func copyPart(w *zip.Writer, part *zip.File, name string) error {
	from, err := part.OpenRaw()
	if err != nil {
		return err
	}
	to, err := w.CreateRaw(&zip.FileHeader{Name: name, Method: part.Method, CRC32: part.CRC32,
		CompressedSize64: part.CompressedSize64, UncompressedSize64: part.UncompressedSize64})
	if err != nil {
		return err
	}
	_, err = io.Copy(to, from)
	return err
}

// readRows streams one sheet; one that is damaged or beyond the limits is
// refused whole.
func readRows(book *excelize.File, s *sheet, filled *int, problems *fault.List) ([]line, bool) {
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
		if *filled += len(cells); *filled > sheetCellsMax {
			problems.Add(tooManyRows(s.place()))
			return nil, false
		}
		l := line{number: number, cells: cells}
		for i, c := range cells {
			if overlong(c) {
				p := s.place()
				p.Row, p.Column = number, columnLetters(i)
				problems.Add(tooLong(p, c))
				l.broken, cells[i] = true, ""
			}
		}
		lines = append(lines, l)
	}
	if rows.Error() != nil {
		problems.Add(damagedSheet(s))
		return nil, false
	}
	return lines, true
}

// damagedSheet refuses a sheet whole: a part of it would drop rows.
func damagedSheet(s *sheet) fault.Problem {
	p := notRead(s.file, "This sheet is damaged.", saveAgain)
	p.Place = s.place()
	return p
}

// unsavedRow says that a row below the header, blank to the eye, has a formula
// that never got a value: it must be told, not skipped.
func unsavedRow(s *sheet, above []line, number int) bool {
	width := 0
	for _, l := range above[:min(len(above), titleRowsMax)] {
		width = max(width, len(l.cells))
	}
	for _, m := range s.asks.facts.marks[number] {
		if int(m.column) < width && s.asks.isUnsaved(int(m.column), number) {
			return true
		}
	}
	return false
}

// mark is what a cell (column from 0) is.
func (w *workbook) mark(column, row int) mark {
	if w == nil {
		return mark{kind: markText}
	}
	return w.facts.at(column, row)
}

// style is how a cell that is a number is shown; the zero style where it is text.
func (w *workbook) style(column, row int) style {
	m := w.mark(column, row)
	if m.kind&markText != 0 || m.kind == 0 || int(m.style) >= len(w.styles) {
		return style{}
	}
	return w.styles[m.style]
}

// isFormula says that a cell (column from 0) is a formula.
func (w *workbook) isFormula(column, row int) bool { return w.mark(column, row).kind&markFormula != 0 }

// isUnsaved says that a cell is a formula that never got a value. One whose
// value is an empty text (the usual =IF(A2="","",...) ) is merely blank.
func (w *workbook) isUnsaved(column, row int) bool {
	m := w.mark(column, row)
	return m.kind&markFormula != 0 && m.kind&(markText|markValue) == 0
}

// isText says that a cell was saved as text rather than as a number.
func (w *workbook) isText(column, row int) bool { return w.mark(column, row).kind&markText != 0 }

// isDate says that a cell is a number shown as a date or a time.
func (w *workbook) isDate(column, row int) bool { return w.style(column, row).date }

// isDay says that a cell is a number shown as a date, and not only as a time.
func (w *workbook) isDay(column, row int) bool { return w.style(column, row).day }

// isPercent says that a cell is a number shown as a percentage, which is
// stored as a hundredth of what is shown.
func (w *workbook) isPercent(column, row int) bool { return w.style(column, row).percent }
