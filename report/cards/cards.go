// Package cards makes cards to fill in by hand: for the bench, the shelf and a
// sale. Their places to write in are columns of the tables, in the order in
// which the starter workbook has them, so that typing in is copying down.
package cards

import (
	"fmt"
	"slices"

	"piecebook/report/page"
	"piecebook/templates"
)

// Kind is a kind of card.
type Kind string

// The kinds.
const (
	Bench Kind = "bench"
	Shelf Kind = "shelf"
	Sale  Kind = "sale"
)

// Kinds are all of them, in the order they are made.
var Kinds = []Kind{Bench, Shelf, Sale}

// Order is what cards are asked for.
type Order struct {
	Kinds    []Kind // none: all
	One      bool   // one to a page in place of four
	Paper    page.Paper
	Shop     string
	Supplies []string // for the shelf card, the ones to count first in front; none: blank lines
}

// Lines of a card: of four to a page, and of one.
var (
	workLines  = map[bool]int{false: 4, true: 10}
	shelfLines = map[bool]int{false: 12, true: 26}
)

// countFirst is how many lines of a shelf card stand first: those that move
// the most money.
const countFirst = 5

// maker builds cards from the tables' columns.
type maker struct {
	set *templates.Set
	Order
}

// Doc is the cards, a kind a section.
func Doc(set *templates.Set, o Order) page.Document {
	m := maker{set, o}
	d := page.Document{Title: "Cards to fill in by hand", Shop: o.Shop, Paper: o.Paper, Author: o.Shop,
		Subject: "Bench, shelf and sale cards"}
	kinds := o.Kinds
	if len(kinds) == 0 {
		kinds = Kinds
	}
	for _, k := range kinds {
		var cards []page.Form
		switch k {
		case Bench:
			cards = []page.Form{m.bench()}
		case Shelf:
			cards = m.shelf()
		case Sale:
			cards = []page.Form{m.sale()}
		}
		d.Sections = append(d.Sections, page.Section{Title: cards[0].Title, Untitled: true, NewPage: true,
			Blocks: m.laidOut(cards)})
	}
	return d
}

// laidOut puts cards on pages: one each, or four, a single card four times.
func (m *maker) laidOut(cards []page.Form) []page.Block {
	var out []page.Block
	if m.One {
		for i, c := range cards {
			if i > 0 {
				out = append(out, page.Break{})
			}
			c.Down = 1
			out = append(out, c)
		}
		return out
	}
	for len(cards)%4 != 0 {
		cards = append(cards, cards[0])
	}
	for i := 0; i < len(cards); i += 2 {
		cards[i].Down, cards[i+1].Down = 2, 2
		out = append(out, page.Columns{LeftSpan: 3, Left: []page.Block{cards[i]}, Right: []page.Block{cards[i+1]}})
	}
	return out
}

// row is columns of a table beside each other; parts are their parts of the width.
func (m *maker) row(head bool, table string, columns []string, parts ...int) page.FormRow {
	r := page.FormRow{Head: head}
	for i, name := range columns {
		r.Blanks = append(r.Blanks, page.Blank{Label: m.set.Table(table).Field(name).Title, Part: parts[i]})
	}
	return r
}

// lines is a head and lines to write on, of columns of a table.
func (m *maker) lines(n int, table string, columns []string, ticks map[string][]string, parts ...int) []page.FormRow {
	out := []page.FormRow{m.row(true, table, columns, parts...)}
	line := page.FormRow{}
	for i, name := range columns {
		line.Blanks = append(line.Blanks, page.Blank{Part: parts[i], Ticks: ticks[name]})
	}
	return append(out, slices.Repeat([]page.FormRow{line}, n)...)
}

// bench is what a piece is, the hours at it and what was put on it.
func (m *maker) bench() page.Form {
	f := page.Form{Title: "Bench card", Under: "to copy into Pieces, Uses and Hours", Rows: []page.FormRow{
		m.row(false, "pieces", []string{"piece", "kind", "description"}, 2, 3, 5),
		m.row(false, "pieces", []string{"got_on", "price", "area", "schedule", "finished_on"}, 2, 2, 2, 2, 2)}}
	n := workLines[m.One]
	f.Rows = append(f.Rows, m.lines(n, "uses", []string{"used_on", "supply", "coats", "amount"},
		map[string][]string{"coats": {"1", "2", "3"}}, 3, 5, 4, 3)...)
	f.Rows = append(f.Rows, m.lines(n, "hours", []string{"worked_on", "hours", "task"}, nil, 3, 3, 9)...)
	return f
}

// shelf is what is left of each supply, those that matter most first. Books
// with many supplies fill several.
func (m *maker) shelf() []page.Form {
	n := shelfLines[m.One]
	columns, parts := []string{"supply", "left", "discarded"}, []int{6, 3, 3}
	var out []page.Form
	for from := 0; from == 0 || from < len(m.Supplies); from += n {
		f := page.Form{Title: "Shelf card", Under: "to copy into Counts", Rows: []page.FormRow{
			m.row(false, "counts", []string{"counted_on"}, 1), m.row(true, "counts", columns, parts...)}}
		if from == 0 {
			f.Rows = append(f.Rows, headed(fmt.Sprintf("These %d first: they move the most money", countFirst)))
		}
		for i := range n {
			if from == 0 && i == countFirst {
				f.Rows = append(f.Rows, headed("Then the others"))
			}
			line := page.FormRow{}
			for j := range columns {
				line.Blanks = append(line.Blanks, page.Blank{Part: parts[j]})
			}
			if at := from + i; at < len(m.Supplies) {
				line.Blanks[0].Value = m.Supplies[at]
			}
			f.Rows = append(f.Rows, line)
		}
		out = append(out, f)
	}
	return out
}

// headed is a row with a heading over all its width.
func headed(words string) page.FormRow {
	return page.FormRow{Head: true, Blanks: []page.Blank{{Label: words}}}
}

// sale is what one sale brought.
func (m *maker) sale() page.Form {
	return page.Form{Title: "Sale card", Under: "to copy into Sales", Rows: []page.FormRow{
		m.row(false, "sales", []string{"sold_on", "pieces"}, 2, 4),
		m.row(false, "sales", []string{"channel", "price"}, 4, 2),
		m.row(false, "sales", []string{"fee", "sales_tax", "delivery_charged"}, 2, 2, 2),
		m.row(false, "sales", []string{"card_fee", "delivery_cost", "receipt"}, 2, 2, 2)}}
}
