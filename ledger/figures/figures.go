package figures

import (
	"cmp"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// source is what a period's figures are summed from.
type source struct {
	*Index
	from, to calendar.Month
	sums     sums // of every posting, each line over its span
	opening  costing.State
	closing  costing.State
}

// For sums the figures of the months from..to, as they stand at the end of to.
// The ledger must have been costed that far. Who asks for several periods
// makes one Index and asks that.
func For(l *costing.Ledger, from, to calendar.Month) Figures { return NewIndex(l).For(from, to) }

// For sums the figures of the months from..to, as they stand at the end of to.
func (x *Index) For(from, to calendar.Month) Figures {
	s := &source{Index: x, from: from, to: to, sums: x.all.over(from, to), opening: x.l.At(from - 1), closing: x.l.At(to)}
	f := Figures{From: from, To: to, Currency: x.l.Books.Settings.Currency}
	f.Pieces = s.piecesSeen()
	f.Shelf = s.shelf()
	f.Statement = s.statement()
	f.Stock = s.stock()
	f.TieOut = s.ties(f)
	return f
}

// All is the figures of every piece that the books know by the ledger's last
// month, in stock or long gone, for a profit sheet of any of them.
func (x *Index) All() []Piece {
	if len(x.l.Months) == 0 {
		return nil
	}
	return x.For(x.l.Months[0].Month, x.l.Months[len(x.l.Months)-1].Month).Pieces
}

// All is the figures of every piece that the books know.
func All(l *costing.Ledger) []Piece { return NewIndex(l).All() }

// statement sums the period's income statement.
func (s *source) statement() Statement {
	st := Statement{Expenses: map[string]money.Cents{}}
	for id, at := range statementFields {
		*at(&st) = s.sums.get(OfStatement, id)
	}
	for group, t := range s.groups {
		for _, e := range t.of(s.from, s.to) {
			st.Expenses[group] += e.cents
		}
	}
	st.PartPaymentsUnfinished = s.unfinished(true)
	return st
}

// unfinished is the period's part payments on pieces that have not left, with
// or without the corrections to closed months.
func (s *source) unfinished(corrections bool) money.Cents {
	at := index(OfStatement, LineUnfinished)
	var out money.Cents
	count := func(t *tally, sign money.Cents) {
		if t == nil {
			return
		}
		for _, e := range t.of(s.from, s.to) {
			if e.line == at {
				out += sign * e.cents
			}
		}
	}
	of := func(piece string, t *tally) {
		count(t, 1)
		if !corrections {
			count(s.corrected[piece], -1)
		}
	}
	of("", &s.shop)
	for id, x := range s.pieces {
		if !s.closing.Pieces.Of(id).Gone() {
			of(id, &x.tally)
		}
	}
	return out
}

// statementFields are where the lines of the statement stand in it; those that
// only others are made of are not among them.
var statementFields = map[ID]func(*Statement) *money.Cents{
	LineGrossReceipts: func(st *Statement) *money.Cents { return &st.GrossReceipts },
	LineRefunds:       func(st *Statement) *money.Cents { return &st.Refunds },
	LineNetReceipts:   func(st *Statement) *money.Cents { return &st.NetReceipts },
	LineCostOfSales:   func(st *Statement) *money.Cents { return &st.CostOfPiecesSold },
	LineGrossProfit:   func(st *Statement) *money.Cents { return &st.GrossProfit },
	LineSellingCosts:  func(st *Statement) *money.Cents { return &st.SellingCosts },
	LineTrips:         func(st *Statement) *money.Cents { return &st.Trips },
	LineEquipment:     func(st *Statement) *money.Cents { return &st.Equipment },
	LineShelfLosses:   func(st *Statement) *money.Cents { return &st.ShelfLosses },
	LinePiecesLost:    func(st *Statement) *money.Cents { return &st.PiecesLost },
	LineOtherIncome:   func(st *Statement) *money.Cents { return &st.OtherIncome },
	LineNetProfit:     func(st *Statement) *money.Cents { return &st.NetProfit },
	LineUnfinished:    func(st *Statement) *money.Cents { return &st.PartPaymentsUnfinished },
	LineKept:          func(st *Statement) *money.Cents { return &st.KeptOrDonated },
	LineSalesTaxOwed:  func(st *Statement) *money.Cents { return &st.SalesTaxOwed },
}

// Amount is a line of the statement. Expenses are their groups together.
func (st Statement) Amount(id ID) money.Cents {
	if at := statementFields[id]; at != nil {
		return *at(&st)
	}
	var sum money.Cents
	if id == LineExpenses {
		for _, c := range st.Expenses {
			sum += c
		}
		return sum
	}
	if at := index(OfStatement, id); at >= 0 {
		for _, t := range terms[at] {
			sum += money.Cents(signOf(t.less)) * st.Amount(Lines[t.at].ID)
		}
	}
	return sum
}

// stock sums the pieces' roll-forward at book cost. Opening and closing are
// the states' own, the second way to what the postings come to.
func (s *source) stock() Stock {
	var k Stock
	for _, l := range LinesOf(OfStock) {
		*k.field(l.ID) = s.sums.get(OfStock, l.ID)
	}
	k.Opening, k.Closing = stockAt(s.opening), stockAt(s.closing)
	return k
}

// field is where a line of the roll-forward stands in it.
func (k *Stock) field(id ID) *money.Cents {
	return map[ID]*money.Cents{LineOpening: &k.Opening, LineAcquired: &k.Acquired, LineParts: &k.Parts,
		LineOutsideWork: &k.OutsideWork,
		LineSupplies:    &k.Supplies, LineReturned: &k.Returned, LineSold: &k.Sold, LineRemoved: &k.Removed,
		LineClosing: &k.Closing}[id]
}

// Amount is a line of the roll-forward.
func (k Stock) Amount(id ID) money.Cents { return *k.field(id) }

// stockAt is Σ book cost of the pieces in stock.
func stockAt(state costing.State) money.Cents {
	var sum money.Cents
	for _, st := range state.Pieces.All() {
		if st.Where == costing.InStock {
			sum += st.Book
		}
	}
	return sum
}

// shelf sums each supply that was ever on the shelf, by name. Opening and
// closing are the layers' own.
func (s *source) shelf() []ShelfLine {
	var out []ShelfLine
	last := s.lastMonth()
	for supply := range ledger.Each(s.l.Books.Supplies) {
		shelf, opened := s.closing.Shelf[supply.Name], s.opening.Shelf[supply.Name]
		if len(shelf.Layers) == 0 && len(opened.Layers) == 0 {
			continue
		}
		mine := made(s.supplies, supply.Name).between(s.from, s.to)
		line := ShelfLine{
			Supply:  supply,
			Opening: opened.Cents(),
			Bought:  mine.get(OfShelf, LineBought),
			Used:    mine.get(OfShelf, LineUsed),
			Lost:    mine.get(OfShelf, LineLost),
			Closing: shelf.Cents(),
			Left:    shelf.Left(),
			Basis:   cmp.Or(last.Basis[supply.Name], ledger.NoBasis),
			Own:     shelf.OwnCoverage(),
			Again:   shelf.Bought,
		}
		out = append(out, line)
	}
	slices.SortFunc(out, func(a, b ShelfLine) int { return cmp.Compare(a.Supply.Name, b.Supply.Name) })
	return out
}

// lastMonth is the fold's result of the period's last month.
func (s *source) lastMonth() costing.MonthResult {
	for _, r := range s.l.Months {
		if r.Month == s.to {
			return r
		}
	}
	return s.l.Before
}
