package figures

import (
	"cmp"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// pieces is the figures of every piece that was in stock, sold or removed in
// the period.
func (s *source) pieces() []Piece {
	hours := s.hours()
	var out []Piece
	for i := range s.l.Books.Pieces {
		p := &s.l.Books.Pieces[i]
		if s.seen(p.ID) {
			out = append(out, s.piece(p, hours[p.ID]))
		}
	}
	slices.SortFunc(out, func(a, b Piece) int { return cmp.Compare(a.Record.ID, b.Record.ID) })
	return out
}

// seen says that the piece was in stock at some time of the period, or sold
// or removed in it.
func (s *source) seen(id string) bool {
	before, after := s.opening.Pieces[id], s.closing.Pieces[id]
	if before.Where == costing.InStock || after.Where == costing.InStock || before.Where != after.Where {
		return true
	}
	return after.Gone() && s.eventInPeriod(id)
}

// eventInPeriod says that a sale, return or removal of the piece falls in the period.
func (s *source) eventInPeriod(id string) bool {
	for _, x := range s.l.Books.Sales {
		m := x.On.InMonth()
		if m >= s.from && m <= s.to && (x.Type == ledger.SaleLine || x.Type == ledger.Return) && slices.Contains(x.Pieces, id) {
			return true
		}
	}
	for _, x := range s.l.Books.Removals {
		if m := x.On.InMonth(); m >= s.from && m <= s.to && x.Piece == id {
			return true
		}
	}
	return false
}

// All is the figures of every piece that the books know by the ledger's last
// month, in stock or long gone, for a profit sheet of any of them.
func All(l *costing.Ledger) []Piece {
	if len(l.Months) == 0 {
		return nil
	}
	f := For(l, l.Months[0].Month, l.Months[len(l.Months)-1].Month)
	return f.Pieces
}

// hours is each piece's exact hours up to the period's end.
func (s *source) hours() map[string]*big.Rat {
	out := map[string]*big.Rat{}
	for i, split := range costing.HoursByPiece(s.l.Books) {
		if s.l.Books.Hours[i].On.InMonth() > s.to {
			continue
		}
		for id, part := range split {
			if out[id] == nil {
				out[id] = new(big.Rat)
			}
			out[id].Add(out[id], part)
		}
	}
	return out
}

// piece sums one piece's life up to the period's end.
func (s *source) piece(rec *ledger.Piece, hours *big.Rat) Piece {
	mine := s.byPiece[rec.ID]
	standing := s.closing.Pieces[rec.ID]
	into := func(reasons ...ledger.Reason) money.Cents {
		return total(mine, func(x ledger.Posting) bool { return x.To == ledger.Pieces && slices.Contains(reasons, x.Reason) })
	}
	if hours == nil {
		hours = new(big.Rat)
	}
	p := Piece{
		Record:           rec,
		Status:           status(rec, standing),
		SoldOn:           standing.SoldOn,
		Hours:            hours,
		Receipts:         why(mine, ledger.ReasonSale, ledger.ReasonPartPayment) - why(mine, ledger.ReasonRefund, ledger.ReasonReturn),
		Acquisition:      into(ledger.ReasonAcquired),
		Parts:            into(ledger.ReasonPart, ledger.ReasonMove),
		OutsideWork:      into(ledger.ReasonOutsideWork),
		Supplies:         into(ledger.ReasonSupply, ledger.ReasonRecount),
		BookCost:         standing.Book,
		SellingCosts:     net(mine, ledger.SellingCosts) + net(mine, ledger.Expenses),
		Trips:            net(mine, ledger.Trips),
		Overhead:         net(mine, ledger.Allotted),
		ReceivedWhenLost: why(mine, ledger.ReasonReceived),
	}
	p.SuppliesStaying = total(mine, func(x ledger.Posting) bool {
		return x.To == ledger.Pieces && x.Supply != "" && s.stays(x.Supply)
	})
	if !standing.Gone() {
		p.Held = why(mine, ledger.ReasonPartPayment)
	}
	p.Shares = s.shares(mine)
	p.outcome(standing)
	return p
}

// outcome fills what only a piece that has left for good has.
func (p *Piece) outcome(standing costing.Standing) {
	if !standing.Gone() || standing.Where == ledger.Kept || standing.Where == ledger.Donated {
		return
	}
	profit := p.Receipts - p.BookCost - p.SellingCosts - p.Trips
	after := profit - p.Overhead
	less := p.Receipts - p.Acquisition
	p.Profit, p.ProfitAfterOverhead, p.SoldLessBought = &profit, &after, &less
	if p.Hours.Sign() > 0 {
		perHour := money.Round(new(big.Rat).Quo(profit.Rat(), p.Hours))
		p.ProfitPerHour = &perHour
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

func (s *source) stays(supply string) bool {
	for i := range s.l.Books.Supplies {
		if s.l.Books.Supplies[i].Name == supply {
			return s.l.Books.Supplies[i].Stays
		}
	}
	return false
}

// shares is one entry per supply and month posted whose cost is not 0.00. A
// share of a span that has since been counted is counted.
func (s *source) shares(mine []ledger.Posting) []Share {
	type key struct {
		supply string
		month  int
	}
	at := map[key]int{}
	var out []Share
	for _, x := range mine {
		if x.To != ledger.Pieces || x.Supply == "" {
			continue
		}
		k := key{x.Supply, int(x.Month)}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, Share{Supply: x.Supply, Month: x.Month, Coated: x.Coated, Basis: x.Basis})
		}
		out[i].Cost += x.Cents
		// Beside an estimate a measured use is the surer part; the entry is as
		// sure as its least sure part.
		if x.Basis != ledger.Measured {
			out[i].Basis = x.Basis
		}
		if s.closing.Shelf[x.Supply].Counted >= x.Month {
			out[i].Basis = ledger.Counted
		}
	}
	out = slices.DeleteFunc(out, func(x Share) bool { return x.Cost == 0 })
	slices.SortFunc(out, func(a, b Share) int {
		return cmp.Or(cmp.Compare(a.Supply, b.Supply), cmp.Compare(a.Month, b.Month))
	})
	return out
}
