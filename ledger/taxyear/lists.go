package taxyear

import (
	"cmp"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
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
	for i := range s.b.Removals {
		x := &s.b.Removals[i]
		if !x.On.InMonth().First().After(s.to.Last()) && (s.inYear(x.On) || cost[x.Piece] != 0) {
			out = append(out, GonePiece{Piece: byID[x.Piece], Removal: x, Cost: cost[x.Piece], Received: received[x.Piece]})
		}
	}
	slices.SortStableFunc(out, func(a, b GonePiece) int {
		return cmp.Or(a.Removal.On.Compare(b.Removal.On), cmp.Compare(a.Removal.Piece, b.Removal.Piece))
	})
	return out
}

// workers is who did outside work, by name; blank last.
func (s *source) workers() []Worker {
	at := map[string]int{}
	var out []Worker
	for _, p := range s.b.Parts {
		if !p.Outside || !s.inYear(p.On) {
			continue
		}
		key := strings.ToLower(p.From)
		i, there := at[key]
		if !there {
			i = len(out)
			at[key] = i
			out = append(out, Worker{Name: p.From})
		}
		out[i].Jobs++
		out[i].Cents += p.Cost + p.TaxPaid
		out[i].Rows = append(out[i].Rows, p.At)
	}
	slices.SortStableFunc(out, func(a, b Worker) int {
		if (a.Name == "") != (b.Name == "") {
			return cmp.Compare(b.Name, a.Name)
		}
		return cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name))
	})
	return out
}

// salesTax goes from what was owed when the year began to what is owed at its end.
func (s *source) salesTax() []figures.Term {
	var opening, collected, refunded, paid, kept money.Cents
	for _, p := range s.life {
		if p.From != ledger.TaxOwed && p.To != ledger.TaxOwed {
			continue
		}
		before := p.Month < s.from
		switch {
		case before && p.From == ledger.TaxOwed:
			opening += p.Cents
		case before:
			opening -= p.Cents
		case p.Reason == ledger.ReasonTaxCollected:
			collected += p.Cents
		case p.Reason == ledger.ReasonTaxRefunded:
			refunded += p.Cents
		case p.Reason == ledger.ReasonTaxPaid:
			paid += p.Cents
		case p.Reason == ledger.ReasonAllowance:
			kept += p.Cents
		}
	}
	return []figures.Term{term("Owed when the year began", opening), term("Collected from buyers", collected), term("less: given back to buyers", -refunded),
		term("less: paid over", -paid), term("less: kept as the state's allowance, which is other income", -kept)}
}

// papers is every money record of the year with its receipt, by table and date.
func (s *source) papers() []Paper {
	var out []Paper
	add := func(table string, at fault.Place, on calendar.Date, what string, cents money.Cents, receipt string, cost bool) {
		if s.inYear(on) && cents != 0 {
			out = append(out, Paper{At: at, On: on, Table: table, What: what, Cents: cents, Receipt: receipt, Cost: cost})
		}
	}
	b := s.b
	for _, x := range b.Pieces {
		add("Pieces", x.At, x.GotOn, x.ID+", "+x.Kind, x.Price+x.TaxPaid+x.Pickup, x.Receipt, true)
	}
	for _, x := range b.Lots {
		add("Lots", x.At, x.GotOn, x.ID, x.Total(), x.Receipt, true)
	}
	for _, x := range b.Purchases {
		add("Purchases", x.At, x.On, x.Supply, x.Total(), x.Receipt, true)
	}
	for _, x := range b.Parts {
		add("Parts", x.At, x.On, x.What, x.Cost+x.TaxPaid, x.Receipt, true)
	}
	for _, x := range b.Trips {
		add("Trips, tolls", x.At, x.On, x.Purpose, x.Tolls, x.Receipt, true)
	}
	for _, x := range b.Expenses {
		add("Expenses", x.At, x.On, x.What, x.Amount, x.Receipt, true)
	}
	for _, x := range b.Equipment {
		add("Equipment", x.At, x.On, x.What, x.Cost+x.TaxPaid, x.Receipt, true)
	}
	for _, x := range b.Sales {
		add("Sales", x.At, x.On, string(x.Type)+", "+strings.Join(x.Pieces, ", "), x.Price+x.DeliveryCharged, x.Receipt, false)
	}
	for _, x := range b.Removals {
		add("Removals, received", x.At, x.On, x.Piece+", "+x.Why, x.Received, x.Receipt, false)
	}
	for _, x := range b.OtherIncome {
		add("Other income", x.At, x.On, x.What, x.Amount, x.Receipt, false)
	}
	for _, x := range b.TaxPaid {
		add("Tax paid", x.At, x.On, x.Period, x.Amount, x.Receipt, true)
	}
	for _, x := range b.Payouts {
		add("Payouts", x.At, x.On, x.Channel, x.Amount, x.Receipt, false)
	}
	for _, x := range b.Statements {
		add("Statements", x.At, calendar.Date{Year: x.Year, Month: 12, Day: 31}, x.Channel, x.Gross, x.Receipt, false)
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
// the largest first.
func (s *source) withoutReceipt(papers []Paper) []Paper {
	var out []Paper
	for _, p := range papers {
		if p.Cost && p.Receipt == "" && p.Cents > s.b.Settings.ReceiptsOver {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b Paper) int { return cmp.Compare(b.Cents, a.Cents) })
	return out
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
