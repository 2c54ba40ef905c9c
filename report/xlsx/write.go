package xlsx

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"time"

	"github.com/xuri/excelize/v2"

	"piecebook/report/workbook"
)

// Write composes a workbook and writes it; sheets that are Long are written while
// they are composed. Beside every formula stands its result, so that
// viewers that work nothing out show it too. The same book gives the same
// bytes. An amount that a spreadsheet's numbers cannot hold to the cent (over
// 15 digits) is an error that names its cell.
func Write(w io.Writer, compose func(*workbook.Book)) error {
	f := excelize.NewFile()
	defer f.Close()
	out := &writer{file: f, book: &workbook.Book{}, styles: map[style]int{}, rows: map[*workbook.Sheet]*rowWriter{}}
	if err := f.SetDefaultFont(typeface); err != nil {
		return err
	}
	out.book.Begin = out.begin
	compose(out.book)
	parts, err := out.all()
	if err != nil {
		return err
	}
	var raw bytes.Buffer
	if err := f.Write(&raw); err != nil {
		return fmt.Errorf("writing the workbook: %w", err)
	}
	return repack(w, raw.Bytes(), parts)
}

// writer is one workbook on its way.
type writer struct {
	file   *excelize.File
	book   *workbook.Book
	styles map[style]int
	rows   map[*workbook.Sheet]*rowWriter
	failed error // to make a style, the first time
}

// begin writes the rows of a sheet that it has, and returns what takes further ones.
func (w *writer) begin(s *workbook.Sheet) func(place int, row workbook.Row) {
	r := &rowWriter{to: newPacked(), sheet: s, wide: widths(s), style: w.style}
	w.rows[s] = r
	r.compress()
	r.heads()
	for i, row := range s.Rows() {
		r.add(i, row)
	}
	return r.add
}

// all makes everything but the rows, which it returns by the names that the
// library gives their parts.
func (w *writer) all() (map[string]*packed, error) {
	if len(w.book.Sheets) == 0 {
		return nil, fmt.Errorf("a workbook needs a sheet")
	}
	parts := map[string]*packed{}
	for i, s := range w.book.Sheets {
		if w.rows[s] == nil {
			w.begin(s)
		}
		r := w.rows[s]
		if err := cmp.Or(r.end(), r.to.end(false)); err != nil {
			return nil, fmt.Errorf("sheet %s: %w", s.Name, err)
		}
		parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)] = r.to
	}
	if w.failed != nil {
		return nil, w.failed
	}
	return parts, w.around()
}

// around makes what is around the rows.
func (w *writer) around() error {
	if err := w.properties(); err != nil {
		return err
	}
	for i, s := range w.book.Sheets {
		var err error
		if i == 0 {
			err = w.file.SetSheetName("Sheet1", s.Name)
		} else {
			_, err = w.file.NewSheet(s.Name)
		}
		if err != nil {
			return fmt.Errorf("sheet %s: %w", s.Name, err)
		}
	}
	for _, s := range w.book.Sheets {
		if err := w.sheet(s); err != nil {
			return fmt.Errorf("sheet %s: %w", s.Name, err)
		}
	}
	return nil
}

// properties says whose workbook it is, and when it stands for.
func (w *writer) properties() error {
	stamp := w.book.Stamp.UTC().Format(time.RFC3339)
	err := w.file.SetDocProps(&excelize.DocProperties{Title: w.book.Title, Creator: w.book.Shop,
		LastModifiedBy: w.book.Shop,
		Subject:        w.book.Subject, Description: w.book.Period, Created: stamp, Modified: stamp, Language: "en"})
	if err != nil {
		return err
	}
	return w.file.SetAppProps(&excelize.AppProperties{Application: "piecebook"})
}

// sheet sets up one sheet, all but its rows. The library's stream is opened last,
// since what is set after is lost.
func (w *writer) sheet(s *workbook.Sheet) error {
	if err := w.page(s); err != nil {
		return err
	}
	for _, l := range w.rows[s].links {
		if err := w.file.SetCellHyperLink(s.Name, l.cell, "'"+l.sheet+"'!A1", "Location"); err != nil {
			return err
		}
	}
	stream, err := w.file.NewStreamWriter(s.Name)
	if err != nil {
		return err
	}
	for i, width := range w.rows[s].wide {
		if err := stream.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	if err := stream.SetPanes(panes(s)); err != nil {
		return err
	}
	return stream.Flush()
}

// panes keeps the heads in view.
func panes(s *workbook.Sheet) *excelize.Panes {
	corner := fmt.Sprintf("%s%d", workbook.Letter(s.Freeze), s.FirstRow())
	pane := "bottomLeft"
	if s.Freeze > 0 {
		pane = "bottomRight"
	}
	return &excelize.Panes{Freeze: true, XSplit: s.Freeze, YSplit: s.HeadRow(), TopLeftCell: corner, ActivePane: pane}
}
