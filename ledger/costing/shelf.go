package costing

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
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
		d.settle()
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

// settle buys, then takes back, then draws: by the count where there is one,
// else by an estimate.
func (d *shelfMonth) settle() {
	d.buy()
	d.takeBacks()
	if len(d.counts) > 0 {
		d.recount()
		return
	}
	d.estimate()
}

// buy lays the month's purchases on the shelf, in layer order.
func (d *shelfMonth) buy() {
	for _, p := range d.purchases[d.s.Name] {
		if p.On.InMonth() != d.m || p.Amount.Sign() <= 0 {
			continue
		}
		layer := Layer{Amount: p.Amount, Cents: p.Total(), Drawn: zero, On: p.On, At: p.At}
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

// takeBacks takes what went back to the supplier off the newest layers. In a
// month without a count it comes off what the estimates so far leave; with
// one, off the layers as they stood when the span opened. Base follows along
// in either case, so that a later count starts from the right layers.
func (d *shelfMonth) takeBacks() {
	for _, p := range d.purchases[d.s.Name] {
		if p.On.InMonth() != d.m || p.Amount.Sign() >= 0 {
			continue
		}
		amount, refund := new(big.Rat).Neg(p.Amount), -p.Total()
		fromBase, reallyMissing := takeBack(d.shelf.Base, amount)
		d.shelf.TakeBackNow += fromBase - refund
		lost, missing := fromBase, reallyMissing
		if len(d.counts) == 0 {
			lost, missing = takeBack(d.shelf.Layers, amount)
			d.shelf.TakeBack += lost - refund
			d.postTakeBackLoss(lost-refund, p)
		}
		if missing.Sign() > 0 {
			d.refuseTakeBack(p, missing, reallyMissing.Sign() == 0)
		}
		d.post(ledger.Posting{Date: p.On, Cents: -refund, From: ledger.Paid, To: ledger.Shelf, Supply: d.s.Name,
			Reason: ledger.ReasonTakenBack, Source: []fault.Place{p.At},
			How: ledger.Derivation{Method: ledger.SentBack, Quantity: amount, Unit: d.s.Container,
				Amounts: []ledger.Amount{{Name: ledger.AmountRefund, Cents: refund}, {Name: ledger.AmountHeld, Cents: lost}}}})
	}
	if len(d.counts) > 0 && d.shelf.TakeBackNow != d.shelf.TakeBack {
		// What the span's take-backs lose by the count's layers, less what was
		// posted for them before: in a span of one month all of it.
		d.post(ledger.Posting{Date: d.m.Last(), Cents: d.shelf.TakeBackNow - d.shelf.TakeBack, From: ledger.Shelf, To: ledger.ShelfLosses,
			Supply: d.s.Name, Reason: ledger.ReasonTakeBackGain, Source: d.takeBackPlaces(),
			How: ledger.Derivation{Method: ledger.SentBackSpan, Amounts: []ledger.Amount{
				{Name: ledger.AmountLoss, Cents: d.shelf.TakeBackNow}, {Name: ledger.AmountBefore, Cents: d.shelf.TakeBack}}}})
	}
}

func (d *shelfMonth) postTakeBackLoss(loss money.Cents, p ledger.Purchase) {
	d.post(ledger.Posting{Date: p.On, Cents: loss, From: ledger.Shelf, To: ledger.ShelfLosses, Supply: d.s.Name,
		Reason: ledger.ReasonTakeBackGain, Source: []fault.Place{p.At},
		How: ledger.Derivation{Method: ledger.SentBackLoss, Amounts: []ledger.Amount{{Name: ledger.AmountRefund, Cents: -p.Total()}}}})
}

// takeBackPlaces is the rows of the span's take-backs.
func (d *shelfMonth) takeBackPlaces() []fault.Place {
	var out []fault.Place
	for _, p := range d.purchases[d.s.Name] {
		if m := p.On.InMonth(); p.Amount.Sign() < 0 && m >= d.shelf.Opened && m <= d.m {
			out = append(out, p.At)
		}
	}
	return out
}

// refuseTakeBack tells that more went back than there is; where only the
// estimates leave too little, a count of the month settles it.
func (d *shelfMonth) refuseTakeBack(p ledger.Purchase, missing *big.Rat, onlyEstimates bool) {
	found := money.AtMost(p.Amount, 4)
	why := fmt.Sprintf("This takes back %s more of %s than there is.", containers(missing, d.s), d.s.Name)
	fix := "Correct the containers, or enter the purchase that is missing."
	if onlyEstimates {
		why = fmt.Sprintf("This takes back %s more of %s than the estimates of its use leave on the shelf.", containers(missing, d.s), d.s.Name)
		fix = fmt.Sprintf("Count %s at the end of %s and enter it in Counts; or correct the containers.", d.s.Name, d.m.Name())
	}
	d.fail(CodeTakenBackMore, p.At.At("containers"), found, why, fix)
}

// containers prints an amount in containers of a supply: `0.285 of 1 qt`.
func containers(amount *big.Rat, s *ledger.Supply) string {
	return money.AtMost(amount, 4) + " × " + s.Container
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
// zero, or nobody weighs, only the measured lines are left.
func spread(lines []Line, rest *big.Rat) ([]Line, []*big.Rat) {
	unmeasured := zero
	for _, l := range lines {
		if !l.Measured {
			unmeasured = add(unmeasured, l.Weight)
		}
	}
	share := rest.Sign() > 0 && unmeasured.Sign() > 0
	var out []Line
	var weights []*big.Rat
	for _, l := range lines {
		switch {
		case l.Measured:
			out, weights = append(out, l), append(weights, l.Weight)
		case share:
			out, weights = append(out, l), append(weights, quo(mul(rest, l.Weight), unmeasured))
		}
	}
	return inOrder(out, weights)
}

// totals is the measured amounts and the unmeasured weights of lines.
func totals(lines []Line) (measured, weight *big.Rat, anyMeasured bool) {
	measured, weight = zero, zero
	for _, l := range lines {
		if l.Measured {
			measured, anyMeasured = add(measured, l.Weight), true
		} else {
			weight = add(weight, l.Weight)
		}
	}
	return measured, weight, anyMeasured
}
