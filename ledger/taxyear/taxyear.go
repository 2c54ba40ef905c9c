package taxyear

import (
	"errors"
	"math/big"
	"slices"
	"strings"
	"time"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// ErrBeforeBooks is returned for a year that ends before the first record.
var ErrBeforeBooks = errors.New("the books begin after that year")

// source is what a year is worked out from.
type source struct {
	l        *costing.Ledger
	b        *ledger.Books
	year     int
	from, to calendar.Month   // of the year, as far back as the books reach
	life     []ledger.Posting // all up to the year's end
	table    templates.TaxLines
	tax      *templates.Tax
	limit    func(day string) int64
	whenUsed bool
	stays    map[string]bool
	out      closing.NotStaying // supplies that the treatment leaves out of stock; none where it leaves out none
	assets   []Asset
}

// For works out a tax year. The ledger must have been costed to its December.
// Limit gives, in cents, what an item of equipment bought on a day may cost
// to be written off at once (templates.Rates.AtOnceCents).
func For(l *costing.Ledger, year int, tax *templates.Tax, limit func(day string) int64) (*Year, error) {
	to := calendar.MonthOf(year, time.December)
	if len(l.Months) == 0 || costing.FirstMonth(l.Books, to+1) > to {
		return nil, ErrBeforeBooks
	}
	tax, err := tax.Of(year)
	if err != nil {
		return nil, err
	}
	s := &source{l: l, b: l.Books, year: year, to: to, from: max(l.Months[0].Month, calendar.MonthOf(year, time.January)),
		table: tax.Lines(year), tax: tax, limit: limit, whenUsed: l.Books.Settings.TaxSupplies == "when used",
		stays: l.Books.Stays()}
	for _, p := range l.Postings() {
		if p.Month <= to {
			s.life = append(s.life, p)
		}
	}
	if s.whenUsed {
		s.out = closing.NewNotStaying(s.b, s.life)
	}
	s.assets = s.allAssets()
	return s.assemble()
}

// assemble makes the year from its parts, in the order they rest on each other.
func (s *source) assemble() (*Year, error) {
	y := &Year{Year: s.year, Books: s.b, Table: s.table, WhenUsed: s.whenUsed, Last: s.lastRecord()}
	index := figures.NewIndex(s.l)
	y.Figures = index.For(s.from, s.to)
	y.Figures.From = calendar.MonthOf(s.year, time.January)
	for m := s.from; m <= s.to; m++ {
		y.Months = append(y.Months, index.For(m, m))
	}
	of := s.amounts()
	lines, err := s.lines(of)
	if err != nil {
		return nil, err
	}
	y.Lines = lines
	y.Assets = s.assets
	for _, a := range s.assets {
		y.Depreciation += a.Now
	}
	y.LateBuying = s.lateBuying(s.year)
	y.Mileage = s.mileage()
	y.Channels = s.channels()
	y.Statements = s.statements(y.Channels)
	y.Stock, y.Shelf = s.stock(y.Figures), s.shelf(y.Figures)
	y.Gone = s.gone(y.Figures)
	y.Payees, y.Home = s.payees(), s.home(y)
	y.FormForEquipment, y.Bridge = s.formForEquipment(), s.bridge(y)
	y.apart, y.methodRule, y.source = s.notStaying(), s.tax.Rule(templates.RuleMethod).Words, s
	y.SalesTax = s.salesTax()
	y.Papers = s.papers()
	y.NoReceipt, y.SmallCosts = s.withoutReceipt(y.Papers)
	y.Ties = append(slices.Clone(y.Figures.TieOut), s.ties(y, of)...)
	y.Missing = s.missing(y)
	y.Remarks = s.remarks(y, of)
	return y, nil
}

// Line is the line of that number; nil where the year's form has none.
func (y *Year) Line(number string) *Line {
	for i := range y.Lines {
		if y.Lines[i].Line == number {
			return &y.Lines[i]
		}
	}
	return nil
}

// Amount is a line's amount; 0.00 where there is no such line.
func (y *Year) Amount(number string) money.Cents {
	if l := y.Line(number); l != nil {
		return l.Cents
	}
	return 0
}

// Taking is the number of the line that takes an amount of the books, blank
// where the year's form has none, and what it takes of it, unsigned.
func (y *Year) Taking(id figures.ID) (string, money.Cents) {
	for _, l := range y.Lines {
		for _, p := range l.Parts {
			switch {
			case p.Amount != id:
			case p.Less:
				return l.Line, -p.Cents
			default:
				return l.Line, p.Cents
			}
		}
	}
	return "", 0
}

// Number is the number of the line that takes an amount of the books; blank
// where the year's form has none.
func (y *Year) Number(id figures.ID) string {
	number, _ := y.Taking(id)
	return number
}

// Alone is the number of the line that takes an amount of the books and nothing
// else; blank where the year's form has none.
func (y *Year) Alone(id figures.ID) string {
	number := y.Number(id)
	if l := y.Line(number); l == nil || len(l.Parts) != 1 {
		return ""
	}
	return number
}

// Net is the profit that the form's lines come to.
func (y *Year) Net() money.Cents { return y.Amount(y.Table.Holds.Profit) }

// outUpTo is what the treatment leaves out of a piece's cost up to a month.
func (s *source) outUpTo(piece string, m calendar.Month) money.Cents {
	return s.out.UpTo(piece, closing.EndOf(m))
}

// inYear says that a day falls in the year.
func (s *source) inYear(d calendar.Date) bool { return d.Year == s.year }

func term(id figures.ID, c money.Cents) figures.Term { return figures.Term{ID: id, Cents: c} }

// listTerm is a term that adds up records' amounts.
func listTerm(id figures.ID, entries []figures.Entry) figures.Term {
	t := figures.Term{ID: id, Entries: entries}
	for _, e := range entries {
		t.Cents += e.Cents
	}
	return t
}

var hundred = big.NewRat(100, 1)

// Whole says that the records reach the year's last month.
func (y *Year) Whole() bool { return y.Last.Of() == 12 && y.Last != 0 }

// End is the year's end in words; of a year whose records stop before
// December, the end of their last month.
func (y *Year) End() string { return endOf(y.Last) }

func endOf(last calendar.Month) string {
	switch {
	case last == 0:
		return "the end of the records"
	case last.Of() == 12:
		return "the year's end"
	}
	return "the end of " + last.Name()
}

// AtOnceLimit is the limit per item for writing off at once on the year's last
// day.
func (y *Year) AtOnceLimit() money.Cents { return y.source.limitOn(y.source.to.Last()) }

// label fills in what a line's words leave open: {end}, and {limit}, the limit
// per item for writing off at once on the year's last day.
func (s *source) label(l templates.TaxLine) string {
	return strings.NewReplacer("{end}", endOf(s.lastRecord()), "{limit}", s.limitOn(s.to.Last()).Grouped()).
		Replace(l.Label)
}
