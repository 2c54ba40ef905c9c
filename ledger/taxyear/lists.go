package taxyear

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"time"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// stock is the pieces in stock at the year's end, clients' after the shop's own.
func (s *source) stock(f figures.Figures) []StockPiece {
	var out []StockPiece
	for _, p := range f.Pieces {
		if p.Status != costing.InStock && p.Status != "client" {
			continue
		}
		x := StockPiece{Piece: p, Kept: p.BookCost - s.outUpTo(p.Record.ID, s.to)}
		for _, post := range s.life {
			if post.Piece == p.Record.ID && post.To == ledger.Pieces {
				x.Source = append(x.Source, post.Source...)
			}
		}
		out = append(out, x)
	}
	slices.SortStableFunc(out, func(a, b StockPiece) int { return cmp.Compare(a.Piece.Status, b.Piece.Status) * -1 })
	return out
}

// shelf is what the shelf holds at the year's end, with its layers.
func (s *source) shelf(f figures.Figures) []ShelfStock {
	closing := s.l.At(s.to)
	var out []ShelfStock
	for _, line := range f.Shelf {
		x := ShelfStock{Line: line, Counted: closing.Shelf[line.Supply.Name].Counted == s.to}
		if s.counts(line.Supply.Name) {
			x.Kept = line.Closing
		}
		for _, l := range closing.Shelf[line.Supply.Name].Layers {
			left := new(big.Rat).Sub(l.Amount, l.Drawn)
			if left.Sign() > 0 {
				x.Layers = append(x.Layers, Layer{left, l.Cents - l.DrawnCents})
			}
		}
		out = append(out, x)
	}
	return out
}

// gone is the pieces that went unsold, by date, with what the year took out
// of stock for each: late costs of one gone before are in it too.
func (s *source) gone(f figures.Figures) []GonePiece {
	cost, received := map[string]money.Cents{}, map[string]money.Cents{}
	for _, p := range s.life {
		if p.Month < s.from {
			continue
		}
		switch {
		case p.To == ledger.Owner || p.To == ledger.Lost:
			cost[p.Piece] += p.Cents
		case p.From == ledger.Owner || p.From == ledger.Lost:
			cost[p.Piece] -= p.Cents
		case p.Reason == ledger.ReasonReceived:
			received[p.Piece] += p.Cents
		}
	}
	byID := map[string]figures.Piece{}
	for _, p := range figures.All(s.l) {
		byID[p.Record.ID] = p
	}
	for _, p := range f.Pieces {
		byID[p.Record.ID] = p
	}
	var out []GonePiece
	for x := range ledger.Each(s.b.Removals) {
		if !x.On.InMonth().First().After(s.to.Last()) && (s.inYear(x.On) || cost[x.Piece] != 0) {
			out = append(out, GonePiece{Piece: byID[x.Piece], Removal: x, Cost: cost[x.Piece], Received: received[x.Piece]})
		}
	}
	slices.SortStableFunc(out, func(a, b GonePiece) int {
		return cmp.Or(a.Removal.On.Compare(b.Removal.On), cmp.Compare(a.Removal.Piece, b.Removal.Piece))
	})
	return out
}

// salesTax goes from what was owed when the year began to what is owed at its end.
func (s *source) salesTax() []figures.Term {
	var opening money.Cents
	by := map[ledger.Reason]money.Cents{}
	for _, p := range s.life {
		switch {
		case p.From != ledger.TaxOwed && p.To != ledger.TaxOwed:
		case p.Month >= s.from:
			by[p.Reason] += p.Cents
		case p.From == ledger.TaxOwed:
			opening += p.Cents
		default:
			opening -= p.Cents
		}
	}
	return []figures.Term{term(figures.LineOpening, opening),
		term(figures.TermCollected, by[ledger.ReasonTaxCollected]),
		term(figures.TermRefunded, -by[ledger.ReasonTaxRefunded]), term(figures.TermPaidOver, -by[ledger.ReasonTaxPaid]),
		term(figures.TermKeptTax, -by[ledger.ReasonAllowance])}
}

// partOf is which of a table's money a paper is about, where it has more.
var partOf = map[string]string{"trips": ", tolls", "removals": ", received"}

// papers is every money record of the year with its receipt, by table and
// date. A channel's yearly statement is of the year's last day.
func (s *source) papers() []Paper {
	var out []Paper
	for r := range s.b.Records() {
		on := r.On
		if x, yearly := r.Row.(*ledger.Statement); yearly {
			on = calendar.Date{Year: x.Year, Month: time.December, Day: 31}
		}
		if r.Cents != 0 && s.inYear(on) {
			out = append(out, Paper{At: r.At, On: on, Table: r.Title() + partOf[r.Table], What: r.About(), Cents: r.Cents,
				Receipt: r.Receipt, Cost: r.Paid})
		}
	}
	// The tables stay in this order; within one by date.
	slices.SortStableFunc(out, func(a, b Paper) int {
		if a.Table != b.Table {
			return 0
		}
		return cmp.Or(a.On.Compare(b.On), a.At.Compare(b.At))
	})
	return out
}

// withoutReceipt is the costs above the shop's limit that name no receipt,
// the largest first, and how many smaller ones there are with their sum.
func (s *source) withoutReceipt(papers []Paper) (listed []Paper, small SmallCosts) {
	for _, p := range papers {
		switch {
		case !p.Cost || p.Receipt != "" || p.Cents <= 0:
		case p.Cents > s.b.Settings.ReceiptsOver:
			listed = append(listed, p)
		default:
			small.Count++
			small.Cents += p.Cents
			small.Papers = append(small.Papers, p)
		}
	}
	slices.SortStableFunc(listed, func(a, b Paper) int { return cmp.Compare(b.Cents, a.Cents) })
	return listed, small
}

// lastRecord is the last month of the year that something was posted in.
func (s *source) lastRecord() calendar.Month {
	var last calendar.Month
	for _, p := range s.life {
		if p.Month >= s.from {
			last = max(last, p.Month)
		}
	}
	return last
}

// mileage is the year's log, by date.
func (s *source) mileage() Mileage {
	m := Mileage{Miles: new(big.Rat), Total: s.b.Settings.YearlyTotals[fmt.Sprint(s.year)]}
	for t := range ledger.Each(s.b.Trips) {
		if !s.inYear(t.On) {
			continue
		}
		d := Drive{Record: t, Rate: ledger.RateOn(s.b.Settings.Mileage, t.On)}
		if d.Rate != nil {
			d.Amount = t.Driven(d.Rate)
			if !slices.ContainsFunc(m.Rates, func(r ledger.MileageRate) bool { return r.From == d.Rate.From }) {
				m.Rates = append(m.Rates, *d.Rate)
			}
		}
		m.Trips = append(m.Trips, d)
		m.Miles.Add(m.Miles, t.Miles)
		m.Amount += d.Amount
		m.Tolls += t.Tolls
	}
	slices.SortStableFunc(m.Trips, func(a, b Drive) int {
		return cmp.Or(a.Record.On.Compare(b.Record.On), a.Record.At.Compare(b.Record.At))
	})
	slices.SortFunc(m.Rates, func(a, b ledger.MileageRate) int { return a.From.Compare(b.From) })
	return m
}
