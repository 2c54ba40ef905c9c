package page

import "strings"

// Kind is what a cell or column holds; it decides the alignment.
type Kind int

// The kinds. Words stand left; money and numbers align on the decimal.
const (
	KindText Kind = iota
	KindMoney
	KindNumber
	KindDate
	KindDrawn // a bar or dots on the column's Scale; see Drawn
)

// Align overrides a column's usual alignment.
type Align int

// The alignments.
const (
	AlignByKind Align = iota
	AlignLeft
	AlignRight
)

// Cell is one typed value. The zero value is an empty cell.
type Cell struct {
	Kind  Kind
	Text  string // of text, numbers and dates
	Cents int64  // of money
	Full  bool   // money: zero as 0.00, where a dash would hide that it was reached
	Link  string // an anchor it leads to; may be blank
	Drawn *Drawn // of a drawn column
	Of    Ref    // what the figure is made of, for a renderer that opens figures
	// Said is Text with the words in it that open, where these alone do.
	Said Sentence
}

// Text is words.
func Text(s string) Cell { return Cell{Text: s} }

// TextTo is words that lead to an anchor.
func TextTo(s, anchor string) Cell { return Cell{Text: s, Link: anchor} }

// Money is an amount in hundredths: zero prints as a dash, negatives in brackets.
func Money(cents int64) Cell { return Cell{Kind: KindMoney, Cents: cents} }

// FullMoney is an amount whose zero prints as 0.00.
func FullMoney(cents int64) Cell { return Cell{Kind: KindMoney, Cents: cents, Full: true} }

// Number is a number as it is to be printed.
func Number(s string) Cell { return Cell{Kind: KindNumber, Text: s} }

// Date is a date as it is to be printed.
func Date(s string) Cell { return Cell{Kind: KindDate, Text: s} }

// PageHere stands in a linked cell's text for the number of the page its
// anchor is on. A renderer without pages leaves it out.
const PageHere = "\uE000"

// OnPage is words that lead to an anchor, with the page it is on.
func OnPage(s, anchor string) Cell { return TextTo(s+onPage+PageHere, anchor) }

const onPage = ", page "

// Pageless is text without page numbers.
func Pageless(s string) string {
	if !strings.Contains(s, PageHere) {
		return s
	}
	return strings.ReplaceAll(strings.ReplaceAll(s, onPage+PageHere, ""), PageHere, "")
}

// Empty is nothing: 'no value', where a dash would say zero.
func Empty() Cell { return Cell{} }

// IsEmpty says that nothing is to be printed.
func (c Cell) IsEmpty() bool { return c.Kind != KindMoney && c.Text == "" && c.Drawn == nil }

// Column is a column of a table.
type Column struct {
	Head    string
	Kind    Kind
	Align   Align
	Weight  int    // its part of the width to spare; 0: as wide as its cells
	Small   bool   // in the size of record references
	OneLine bool   // never wraps: what has no room is cut, with an ellipsis
	Paper   bool   // only on paper: page numbers
	Scale   *Scale // of a drawn column
	Find    bool   // of a Finder: rows are found by it
	Of      Ref    // of a Detail's table: the figure that the column adds up to, which opens here
}

// RowStyle is a row's standing in its table.
type RowStyle int

// The styles of a row.
const (
	Normal     RowStyle = iota
	Group               // a heading over the rows below it; only its first cell
	Subtotal            // a rule over its numbers
	Total               // a rule over its numbers, bold, with the currency sign
	GrandTotal          // as Total, with a double rule under it
	Quiet               // lighter: beside the account, not in it
)

// Row is one row. Cells beyond those given are empty.
type Row struct {
	Style  RowStyle
	Cells  []Cell
	Indent int    // of the first cell, in steps
	Note   string // small, under the row: its arithmetic
	Anchor string
	Of     Ref // of a Detail's table: the figure that the row is, which opens here
}

// Summing says that a row sums up those above it.
func (s RowStyle) Summing() bool { return s == Subtotal || s == Total || s == GrandTotal }

// Spans is over how many columns the row's first cell may run: a group's
// heading over all, a total's label over the empty cells after it.
func (r Row) Spans(columns int) int {
	if r.Style == Group {
		return columns
	}
	n := 1
	for r.Style.Summing() && n < columns && n < len(r.Cells) && r.Cells[n].IsEmpty() {
		n++
	}
	return n
}

// Table is rows under heads that repeat on every page.
type Table struct {
	known
	Caption string
	Columns []Column
	Rows    []Row
	Note    string // small, under the table
	// NoteFigures is Note with the figures in it, where these open.
	NoteFigures Sentence
	Span        int  // of the six columns; 0: all
	NoHead      bool // two columns that speak for themselves
	Whole       bool // keep on one page where one page can hold it
	Finder      bool // a reader on a screen sorts and filters its rows
}

// Line is a normal row.
func Line(cells ...Cell) Row { return Row{Cells: cells} }

// Styled is a row of the given style.
func Styled(style RowStyle, cells ...Cell) Row { return Row{Style: style, Cells: cells} }
