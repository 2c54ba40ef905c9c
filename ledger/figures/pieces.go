package figures

import (
	"cmp"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// piecesSeen is the figures of every piece that was in stock, sold or removed
// in the period. Periods that end together have the same figures of a piece.
func (s *source) piecesSeen() []Piece {
	known := s.known[s.to]
	if known == nil {
		known = map[string]*Piece{}
		s.known[s.to] = known
	}
	var seen []*Piece
	for p := range ledger.Each(s.l.Books.Pieces) {
		if !s.seen(p.ID) {
			continue
		}
		if known[p.ID] == nil {
			figures := s.piece(p)
			known[p.ID] = &figures
		}
		seen = append(seen, known[p.ID])
	}
	slices.SortFunc(seen, func(a, b *Piece) int { return cmp.Compare(a.Record.ID, b.Record.ID) })
	out := slices.Grow([]Piece(nil), len(seen))
	for _, p := range seen {
		out = append(out, *p)
	}
	return out
}

// seen says that the piece was in stock at some time of the period, or sold
// or removed in it.
func (s *source) seen(id string) bool {
	before, after := s.opening.Pieces.Of(id), s.closing.Pieces.Of(id)
	if before.Where == costing.InStock || after.Where == costing.InStock || before.Where != after.Where {
		return true
	}
	return after.Gone() && slices.ContainsFunc(s.life(id).events, func(m calendar.Month) bool {
		return m >= s.from &&
			m <= s.to
	})
}

// piece sums one piece's life up to the period's end.
func (s *source) piece(rec *ledger.Piece) Piece {
	life, standing := s.life(rec.ID), s.closing.Pieces.Of(rec.ID)
	p := Piece{Record: rec, Status: status(rec, standing), SoldOn: standing.SoldOn, Hours: new(big.Rat)}
	mine := life.tally.between(0, s.to)
	for id, at := range pieceFields {
		*at(&p) = mine.get(OfPiece, id)
	}
	if standing.Gone() {
		p.Held = 0
	}
	for _, h := range life.hours {
		if h.month <= s.to {
			p.Hours.Add(p.Hours, h.hours)
		}
	}
	for _, x := range life.supplies {
		if x.Month <= s.to && s.stays[x.Supply] {
			p.SuppliesStaying += x.Cents
		}
	}
	p.Shares = s.shares(life.supplies)
	p.outcome(standing, mine)
	return p
}

// pieceFields are where a piece's lines stand among its figures; those that only
// a piece that has left has are not among them.
var pieceFields = map[ID]func(*Piece) *money.Cents{
	LineReceipts:     func(p *Piece) *money.Cents { return &p.Receipts },
	LineAcquisition:  func(p *Piece) *money.Cents { return &p.Acquisition },
	LineParts:        func(p *Piece) *money.Cents { return &p.Parts },
	LineOutsideWork:  func(p *Piece) *money.Cents { return &p.OutsideWork },
	LineSupplies:     func(p *Piece) *money.Cents { return &p.Supplies },
	LineBookCost:     func(p *Piece) *money.Cents { return &p.BookCost },
	LineSellingCosts: func(p *Piece) *money.Cents { return &p.SellingCosts },
	LineTrips:        func(p *Piece) *money.Cents { return &p.Trips },
	LineOverhead:     func(p *Piece) *money.Cents { return &p.Overhead },
	LineReceived:     func(p *Piece) *money.Cents { return &p.ReceivedWhenLost },
	LineHeld:         func(p *Piece) *money.Cents { return &p.Held },
}

// Amount is a line of the piece's money; what it has none of is 0.00.
func (p Piece) Amount(id ID) money.Cents {
	if at := pieceFields[id]; at != nil {
		return *at(&p)
	}
	if p.Profit == nil {
		return 0
	}
	return map[ID]money.Cents{LineProfit: *p.Profit, LineAfterOverhead: *p.ProfitAfterOverhead,
		LineSoldLess: *p.SoldLessBought}[id]
}

// outcome fills what only a piece that has left for good has.
func (p *Piece) outcome(standing costing.Standing, mine sums) {
	if !standing.Gone() || standing.Where == ledger.Kept || standing.Where == ledger.Donated {
		return
	}
	profit := mine.get(OfPiece, LineProfit)
	after, less := mine.get(OfPiece, LineAfterOverhead), mine.get(OfPiece, LineSoldLess)
	p.Profit, p.ProfitAfterOverhead, p.SoldLessBought = &profit, &after, &less
	if p.Hours.Sign() > 0 {
		anHour := func(c money.Cents) *money.Cents {
			rounded := money.Round(new(big.Rat).Quo(c.Rat(), p.Hours))
			return &rounded
		}
		p.ProfitPerHour, p.ProfitPerHourAfterOverhead = anHour(profit), anHour(after)
	}
	if p.Receipts != 0 {
		p.Margin = new(big.Rat).Quo(profit.Rat(), p.Receipts.Rat())
	}
	if p.BookCost != 0 {
		p.ReturnOnCost = new(big.Rat).Quo(profit.Rat(), p.BookCost.Rat())
	}
	if standing.Where != costing.Sold {
		return
	}
	days := standing.SoldOn.DaysSince(p.Record.GotOn)
	p.DaysHeld = &days
	if p.ReturnOnCost != nil && days > 0 {
		p.ReturnAYear = new(big.Rat).Mul(p.ReturnOnCost, big.NewRat(365, int64(days)))
	}
}

// status is where the piece stands, in the words of figures.json.
func status(rec *ledger.Piece, st costing.Standing) string {
	switch {
	case st.Gone():
		return st.Where
	case rec.How == ledger.Client:
		return "client"
	}
	return costing.InStock
}

// shares is one entry per supply and month posted whose cost is not 0.00. A
// share of a span that has since been counted is counted, and one of a span that
// buying again has since estimated again is bought.
func (s *source) shares(mine []*ledger.Posting) []Share {
	type key struct {
		supply string
		month  int
	}
	at := map[key]int{}
	var out []Share
	for _, x := range mine {
		if x.Month > s.to {
			break
		}
		k := key{x.Supply, int(x.Month)}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, Share{Supply: x.Supply, Month: x.Month, Coated: x.Coated, Basis: x.Basis})
		}
		out[i].Cost += x.Cents
		if out[i].Coated == nil {
			out[i].Coated = x.Coated // a correction to closed months stands before and has none
		}
		// Beside an estimate a measured use is the surer part; the entry is as
		// sure as its least sure part.
		if x.Basis != ledger.Measured {
			out[i].Basis = x.Basis
		}
		switch shelf := s.closing.Shelf[x.Supply]; {
		case shelf.Counted >= x.Month:
			out[i].Basis = ledger.Counted
		case shelf.Reestimated >= x.Month && out[i].Basis != ledger.Measured:
			out[i].Basis = ledger.FromBuying
		}
	}
	out = slices.DeleteFunc(out, func(x Share) bool { return x.Cost == 0 })
	out = append(make([]Share, 0, len(out)), out...) // most have room for many more
	slices.SortFunc(out, func(a, b Share) int {
		return cmp.Or(cmp.Compare(a.Supply, b.Supply), cmp.Compare(a.Month, b.Month))
	})
	return out
}
