package xlsx

import (
	"bytes"
	"fmt"
	"io"
	"math/big"
	"strconv"
	"strings"
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
	out := &writer{file: f, book: b, styles: map[style]int{}}
	if err := out.all(); err != nil {
		return err
	}
	var raw bytes.Buffer
	if err := f.Write(&raw); err != nil {
		return fmt.Errorf("writing the workbook: %w", err)
	}
	packed, err := Repack(raw.Bytes())
	if err != nil {
		return err
	}
	_, err = w.Write(packed)
	return err
}

// writer is one workbook on its way.
type writer struct {
	file   *excelize.File
	book   *workbook.Book
	styles map[style]int
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

// sheet writes one sheet: all that is no row before the stream is opened,
// since what is set after is lost.
func (w *writer) sheet(s *workbook.Sheet) error {
	if err := w.page(s); err != nil {
		return err
	}
	if err := w.links(s); err != nil {
		return err
	}
	stream, err := w.file.NewStreamWriter(s.Name)
	if err != nil {
		return err
	}
	for i, width := range widths(s) {
		if err := stream.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	if err := stream.SetPanes(panes(s)); err != nil {
		return err
	}
	if err := w.rows(stream, s); err != nil {
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

// rows writes the title, the notes, the heads and the rows.
func (w *writer) rows(stream *excelize.StreamWriter, s *workbook.Sheet) error {
	put := func(row int, cells []any, opts ...excelize.RowOpts) error {
		return stream.SetRow(fmt.Sprintf("A%d", row), cells, opts...)
	}
	title, err := w.style(style{role: roleTitle})
	if err != nil {
		return err
	}
	if err := put(1, []any{excelize.Cell{StyleID: title, Value: clean(s.Title)}},
		excelize.RowOpts{Height: 22}); err != nil {
		return err
	}
	note, err := w.style(style{role: roleNote})
	if err != nil {
		return err
	}
	for i, words := range s.Notes {
		if err := put(2+i, []any{excelize.Cell{StyleID: note, Value: clean(words)}}); err != nil {
			return err
		}
	}
	heads := make([]any, len(s.Columns))
	for i, c := range s.Columns {
		id, err := w.style(style{role: roleHead, kind: c.Kind, indent: i > 0 && c.Kind == workbook.KindText &&
			s.Columns[i-1].Kind != workbook.KindText})
		if err != nil {
			return err
		}
		heads[i] = excelize.Cell{StyleID: id, Value: clean(c.Head)}
	}
	if err := put(s.HeadRow(), heads, excelize.RowOpts{Height: headHeight(s)}); err != nil {
		return err
	}
	wide := widths(s)
	for i := range s.Rows {
		cells, err := w.cells(s, i)
		if err != nil {
			return err
		}
		if err := put(s.FirstRow()+i, cells, excelize.RowOpts{Height: height(s, i, wide)}); err != nil {
			return err
		}
	}
	return nil
}

// cells brings one row into what the stream takes. A ruled row is ruled in all
// its columns.
func (w *writer) cells(s *workbook.Sheet, i int) ([]any, error) {
	row := s.Rows[i]
	n := len(row.Cells)
	if row.Style != workbook.Normal {
		n = len(s.Columns)
	}
	out := make([]any, n)
	for j := range out {
		var c workbook.Cell
		if j < len(row.Cells) {
			c = row.Cells[j]
		}
		if c == (workbook.Cell{}) && row.Style == workbook.Normal {
			continue
		}
		st := styleOf(row.Style, s.Columns[j], c)
		st.indent = j > 0 && c.Value == nil && s.Columns[j].Kind == workbook.KindText &&
			s.Columns[j-1].Kind != workbook.KindText
		id, err := w.style(st)
		if err != nil {
			return nil, err
		}
		value, err := stored(c)
		if err != nil {
			return nil, fmt.Errorf("%s%d: %w", workbook.Letter(j), s.FirstRow()+i, err)
		}
		out[j] = excelize.Cell{StyleID: id, Formula: c.Formula, Value: value}
	}
	return out, nil
}

// smallCents is an amount in cents where it is whole and of few enough digits
// for its hundredth to be the binary number nearest to it: both are exact, and
// division rounds to the nearest.
func smallCents(x *big.Rat) (int64, bool) {
	if !x.Num().IsInt64() || !x.Denom().IsInt64() {
		return 0, false
	}
	num, denom := x.Num().Int64(), x.Denom().Int64()
	const most = 1_000_000_000_000_000 / 100 // 15 digits in cents
	if 100%denom != 0 || num <= -most || num >= most {
		return 0, false
	}
	return num * (100 / denom), true
}

// mostDigits is how many decimal digits a number keeps on its way through a
// spreadsheet's binary ones.
const mostDigits = 15

// stored is a cell's value as the library takes it. The library, and the
// programs that read what it writes, keep numbers in binary: whatever a person
// may add up must come back from there digit by digit, or it is an error.
func stored(c workbook.Cell) (any, error) {
	switch {
	case c.Value == nil && c.Text == "" && c.Formula != "":
		return "", nil
	case c.Value == nil && c.Text == "":
		return nil, nil
	case c.Value == nil:
		return clean(c.Text), nil
	}
	if c.Kind != workbook.KindMoney {
		f, _ := c.Value.Float64()
		return f, nil
	}
	if cents, ok := smallCents(c.Value); ok {
		return float64(cents) / 100, nil
	}
	if !new(big.Rat).Mul(c.Value, big.NewRat(100, 1)).IsInt() {
		return nil, fmt.Errorf("%s is money finer than the currency's hundredths", c.Value.RatString())
	}
	digits := c.Value.FloatString(2)
	f, err := strconv.ParseFloat(digits, 64)
	if err != nil || len(strings.TrimPrefix(digits, "-")) > mostDigits+len(".") {
		return nil, fmt.Errorf("%s has more digits than a spreadsheet keeps", digits)
	}
	return f, nil
}
