// Package accountant composes the workbooks month.xlsx and year.xlsx: figures as
// formulas over the postings, the records they rest on, and checks.
package accountant

import (
	"fmt"
	"maps"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	wb "piecebook/report/workbook"
)

// MonthBook is the month's workbook (month.xlsx): the figures of the month as
// formulas over the postings, the postings with their shares, and the records
// they rest on. Beside each formula stands the figure, which was reached
// without it.
func MonthBook(in report.Input, more ...BookSheet) *wb.Book {
	b := &wb.Book{}
	FillMonth(b, in, more...)
	return b
}

// FillMonth makes a workbook, empty so far, the month's, or that of several months
// that follow each other: in.Month has the figures of the whole period. A second
// column shows in.Year where that began earlier.
func FillMonth(into *wb.Book, in report.Input, more ...BookSheet) {
	newBook(into, &in, "Month workbook", more, nil).fill()
}

// BookSheet is a further sheet of a workbook, which stands after the checks:
// About says on the Cover what it holds, Fill fills it. Fill is called when
// all other sheets but the Cover are there, and may refer to them.
type BookSheet struct {
	Name, Title, About string
	Columns            []wb.Column
	Fill               func(book *wb.Book, sheet *wb.Sheet)
}

// book is a workbook in the making: its sheets by what they are, and where
// things stand in them.
type book struct {
	in   *report.Input
	book *wb.Book

	form *taxyear.Year // of a year's workbook

	cover, statement, months, pieces, sold, stock, inStock, shelf, trips, profit *wb.Sheet
	totals, shares, corrections, checks, postings                                *wb.Sheet
	records                                                                      map[string]*wb.Sheet // by table
	// what the Cover says of each sheet
	words map[*wb.Sheet]string
	// those of which it says how many rows they have
	counted []*wb.Sheet
	// checks that a year adds
	further []check
	// fills a year's sheets, before the checks
	before func()
	// a year's rows of the cover, after the net profit
	coverMore func()

	from     calendar.Month    // the tax year's first month
	carried  bool              // the books began before it
	year     []numberedPosting // the tax year's postings
	openings []opening         // what stood when it began
	kept     map[string]bool   // pieces with postings in it, or shown
	shown    *ledger.Books     // the records that are shown

	formNo    map[[2]int]int // of an amount that a form's line takes, by the line's place and its own
	pieceNo   map[string]int // the numbers that sums go by
	supplyNo  map[string]int
	calls     []*ledger.Shared                // in the order of the postings
	shareRow  map[*ledger.Shared][]int        // of each line
	totalRow  map[*ledger.Shared]int          // of each total
	parts     map[*ledger.Shared][]posting    // what each total was posted as
	charged   map[[2]string][]*ledger.Posting // by supply and piece: shares as they were charged
	corrected []posting                       // what counts and supplies bought again moved on earlier uses
	nowSold   map[string]bool                 // sold in the period
	pieceRow  map[string]int                  // on the sheet of pieces
	periods   []period                        // columns of the statement and the roll-forward
	more      []BookSheet
	moreAt    []*wb.Sheet                         // the sheets of more
	cells     []wb.Cell                           // room for the cells of the next row
	terms     struct{ num, denom, cents big.Int } // room for the next share's
}

// posting is a posting with its row.
type posting struct {
	*ledger.Posting
	row int
}

// period is a column of figures.
type period struct {
	head string
	f    figures.Figures
}

// newBook lays the sheets out in the order they stand in.
func newBook(into *wb.Book, in *report.Input, title string, more []BookSheet, form *taxyear.Year) *book {
	d := in.Document(title)
	b := &book{in: in, form: form, book: into, records: map[string]*wb.Sheet{}, more: more, words: map[*wb.Sheet]string{}}
	into.Title, into.Shop, into.Subject, into.Period, into.Banner = d.Title, d.Shop, d.Subject, d.Period, d.Banner
	into.Stamp, into.Currency, into.A4 = d.Stamp, d.Currency, d.Paper == "a4"
	if d.Fingerprint != "" {
		into.Foot = "Records " + d.Fingerprint
	}
	b.periods = []period{{d.Period, in.Month}}
	if in.Before != nil {
		b.periods = append(b.periods, period{in.Before.To.Name(), *in.Before})
	}
	if in.Year.From < in.Month.From && in.Year.To == in.Month.To {
		b.periods = append(b.periods, period{"Year so far", in.Year})
	}
	b.book.Period = b.periods[0].head
	b.carry()
	b.number()
	title = b.book.Period
	if b.book.Banner != "" {
		title = b.book.Banner + " · " + title
	}
	area := in.Settings().AreaUnit()
	b.cover = b.add("Cover", title, "", heads{}.text(34, "What").money(16, "Figure").wrapped(62, "About it"))
	b.statement = b.add("Statement", "Statement", "receipts, costs and net profit of the period", b.amountColumns("Line"))
	b.months = b.add("Twelve months", "Statement, month by month", "the statement of each of up to twelve months",
		monthColumns(in))
	b.sold = b.add("Sold", "Pieces sold or gone", "the pieces that left in the period, with their profit",
		soldBookColumns())
	b.inStock = b.add("In stock", "Pieces in stock", "the pieces there at the last day, with their age and book cost",
		inStockColumns())
	b.stock = b.add("Stock roll-forward", "Stock of pieces at book cost",
		"the pieces' book cost from the opening to the closing", b.amountColumns("Line"))
	b.shelf = b.add("Shelf", "The shelf, from the opening to the closing",
		"each supply from the opening to the closing, and its coverage", shelfColumns())
	b.trips = b.add("Trips", "Trips", "the period's drives", tripColumns(in.Settings().DistanceUnit()))
	b.pieces = b.add("Pieces", "Pieces, each over its whole life so far",
		"each piece's figures over its whole life; Sold and In stock refer to it", pieceColumns(area))
	b.profit = b.add("Profit to net", "From the profits of the pieces sold to the net profit", "the differences "+
		"between the pieces' profits and the statement, each by its name", heads{}.text(72, "Term").money(16, "Amount"))
	b.checks = b.add("Checks", "Checks", "every amount that can be reached in two ways, with its difference",
		checkColumns())
	for _, m := range more {
		b.moreAt = append(b.moreAt, b.add(m.Name, m.Title, m.About, m.Columns))
	}
	b.totals = b.add("Shared totals", "Totals that were shared", "each amount that several pieces share", totalColumns())
	b.shares = b.add("Shares", "Each share, beside its unrounded formula",
		"each share of such an amount, beside its unrounded formula", shareColumns())
	b.corrections = b.add("Corrections", "What counting and buying again moved on earlier uses",
		"what counting and buying again moved on earlier months' uses", correctionColumns())
	b.postings = b.add("Postings", "Postings", "every movement of money of the tax year, after the opening balances; all "+
		"figures are sums of it", b.postingColumns(area))
	b.counted = []*wb.Sheet{b.totals, b.shares, b.corrections, b.postings}
	b.shown = b.recordsShown()
	b.addRecords()
	return b
}

// add adds a sheet with what the Cover says of it.
func (b *book) add(name, title, about string, columns []wb.Column) *wb.Sheet {
	s := b.book.Add(name, title, columns...)
	b.words[s] = about
	return s
}

// fill fills the sheets, those that others refer to first.
func (b *book) fill() {
	b.fillRecords()
	b.fillPostings()
	b.fillShares()
	b.fillCorrections()
	b.fillPieces()
	b.fillSold()
	b.fillInStock()
	b.fillStatement(b.statement)
	b.fillMonths()
	b.fillStock()
	b.fillShelf()
	b.fillTrips()
	b.fillProfit()
	if b.before != nil {
		b.before()
	}
	b.fillChecks()
	for i, m := range b.more {
		m.Fill(b.book, b.moreAt[i])
	}
	b.fillCover()
}

// number gives every piece and supply a number to be summed by: a spreadsheet
// takes names that look like numbers, patterns or comparisons for those.
func (b *book) number() {
	pieces, supplies := map[string]bool{}, map[string]bool{}
	for _, p := range b.in.All {
		pieces[p.Record.ID] = true
	}
	for _, p := range b.in.Month.Pieces {
		pieces[p.Record.ID] = true
	}
	for _, s := range b.in.Month.Shelf {
		supplies[s.Supply.Name] = true
	}
	for _, o := range b.openings {
		pieces[o.Piece], supplies[o.Supply] = true, true
	}
	var last *ledger.Shared
	for _, p := range b.year {
		pieces[p.Piece], supplies[p.Supply] = true, true
		if p.Of != nil && p.Of != last {
			last = p.Of // its postings mostly follow each other
			supplies[p.Of.Supply] = true
			for _, call := range p.Of.Calls() {
				for _, l := range call.Lines {
					pieces[l.Piece] = true
				}
			}
		}
	}
	b.pieceNo, b.supplyNo = numbered(pieces), numbered(supplies)
	if b.form == nil {
		return
	}
	b.formNo = map[[2]int]int{}
	for i, l := range b.form.Lines {
		for j := range l.Takes {
			b.formNo[[2]int{i, j}] = len(b.formNo) + 1
		}
	}
}

// numbered counts names in their order; the blank one has no number.
func numbered(names map[string]bool) map[string]int {
	delete(names, "")
	out := map[string]int{}
	for i, name := range slices.Sorted(maps.Keys(names)) {
		out[name] = i + 1
	}
	return out
}

// no is a number as a cell, empty for none.
func no(n int) wb.Cell {
	if n == 0 {
		return wb.Cell{}
	}
	return wb.Whole(n)
}

// amountColumns are a line's name and its amount in each period.
func (b *book) amountColumns(head string) []wb.Column {
	out := heads{}.text(46, head)
	for _, p := range b.periods {
		out = out.money(16, p.head)
	}
	return out
}

// The short ways to cells.
func amount(c money.Cents) wb.Cell { return wb.Money(int64(c)) }

func amountIf(c *money.Cents) wb.Cell { return wb.MoneyIf((*int64)(c)) }

func dayCell(d calendar.Date) wb.Cell { return wb.Date(d.Year, d.Month, d.Day) }

func monthCell(m calendar.Month) wb.Cell { return wb.Month(m.Year(), m.Of()) }

// units are cents as units of the currency, exact.
func units(cents *big.Rat) *big.Rat { return new(big.Rat).Quo(cents, big.NewRat(100, 1)) }

// flagged is 1 where something is amiss, so that flags can be counted.
func flagged(amiss bool) wb.Cell {
	if amiss {
		return wb.Whole(1)
	}
	return wb.Whole(0)
}

// sumIfs is a SUMIFS over the postings: what is summed, then pairs of a column
// and its condition.
func (b *book) sumIfs(column string, conditions ...string) string {
	return sumIfs(b.postings, column, conditions...)
}

func sumIfs(s *wb.Sheet, column string, conditions ...string) string {
	out := "SUMIFS(" + s.All(column)
	for i := 0; i < len(conditions); i += 2 {
		out += "," + s.All(conditions[i]) + "," + conditions[i+1]
	}
	return out + ")"
}

// within is the condition of a period whose first and last month stand in two
// rows of the column that the formula is in.
func within(sheet *wb.Sheet, head string) []string {
	return []string{"Month", fmt.Sprintf(`">="&%s`, fixedRow(sheet, head, fromRow)), "Month", fmt.Sprintf(`"<="&%s`,
		fixedRow(sheet, head, toRow))}
}

// The first two rows beneath the heads say which months a column holds.
const (
	fromRow = iota
	toRow
)

// fixedRow is a cell of the same column in one of the first rows: B$5.
func fixedRow(s *wb.Sheet, head string, offset int) string {
	cell := s.Here(head, s.FirstRow()+offset)
	for i, r := range cell {
		if r >= '0' && r <= '9' {
			return cell[:i] + "$" + cell[i:]
		}
	}
	return cell
}

// older says that a column's period lies before the tax year, so that its
// postings are not here: its amounts stand as values.
func (b *book) older(head string) bool { return b.period(head).f.From < b.from }

// period is a column's period.
func (b *book) period(head string) period {
	return b.periods[slices.IndexFunc(b.periods, func(p period) bool { return p.head == head })]
}

// posted is a formula over the postings, none where the column has none.
func (b *book) posted(by func(head string) string) func(head string) string {
	return func(head string) string {
		if b.older(head) {
			return ""
		}
		return by(head)
	}
}

// fillPeriods writes the two rows of months.
func (b *book) fillPeriods(s *wb.Sheet) {
	from, to := []wb.Cell{wb.Text("From")}, []wb.Cell{wb.Text("Through")}
	for _, p := range b.periods {
		from, to = append(from, monthCell(p.f.From)), append(to, monthCell(p.f.To))
	}
	s.Row(wb.Quiet, from...)
	s.Row(wb.Quiet, to...)
}

// sortedKeys are a set's members in order.
func sortedKeys(set map[string]bool) []string { return slices.Sorted(maps.Keys(set)) }
