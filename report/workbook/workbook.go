// Package workbook is a workbook without a renderer: sheets, columns, cells
// with their exact values and, where they are worked out, their formulas.
//
// Who composes one adds the sheets first, in the order they shall stand, then
// fills them in any order, the sheets that others refer to first:
//
//	book := &workbook.Book{Title: "Cost records", Stamp: stamp, Currency: "USD"}
//
// sums := book.Add("Sums", "What was spent", workbook.Column{Head: "What"}, workbook.Column{Head: "Amount", Kind:
// workbook.KindMoney})
//
//	data := book.Add("Lines", "The lines", workbook.Column{Head: "Amount", Kind: workbook.KindMoney})
//	data.Row(workbook.Normal, workbook.Money(1250))
//	data.Row(workbook.Normal, workbook.Money(250))
//	sums.Row(workbook.GrandTotal, workbook.Text("All"), workbook.Money(1500).By("SUM("+data.All("Amount")+")"))
//
// A sheet is one table: its title in A1, notes beneath it, an empty row, the
// heads, the rows. No cells are merged, formulas use plain references, and
// each carries its result, which the code that composes it works out exactly by another
// way: a viewer shows it, and a spreadsheet program that works the formula out
// must come to the same. Package recalc holds a book to that.
package workbook

import (
	"fmt"
	"math/big"
	"strings"
	"time"
)

// Book is a workbook. Stamp is the only date in it that is not a cell's.
type Book struct {
	Title    string
	Shop     string // author, and in the running foot
	Subject  string
	Period   string // in the running head
	Foot     string // in the running foot, such as the records' fingerprint
	Banner   string // in the running head, such as DRAFT
	Stamp    time.Time
	Currency string // the code, such as USD: first and total rows show its sign
	A4       bool   // else Letter
	Sheets   []*Sheet
	// Begin, where set, writes the sheets that are Long while they are filled: it
	// is called with a sheet's first rows, and returns what takes each further one.
	// A row's cells hold until the call ends.
	Begin func(*Sheet) func(place int, r Row)
}

// FirstRows is how many rows a sheet's columns are known by: their widths, say.
const FirstRows = 2000

// Sheet is one table with its title.
type Sheet struct {
	Name      string // unique, at most 31 characters
	Title     string // in A1
	Notes     []string
	Columns   []Column
	Landscape bool
	Freeze    int  // columns that stay in view beside the heads
	Filter    bool // buttons on the heads to pick rows by
	Long      bool // its rows are not read back, so that a large book need not be kept

	book     *Book
	lastLine int
	count    int // of rows
	rows     []packed
	take     func(place int, r Row) // takes the rows from FirstRows on; nil: they are kept
	large    []*big.Rat             // values that are no small fractions
	packing  []byte                 // room to pack the next row in
}

// Kind is what a cell holds.
type Kind uint8

// The kinds.
const (
	KindText Kind = iota
	KindMoney
	KindNumber
	KindDate
	KindMonth
	KindHours   // to the hundredth, shown with two decimals
	KindPercent // a ratio, shown as a percentage with one decimal
)

// Column is a column's head and how wide it is.
type Column struct {
	Head  string
	Kind  Kind    // the head stands to the right over numbers
	Width float64 // in characters; 0: as wide as its cells want, up to 48
	Wrap  bool    // long text takes several lines
	// Summed adds the values up while rows come in, for Sheet.Summed.
	Summed bool
	sum    Value
}

// Style is how a row stands out.
type Style uint8

// The styles of rows.
const (
	Normal     Style = iota
	Subtotal         // bold under a single rule
	GrandTotal       // bold between a single and a double rule; with the currency's sign
	Quiet            // grey: apart from the sums
	Group            // names the rows beneath it
	First            // a normal row that shows the currency's sign
)

// Row is a row of cells; missing ones at its end are empty.
type Row struct {
	Style Style
	Cells []Cell
}

// Cell is a cell. The zero Cell is empty. Its fields stand in an order that
// keeps it small: a large workbook has a million.
type Cell struct {
	Text     string // of text
	Formula  string // without the equals sign; blank: a plain value
	Link     string // the name of a sheet to go to
	Value    Value  // of anything else: money in units, dates as days since 1899-12-30; none: empty
	Kind     Kind
	Decimals int8 // shown, of numbers; negative: at most so many
	Full     bool // zero is 0.00, not a dash
}

// Text is a cell of words, whatever they begin with.
func Text(s string) Cell { return Cell{Text: s} }

// Money is an exact amount in hundredths of the currency's unit; zero shows as
// a dash.
func Money(cents int64) Cell { return Cell{Kind: KindMoney, Value: fraction(cents, 100)} }

// MoneyIf is an amount, empty where there is none.
func MoneyIf(cents *int64) Cell {
	if cents == nil {
		return Cell{}
	}
	return Money(*cents).InFull()
}

// Exact is an amount of money in units that need not be whole hundredths, such
// as a share before it is rounded. It shows with four decimals.
func Exact(units *big.Rat) Cell { return Number(units, 4) }

// ExactRatio is Exact of num/denom, neither of which is kept. Small ones are not
// brought to lowest terms first.
func ExactRatio(num, denom *big.Int) Cell {
	if num.IsInt64() && denom.IsInt64() {
		return Cell{Kind: KindNumber, Value: fraction(num.Int64(), denom.Int64()), Decimals: 4}
	}
	return Exact(new(big.Rat).SetFrac(num, denom))
}

// Number is a number with so many decimals shown (at most so many where
// negative); empty where nil. The cell holds it to 15 digits.
func Number(x *big.Rat, decimals int) Cell {
	if x == nil {
		return Cell{}
	}
	return Cell{Kind: KindNumber, Value: Exactly(x), Decimals: int8(decimals)}
}

// Whole is a whole number.
func Whole(n int) Cell { return Cell{Kind: KindNumber, Value: fraction(int64(n), 1)} }

// Hours are hours shown to the hundredth; empty where nil.
func Hours(x *big.Rat) Cell {
	if x == nil {
		return Cell{}
	}
	return Cell{Kind: KindHours, Value: Exactly(x)}
}

// Percent is a ratio shown as a percentage; empty where nil.
func Percent(x *big.Rat) Cell {
	if x == nil {
		return Cell{}
	}
	return Cell{Kind: KindPercent, Value: Exactly(x)}
}

// epoch is day 0 of spreadsheet dates, for days from 1900-03-01 on.
var epoch = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

// Date is a day; empty where year is 0. Spreadsheets number days rightly from
// March 1900 on: an earlier one is written out as text.
func Date(year int, month time.Month, day int) Cell {
	if year == 0 {
		return Cell{}
	}
	days := int64(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Sub(epoch) / (24 * time.Hour))
	if days < 61 {
		return Text(fmt.Sprintf("%04d-%02d-%02d", year, month, day))
	}
	return Cell{Kind: KindDate, Value: fraction(days, 1)}
}

// Month is a month, which the cell holds as its first day.
func Month(year int, month time.Month) Cell {
	c := Date(year, month, 1)
	if !c.Value.None() {
		c.Kind = KindMonth
	}
	return c
}

// By gives a cell the formula it is worked out by, without the equals sign.
func (c Cell) By(formula string) Cell { c.Formula = formula; return c }

// To makes a cell lead to a sheet.
func (c Cell) To(s *Sheet) Cell { c.Link = s.Name; return c }

// InFull shows a zero as 0.00 instead of a dash.
func (c Cell) InFull() Cell { c.Full = true; return c }

// Add adds a sheet at the end. A name that is no name for a sheet, or is taken,
// is cut and numbered.
func (b *Book) Add(name, title string, columns ...Column) *Sheet {
	s := &Sheet{Name: b.free(name), Title: title, Columns: columns, book: b}
	b.Sheets = append(b.Sheets, s)
	return s
}

// longestName is what spreadsheet programs take.
const longestName = 31

// free is a name for a sheet that no other has: names differ without regard
// to case.
func (b *Book) free(name string) string {
	name = strings.Map(func(r rune) rune {
		if strings.ContainsRune(`:\/?*[]'`, r) || r < ' ' {
			return -1
		}
		return r
	}, name)
	for n := 1; ; n++ {
		end := ""
		if n > 1 {
			end = fmt.Sprintf(" %d", n)
		}
		letters := []rune(name)
		try := strings.TrimSpace(string(letters[:min(len(letters), longestName-len(end))])) + end
		if b.Sheet(try) == nil && strings.TrimSpace(try) != "" {
			return try
		}
	}
}

// Sheet finds a sheet by its name without regard to case; nil where there is none.
func (b *Book) Sheet(name string) *Sheet {
	for _, s := range b.Sheets {
		if strings.EqualFold(s.Name, name) {
			return s
		}
	}
	return nil
}
