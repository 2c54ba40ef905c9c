package costing

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// recount closes the supply's span with the month's count: what was drawn is
// what the count leaves no other place for, and its cost is shared again over
// all the span's uses. What each piece was charged before comes off, and the
// difference is posted now, never to an earlier month.
func (d *shelfMonth) recount() {
	d.buy()
	d.postTakeBacks(d.takeBacks(slices.Clone(d.shelf.Base)))
	d.basis[d.s.Name] = ledger.Counted
	now := append(d.measured(d.s), d.weights(d.s)...)
	lines := append(slices.Clone(d.shelf.Lines), now...)
	leftover, discarded := d.counted()
	layers := slices.Clone(d.shelf.Base)
	drawn := sub(left(layers), leftover)
	if drawn.Sign() < 0 {
		layers = d.surplus(layers, new(big.Rat).Neg(drawn))
		d.recharge(nil, nil, nil, d.spanCall(nil, nil, nil, 0, drawing{}, nil, money.Part{}))
	} else {
		d.shareSpan(lines, layers, drawn, discarded)
	}
	d.shelf.Layers, d.shelf.Base = layers, layers
	d.shelf.Lines, d.shelf.Charged = nil, Overlay[money.Cents]{}
	d.shelf.Counted, d.shelf.Opened = d.m, d.m+1
	d.shelf.Bought, d.shelf.Reestimated = nil, 0
}

// counted is what the month's counts say is left at the month's end, and the
// sum of what they say was discarded. The last count's `left` is corrected
// for what was bought or taken back between the count's day, which is in it,
// and the month's end; not below zero.
func (d *shelfMonth) counted() (leftover, discarded *big.Rat) {
	discarded = zero
	for _, c := range d.counts {
		if c.Discarded != nil {
			discarded = add(discarded, c.Discarded)
		}
	}
	last := d.counts[len(d.counts)-1]
	leftover = last.Left
	end := d.m.Last()
	counted := last.On.InMonth()
	for _, p := range d.purchasesIn(min(d.m, counted), max(d.m, counted)) {
		switch {
		case p.On.After(last.On) && !p.On.After(end):
			leftover = add(leftover, p.Amount)
		case p.On.After(end) && !p.On.After(last.On):
			leftover = sub(leftover, p.Amount)
		}
	}
	if leftover.Sign() < 0 {
		leftover = zero
	}
	return leftover, discarded
}

// shareSpan draws the span in one go and shares its cost in one call over all
// its uses, with what was discarded, or what can be charged to nobody, as a loss.
func (d *shelfMonth) shareSpan(lines []Line, layers []*Layer, drawn, discarded *big.Rat) {
	measured, weight, _ := totals(lines)
	rest := sub(sub(drawn, measured), discarded)
	var lossWeight *big.Rat
	if discarded.Sign() > 0 {
		lossWeight = discarded
	}
	if rest.Sign() > 0 && weight.Sign() == 0 {
		lossWeight = add(discarded, rest)
	}
	cost, taken := draw(layers, drawn)
	sharing, weights := spread(lines, rest)
	if len(sharing) == 0 && lossWeight == nil {
		d.recharge(nil, nil, nil, d.spanCall(nil, nil, nil, 0, drawing{}, nil, money.Part{}))
		return
	}
	parts, loss := charge(cost, weights, lossWeight)
	of := d.spanCall(sharing, weights, parts, cost, drawing{drawn, sub(sub(drawn, lesser(measured, drawn)),
		money.OrZero(lossWeight)), weight}, lossWeight, loss)
	of.Drawn = taken
	d.recharge(sharing, parts, weights, of)
	d.post(ledger.Posting{Date: d.m.Last(), Cents: loss.Cents, From: ledger.Shelf, To: ledger.ShelfLosses,
		Supply: d.s.Name,
		Reason: ledger.ReasonDiscarded, Source: countPlaces(d.counts), How: ledger.Derivation{Method: ledger.LostSupply,
			Quantity: money.OrZero(lossWeight)}, Of: of, Line: len(sharing)})
	if weight.Sign() > 0 && rest.Sign() > 0 {
		d.shelf.PoolWeight = add(d.shelf.PoolWeight, weight)
		d.shelf.PoolRest = add(d.shelf.PoolRest, rest)
	}
}

// spanCall is supplyCall for a span of months that a count closes.
func (d *shelfMonth) spanCall(lines []Line, weights []*big.Rat, parts []money.Part, cost money.Cents, from drawing,
	lossWeight *big.Rat, loss money.Part) *ledger.Shared {
	of := d.supplyCall(lines, weights, parts, cost, from, lossWeight, loss)
	of.Opened = d.shelf.Opened
	return of
}

// recharge posts, piece by piece, this month's own shares and apart from them
// the corrections to what the span's earlier months charged.
func (d *shelfMonth) recharge(sharing []Line, parts []money.Part, weights []*big.Rat, of *ledger.Shared) {
	fresh := map[string]money.Cents{} // by piece, the new shares of the earlier months' uses
	for i, l := range sharing {
		if l.Key.Month != d.m {
			fresh[l.Key.Piece] += parts[i].Cents
			continue
		}
		d.postShare(l, parts[i], weights[i], ledger.Counted, of, i)
	}
	charged, counts := d.shelf.Charged.All(), countPlaces(d.counts)
	for _, id := range keys(union(fresh, charged)) {
		correction := fresh[id] - charged[id]
		d.post(ledger.Posting{Date: d.m.Last(), Cents: correction, From: ledger.Shelf, To: ledger.Pieces, Piece: id,
			Supply: d.s.Name, Reason: ledger.ReasonRecount, Basis: ledger.Counted, Coated: d.coatedWith(d.s, id),
			Source: counts,
			How: ledger.Derivation{Method: ledger.Recounted, Amounts: []ledger.Amount{
				{Name: ledger.AmountCounted, Cents: fresh[id]}, {Name: ledger.AmountBefore, Cents: charged[id]}}},
			Of: of, Line: -1})
		d.moved(lateCost{ledger.ReasonRecount, d.s.Name, id, correction, counts[0]})
	}
}

// surplus puts back what a count finds above all the span could hold: on the
// newest drawn layers, as a shelf gain; what none can take enters at no cost.
// The note could move what that amount is worth at the newest cost.
func (d *shelfMonth) surplus(layers []*Layer, amount *big.Rat) []*Layer {
	worth := worthOf(layers, amount)
	last := d.counts[len(d.counts)-1]
	gain, rest := undraw(layers, amount)
	if rest.Sign() > 0 {
		layers = append(layers, &Layer{Amount: rest, Drawn: zero, On: last.On, At: last.At})
	}
	d.post(ledger.Posting{Date: d.m.Last(), Cents: -gain, From: ledger.Shelf, To: ledger.ShelfLosses, Supply: d.s.Name,
		Reason: ledger.ReasonSurplus, Source: countPlaces(d.counts),
		How: ledger.Derivation{Method: ledger.CountedAbove, Quantity: amount, Unit: d.s.Container}})
	why := fmt.Sprintf("This count of %s is %s above all that the records explain.", d.s.Name, containers(amount, d.s))
	if last.Bare {
		why += likeUnits(last.Left, d.s)
	}
	d.note(fault.CountAbove, last.At.At("left"), max(gain, worth), why,
		fmt.Sprintf("Enter the purchase of %s that is missing; or, if it was there before the books began, write it in "+
			"Openings.", d.s.Name))
	return layers
}

// dateOf is the day a line is posted on: a month's weight on its last day.
func (d *shelfMonth) dateOf(k Key) calendar.Date {
	if k.Day == 0 {
		return k.Month.Last()
	}
	return calendar.Date{Year: k.Month.Year(), Month: k.Month.Of(), Day: k.Day}
}

func countPlaces(counts []ledger.Count) []fault.Place {
	out := make([]fault.Place, len(counts))
	for i, c := range counts {
		out[i] = c.At
	}
	return out
}
