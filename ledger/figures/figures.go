package figures

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// source is what a period's figures are summed from.
type source struct {
	l        *costing.Ledger
	from, to calendar.Month
	life     []ledger.Posting            // all up to the period's end
	period   []ledger.Posting            // those of the period
	byPiece  map[string][]ledger.Posting // life, by piece
	opening  costing.State
	closing  costing.State
}

// For sums the figures of the months from..to, as they stand at the end of to.
// The ledger must have been costed that far.
func For(l *costing.Ledger, from, to calendar.Month) Figures {
	s := &source{l: l, from: from, to: to, byPiece: map[string][]ledger.Posting{}, opening: l.At(from - 1), closing: l.At(to)}
	for _, p := range l.Postings() {
		if p.Month > to {
			continue
		}
		s.life = append(s.life, p)
		if p.Month >= from {
			s.period = append(s.period, p)
		}
		if p.Piece != "" {
			s.byPiece[p.Piece] = append(s.byPiece[p.Piece], p)
		}
	}
	f := Figures{From: from, To: to, Currency: l.Books.Settings.Currency}
	f.Pieces = s.pieces()
	f.Shelf = s.shelf()
	f.Statement = s.statement()
	f.Stock = s.stock()
	f.TieOut = s.ties(f)
	return f
}

// total is Σ cents of the postings that match.
func total(postings []ledger.Posting, match func(ledger.Posting) bool) money.Cents {
	var sum money.Cents
	for _, p := range postings {
		if match(p) {
			sum += p.Cents
		}
	}
	return sum
}

// net is what came to an account less what left it.
func net(postings []ledger.Posting, a ledger.Account) money.Cents {
	return total(postings, func(p ledger.Posting) bool { return p.To == a }) -
		total(postings, func(p ledger.Posting) bool { return p.From == a })
}

// why sums the postings of the given reasons.
func why(postings []ledger.Posting, reasons ...ledger.Reason) money.Cents {
	return total(postings, func(p ledger.Posting) bool { return slices.Contains(reasons, p.Reason) })
}

// statement sums the period's income statement.
func (s *source) statement() Statement {
	p := s.period
	st := Statement{
		GrossReceipts:    why(p, ledger.ReasonSale, ledger.ReasonPartPayment),
		Refunds:          why(p, ledger.ReasonRefund, ledger.ReasonReturn),
		CostOfPiecesSold: net(p, ledger.CostOfSales),
		SellingCosts:     net(p, ledger.SellingCosts),
		Trips:            net(p, ledger.Trips),
		Equipment:        net(p, ledger.EquipmentCost),
		ShelfLosses:      net(p, ledger.ShelfLosses),
		PiecesLost:       net(p, ledger.Lost),
		OtherIncome:      -net(p, ledger.Other),
		KeptOrDonated:    net(p, ledger.Owner),
		SalesTaxOwed:     -net(s.life, ledger.TaxOwed),
		Expenses:         map[string]money.Cents{},
	}
	st.NetReceipts = st.GrossReceipts - st.Refunds
	st.GrossProfit = st.NetReceipts - st.CostOfPiecesSold
	var expenses money.Cents
	for _, x := range p {
		if x.To == ledger.Expenses {
			st.Expenses[x.Group] += x.Cents
			expenses += x.Cents
		}
	}
	st.NetProfit = st.GrossProfit - st.SellingCosts - st.Trips - expenses - st.Equipment - st.ShelfLosses - st.PiecesLost + st.OtherIncome
	st.PartPaymentsUnfinished = total(p, func(x ledger.Posting) bool {
		return x.Reason == ledger.ReasonPartPayment && !s.closing.Pieces[x.Piece].Gone()
	})
	return st
}

// stock sums the pieces' roll-forward at book cost.
func (s *source) stock() Stock {
	p := s.period
	into := func(reasons ...ledger.Reason) money.Cents {
		return total(p, func(x ledger.Posting) bool { return x.To == ledger.Pieces && slices.Contains(reasons, x.Reason) })
	}
	out := func(sold bool) money.Cents {
		return total(p, func(x ledger.Posting) bool {
			return x.From == ledger.Pieces && (x.To == ledger.CostOfSales) == sold
		})
	}
	return Stock{
		Opening:     stockAt(s.opening),
		Acquired:    into(ledger.ReasonAcquired),
		Parts:       into(ledger.ReasonPart, ledger.ReasonMove),
		OutsideWork: into(ledger.ReasonOutsideWork),
		Supplies:    into(ledger.ReasonSupply, ledger.ReasonRecount),
		Returned:    into(ledger.ReasonReturned),
		Sold:        out(true),
		Removed:     out(false),
		Closing:     stockAt(s.closing),
	}
}

// stockAt is Σ book cost of the pieces in stock.
func stockAt(state costing.State) money.Cents {
	var sum money.Cents
	for _, st := range state.Pieces {
		if st.Where == costing.InStock {
			sum += st.Book
		}
	}
	return sum
}

// shelf sums each supply that was ever on the shelf.
func (s *source) shelf() []ShelfLine {
	var out []ShelfLine
	last := s.lastMonth()
	for i := range s.l.Books.Supplies {
		supply := &s.l.Books.Supplies[i]
		shelf, ever := s.closing.Shelf[supply.Name]
		if !ever || len(shelf.Layers) == 0 {
			continue
		}
		mine := func(x ledger.Posting) bool { return x.Supply == supply.Name }
		line := ShelfLine{
			Supply:  supply,
			Opening: s.opening.Shelf[supply.Name].Cents(),
			Bought:  total(s.period, func(x ledger.Posting) bool { return mine(x) && x.To == ledger.Shelf }),
			Used:    total(s.period, func(x ledger.Posting) bool { return mine(x) && x.From == ledger.Shelf && x.To == ledger.Pieces }),
			Lost:    total(s.period, func(x ledger.Posting) bool { return mine(x) && x.From == ledger.Shelf && x.To == ledger.ShelfLosses }),
			Closing: shelf.Cents(),
			Left:    shelf.Left(),
			Basis:   ledger.NoBasis,
			Own:     shelf.OwnCoverage(),
		}
		if b, ok := last.Basis[supply.Name]; ok {
			line.Basis = b
		}
		out = append(out, line)
	}
	slices.SortFunc(out, func(a, b ShelfLine) int {
		if a.Supply.Name < b.Supply.Name {
			return -1
		}
		return 1
	})
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
