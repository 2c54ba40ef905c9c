package xlsx

import (
	"bytes"
	"cmp"
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"piecebook/report/workbook"
)

// rowWriter writes a sheet's rows as the format has them (ECMA-376 part 1,
// 18.3.1.73 row, 18.3.1.4 c). The library's own stream makes several objects a
// cell, which of a large workbook took longer than all the rest of a pack.
type rowWriter struct {
	to     *packed
	full   chan []byte // rows to compress, while further ones are made
	empty  chan []byte // room for more
	ended  chan error  // all are compressed
	sheet  *workbook.Sheet
	wide   []float64 // of the columns
	style  func(style) int
	row    []byte      // what is not handed on yet
	names  []string    // of the columns: A, B
	last   []madeStyle // of the columns
	links  []link
	failed error // the first
}

// madeStyle is the style of a column's last cell, before the first that of no cell:
// most cells have the one above's.
type madeStyle struct {
	style
	id int
}

// link is a cell that leads to a sheet.
type link struct{ cell, sheet string }

// handedOn is how many bytes of rows are compressed at once.
const handedOn = 32 << 10

// compress begins to compress what is handed on, beside the making of rows.
func (r *rowWriter) compress() {
	r.full, r.empty, r.ended = make(chan []byte), make(chan []byte, 2), make(chan error, 1)
	for range cap(r.empty) {
		r.empty <- nil
	}
	go func() {
		var failed error
		for rows := range r.full {
			_, err := r.to.Write(rows)
			failed = cmp.Or(failed, err)
			r.empty <- rows[:0]
		}
		r.ended <- failed
	}()
}

// handOn has what is written so far compressed.
func (r *rowWriter) handOn() {
	r.full <- r.row
	r.row = <-r.empty
}

// end ends the rows; its error is the first.
func (r *rowWriter) end() error {
	r.handOn()
	close(r.full)
	return cmp.Or(r.failed, <-r.ended)
}

// heads begins a sheet whose columns' widths are known: its title, the notes and
// the heads.
func (r *rowWriter) heads() {
	s := r.sheet
	title := style{role: roleTitle}
	r.last = slices.Repeat([]madeStyle{{title, r.style(title)}}, len(s.Columns))
	for j := range max(1, len(s.Columns)) {
		r.names = append(r.names, workbook.Letter(j))
	}
	r.words(1, 22, s.Title, r.style(title))
	for i, words := range s.Notes {
		r.words(2+i, 0, words, r.style(style{role: roleNote}))
	}
	r.begin(s.HeadRow(), headHeight(s, r.wide))
	for j, c := range s.Columns {
		r.text(j, s.HeadRow(), r.style(headStyle(s, j)), clean(c.Head))
	}
	r.put("</row>")
}

// add writes a row.
func (r *rowWriter) add(place int, row workbook.Row) {
	number := r.sheet.FirstRow() + place
	r.begin(number, height(r.sheet, place, row, r.wide))
	eachCell(r.sheet, row, func(j int, st style, c *workbook.Cell) {
		if r.last[j].style != st {
			r.last[j] = madeStyle{st, r.style(st)}
		}
		if c.Link != "" {
			r.links = append(r.links, link{r.names[j] + strconv.Itoa(number), c.Link})
		}
		if err := r.cell(j, number, r.last[j].id, c); err != nil {
			r.failed = cmp.Or(r.failed, fmt.Errorf("%s%d: %w", r.names[j], number, err))
		}
	})
	r.put("</row>")
	if len(r.row) > handedOn {
		r.handOn()
	}
}

// words writes a row of one cell.
func (r *rowWriter) words(number int, high float64, words string, id int) {
	r.begin(number, high)
	r.text(0, number, id, clean(words))
	r.put("</row>")
}

// cell writes one cell: with its formula its result, so that viewers that work
// nothing out show it too.
func (r *rowWriter) cell(column, number, id int, c *workbook.Cell) error {
	switch {
	case c.Formula == "" && c.Value.None() && c.Text != "":
		r.text(column, number, id, clean(c.Text))
		return nil
	case c.Value.None() && c.Formula != "":
		r.open(column, number, id, "str")
	default:
		r.open(column, number, id, "")
	}
	if c.Formula != "" {
		r.put("<f>")
		r.escaped(c.Formula)
		r.put("</f>")
	}
	switch {
	case !c.Value.None():
		f, err := stored(c)
		if err != nil {
			return err
		}
		r.put("<v>")
		r.number(f)
		r.put("</v>")
	case c.Text != "":
		r.put("<v>")
		r.escaped(clean(c.Text))
		r.put("</v>")
	}
	r.put("</c>")
	return nil
}

// text writes a cell of words.
func (r *rowWriter) text(column, number, id int, words string) {
	r.open(column, number, id, "inlineStr")
	if strings.TrimSpace(words) != words {
		r.put(`<is><t xml:space="preserve">`)
	} else {
		r.put("<is><t>")
	}
	r.escaped(words)
	r.put("</t></is></c>")
}

func (r *rowWriter) begin(number int, high float64) {
	r.put(`<row r="`)
	r.row = strconv.AppendInt(r.row, int64(number), 10)
	if high > 0 {
		r.put(`" ht="`)
		r.row = strconv.AppendFloat(r.row, high, 'f', -1, 64)
		r.put(`" customHeight="1`)
	}
	r.put(`">`)
}

func (r *rowWriter) open(column, number, id int, kind string) {
	r.put(`<c r="`)
	r.put(r.names[column])
	r.row = strconv.AppendInt(r.row, int64(number), 10)
	r.put(`" s="`)
	r.row = strconv.AppendInt(r.row, int64(id), 10)
	if kind != "" {
		r.put(`" t="`)
		r.put(kind)
	}
	r.put(`">`)
}

func (r *rowWriter) put(text string) { r.row = append(r.row, text...) }

// letterMark is what the format reads as one letter by its number: words that
// have it must say that they mean it (ECMA-376 part 1, 22.9.2.19 ST_Xstring).
var letterMark = regexp.MustCompile(`_(x[0-9A-Fa-f]{4}_)`)

// escaped writes words with what XML takes for its own escaped.
func (r *rowWriter) escaped(words string) {
	if strings.Contains(words, "_x") {
		words = letterMark.ReplaceAllString(words, "_x005F_$1")
	}
	from := 0
	for i := range len(words) {
		var by string
		switch words[i] {
		case '&':
			by = "&amp;"
		case '<':
			by = "&lt;"
		case '>':
			by = "&gt;"
		case '\'':
			by = "&#39;"
		case '"':
			by = "&#34;"
		default:
			continue
		}
		r.put(words[from:i])
		r.put(by)
		from = i + 1
	}
	r.put(words[from:])
}

// number writes a number to 15 digits, as many as a spreadsheet keeps: what is
// beyond them is cut off.
func (r *rowWriter) number(f float64) {
	from := len(r.row)
	r.row = strconv.AppendFloat(r.row, f, 'f', -1, 64)
	text := r.row[from:]
	point, digits := bytes.IndexByte(text, '.'), 0
	for i, c := range text {
		if c < '0' || c > '9' || digits == 0 && c == '0' {
			continue
		}
		if digits++; digits <= mostDigits {
			continue
		}
		if point >= 0 && i >= point {
			r.row = bytes.TrimSuffix(r.row[:from+i], []byte("."))
			return
		}
		text[i] = '0'
	}
	if digits > mostDigits && point >= 0 {
		r.row = r.row[:from+point]
	}
}

// mostDigits is how many decimal digits a number keeps on its way through a
// spreadsheet's binary ones.
const mostDigits = 15

// stored is a cell's value as a spreadsheet keeps it. Programs that read it keep
// numbers in binary: whatever a person may add up must come back from there digit
// by digit, or it is an error.
func stored(c *workbook.Cell) (float64, error) {
	if c.Kind != workbook.KindMoney {
		return c.Value.Float64(), nil
	}
	if cents, ok := c.Value.Cents(); ok && cents > -smallest && cents < smallest {
		// Both are exact, and division rounds to the nearest.
		return float64(cents) / 100, nil
	}
	x := c.Value.Rat()
	if !new(big.Rat).Mul(x, big.NewRat(100, 1)).IsInt() {
		return 0, fmt.Errorf("%s is money finer than the currency's hundredths", x.RatString())
	}
	digits := x.FloatString(2)
	f, err := strconv.ParseFloat(digits, 64)
	if err != nil || len(strings.TrimPrefix(digits, "-")) > mostDigits+len(".") {
		return 0, fmt.Errorf("%s has more digits than a spreadsheet keeps", digits)
	}
	return f, nil
}

// smallest is the least amount in cents with more digits than a spreadsheet keeps.
const smallest = 1_000_000_000_000_000
