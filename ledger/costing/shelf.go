package costing

import (
	"fmt"
	"math/big"
	"slices"
	"sort"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// shelves brings every supply's shelf to the month's end.
func (r *run) shelves() {
	for _, name := range r.supplies {
		s := r.supply[name]
		shelf, known := r.state.Shelf[name]
		if !known {
			shelf = newShelf(r.m)
		}
		if shelf.Opened == 0 {
			shelf.Opened = r.m
		}
		d := &shelfMonth{run: r, s: s, shelf: &shelf, counts: r.index.counts[r.m][name]}
		if len(d.counts) > 0 {
			d.recount()
		} else {
			d.estimate()
		}
		if known || len(shelf.Layers) > 0 || len(shelf.Lines) > 0 {
			r.state.Shelf[name] = shelf
		}
	}
}

// shelfMonth is one supply's month.
type shelfMonth struct {
	*run
	s      *ledger.Supply
	shelf  *Shelf
	counts []ledger.Count
}

// purchasesIn is the supply's purchases and take-backs of the months from..to, in
// layer order.
func (d *shelfMonth) purchasesIn(from, to calendar.Month) []ledger.Purchase {
	all := d.purchases[d.s.Name]
	first := func(m calendar.Month) int {
		return sort.Search(len(all), func(i int) bool { return all[i].On.InMonth() >= m })
	}
	return all[first(from):first(to+1)]
}

// buy lays the month's purchases on the shelf, in layer order.
func (d *shelfMonth) buy() {
	d.shelf.Layers, d.shelf.Base = slices.Clip(d.shelf.Layers), slices.Clip(d.shelf.Base)
	for _, p := range d.purchasesIn(d.m, d.m) {
		if p.Amount.Sign() <= 0 {
			continue
		}
		layer := &Layer{Amount: p.Amount, Cents: p.Total(), Drawn: zero, On: p.On, At: p.At}
		d.shelf.Layers = append(d.shelf.Layers, layer)
		d.shelf.Base = append(d.shelf.Base, layer)
		d.post(ledger.Posting{Date: p.On, Cents: p.Total(), From: ledger.Paid, To: ledger.Shelf, Supply: d.s.Name,
			Reason: ledger.ReasonPurchase, Source: []fault.Place{p.At}, How: boughtAs(d.s, p)})
	}
}

func boughtAs(s *ledger.Supply, p ledger.Purchase) ledger.Derivation {
	return ledger.Derivation{Method: ledger.BoughtSupply, Quantity: p.Amount, Unit: s.Container,
		Amounts: []ledger.Amount{{Name: ledger.AmountCost, Cents: p.Cost}, {Name: ledger.AmountTax, Cents: p.TaxPaid}}}
}

// takenBack is one line of what went back to the supplier: what it took of which
// layer, and the amount that was not there.
type takenBack struct {
	line   ledger.Purchase
	parts  []layerPart
	lacked *big.Rat
}

// takenBacks are a month's, in the order they come off the layers.
type takenBacks []takenBack

// missing says that something that went back was not there.
func (t takenBacks) missing() bool {
	return slices.ContainsFunc(t, func(b takenBack) bool { return b.lacked.Sign() > 0 })
}

// takeBacks takes what went back to the supplier this month off the newest
// layers.
func (d *shelfMonth) takeBacks(layers []*Layer) takenBacks {
	var out takenBacks
	for _, p := range d.purchasesIn(d.m, d.m) {
		if p.Amount.Sign() >= 0 {
			continue
		}
		parts, lacked := takeBack(layers, new(big.Rat).Neg(p.Amount))
		out = append(out, takenBack{p, parts, lacked})
	}
	return out
}

// postTakeBacks posts what came for what went back, and what the layers lost
// above that as a shelf loss; the same comes off the layers that the span starts
// from. What was not there is refused, whether only by the estimates or not even
// by all that the span had.
func (d *shelfMonth) postTakeBacks(backs takenBacks) {
	if len(backs) == 0 {
		return
	}
	base := slices.Clone(d.shelf.Base)
	d.shelf.Base = slices.Clone(d.shelf.Base)
	for _, b := range backs {
		var lost money.Cents
		for _, p := range b.parts {
			lost += p.cents
		}
		refund := -b.line.Total()
		reason := ledger.ReasonTakeBackGain
		if lost > refund {
			reason = ledger.ReasonTakeBackLoss
		}
		d.post(ledger.Posting{Date: b.line.On, Cents: lost - refund, From: ledger.Shelf, To: ledger.ShelfLosses,
			Supply: d.s.Name,
			Reason: reason, Source: []fault.Place{b.line.At},
			How: ledger.Derivation{Method: ledger.SentBackLoss, Amounts: []ledger.Amount{{Name: ledger.AmountRefund,
				Cents: refund}}}})
		amount := new(big.Rat).Neg(b.line.Amount)
		if _, really := takeBack(base, amount); b.lacked.Sign() > 0 {
			d.refuseTakeBack(b.line, b.lacked, really.Sign() == 0)
		}
		d.post(ledger.Posting{Date: b.line.On, Cents: -refund, From: ledger.Paid, To: ledger.Shelf, Supply: d.s.Name,
			Reason: ledger.ReasonTakenBack, Source: []fault.Place{b.line.At},
			How: ledger.Derivation{Method: ledger.SentBack, Quantity: amount, Unit: d.s.Container,
				Amounts: []ledger.Amount{{Name: ledger.AmountRefund, Cents: refund}, {Name: ledger.AmountHeld, Cents: lost}}}})
		shrink(d.shelf.Base, b.parts)
	}
}

// refuseTakeBack tells that more went back than there is; where only the
// estimates leave too little, a count of the month settles it.
func (d *shelfMonth) refuseTakeBack(p ledger.Purchase, missing *big.Rat, onlyEstimates bool) {
	found := money.AtMost(p.Amount, 4)
	why := fmt.Sprintf("This takes back %s more of %s than there is.", containers(missing, d.s), d.s.Name)
	fix := "Correct the containers, or enter the purchase that is missing."
	if onlyEstimates {
		why = fmt.Sprintf("This takes back %s more of %s than the estimates of its use leave on the shelf.",
			containers(missing, d.s), d.s.Name)
		fix = fmt.Sprintf("Count %s at the end of %s and enter it in Counts; or correct the containers.", d.s.Name,
			d.m.Name())
	}
	d.fail(fault.TakenBackMore, p.At.At("containers"), found, why, fix)
}

// containers prints an amount in containers of a supply: `0.285 of 1 qt`.
func containers(amount *big.Rat, s *ledger.Supply) string {
	return money.AtMost(amount, 4) + " × " + s.Container
}

// containersInShort is containers to the second decimal, as far as that shows any.
func containersInShort(amount *big.Rat, s *ledger.Supply) string {
	if text := money.AtMost(amount, 2); text != "0" {
		return text + " × " + s.Container
	}
	return containers(amount, s)
}

// charge shares a cost over lines by their weights, which stand in order. The
// loss's weight, where there is one, comes last.
func charge(cost money.Cents, weights []*big.Rat, lossWeight *big.Rat) ([]money.Part, money.Part) {
	if lossWeight == nil {
		return money.Share(cost, weights), money.Part{}
	}
	parts := money.Share(cost, append(slices.Clone(weights), lossWeight))
	last := len(parts) - 1
	return parts[:last], parts[last]
}

// inOrder sorts lines and their weights as a share call wants them: by date,
// then piece, then smaller weight.
func inOrder(lines []Line, weights []*big.Rat) ([]Line, []*big.Rat) {
	at := make([]int, len(lines))
	for i := range at {
		at[i] = i
	}
	slices.SortStableFunc(at, func(a, b int) int {
		if c := lines[a].Key.compare(lines[b].Key); c != 0 {
			return c
		}
		return weights[a].Cmp(weights[b])
	})
	outLines, outWeights := make([]Line, len(lines)), make([]*big.Rat, len(lines))
	for to, from := range at {
		outLines[to], outWeights[to] = lines[from], weights[from]
	}
	return outLines, outWeights
}

// compare orders keys by month, day and piece, in plain code-point order.
func (k Key) compare(o Key) int {
	switch {
	case k.Month != o.Month:
		return int(k.Month - o.Month)
	case k.Day != o.Day:
		return k.Day - o.Day
	case k.Piece < o.Piece:
		return -1
	case k.Piece > o.Piece:
		return 1
	}
	return 0
}

// spread gives each line its weight in containers: measured ones their
// amount, the others their part of the rest. Where the rest is not above
// zero, or no weight is given, only the measured lines are left.
func spread(lines []Line, rest *big.Rat) ([]Line, []*big.Rat) {
	_, unmeasured, _ := totals(lines)
	share := rest.Sign() > 0 && unmeasured.Sign() > 0
	var each *big.Rat // of the rest, for a weight of one
	if share {
		each = quo(rest, unmeasured)
	}
	var out []Line
	var weights []*big.Rat
	for _, l := range lines {
		switch {
		case l.Measured:
			out, weights = append(out, l), append(weights, l.Weight)
		case share:
			out, weights = append(out, l), append(weights, kept(mul(each, l.Weight)))
		}
	}
	return inOrder(out, weights)
}

// totals is the measured amounts and the unmeasured weights of lines.
func totals(lines []Line) (measured, weight *big.Rat, anyMeasured bool) {
	measured, weight = new(big.Rat), new(big.Rat)
	for _, l := range lines {
		if l.Measured {
			measured.Add(measured, l.Weight)
			anyMeasured = true
		} else {
			weight.Add(weight, l.Weight)
		}
	}
	return measured, weight, anyMeasured
}
