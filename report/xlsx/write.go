package xlsx

import (
	"bytes"
	"fmt"
	"io"
	"time"

	"github.com/xuri/excelize/v2"

	"piecebook/report/workbook"
)

// Write writes a workbook. Beside every formula stands its result, so that
// viewers that work nothing out show it too. The same book gives the same
// bytes. An amount that a spreadsheet's numbers cannot hold to the cent (over
// 15 digits) is an error that names its cell.
func Write(w io.Writer, b *workbook.Book) error {
	f := excelize.NewFile()
	defer f.Close()
	out := &writer{file: f, book: b, styles: map[style]int{}, wide: map[*workbook.Sheet][]float64{}}
	if err := out.all(); err != nil {
		return err
	}
	var raw bytes.Buffer
	if err := f.Write(&raw); err != nil {
		return fmt.Errorf("writing the workbook: %w", err)
	}
	return repack(w, raw.Bytes(), out.rows())
}

// writer is one workbook on its way.
type writer struct {
	file   *excelize.File
	book   *workbook.Book
	styles map[style]int
	wide   map[*workbook.Sheet][]float64 // of each sheet's columns
}

func (w *writer) all() error {
	if len(w.book.Sheets) == 0 {
		return fmt.Errorf("a workbook needs a sheet")
	}
	if err := w.file.SetDefaultFont(typeface); err != nil {
		return err
	}
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

// rows are what writes the rows of each part that is a sheet, by the names that
// the library gives them.
func (w *writer) rows() map[string]func(io.Writer) error {
	out := map[string]func(io.Writer) error{}
	for i, s := range w.book.Sheets {
		out[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)] = func(to io.Writer) error {
			if err := writeRows(to, s, w.wide[s], w.styles); err != nil {
				return fmt.Errorf("sheet %s: %w", s.Name, err)
			}
			return nil
		}
	}
	return out
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
	w.wide[s] = widths(s)
	if err := w.page(s); err != nil {
		return err
	}
	if err := w.stylesAndLinks(s); err != nil {
		return err
	}
	stream, err := w.file.NewStreamWriter(s.Name)
	if err != nil {
		return err
	}
	for i, width := range w.wide[s] {
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
