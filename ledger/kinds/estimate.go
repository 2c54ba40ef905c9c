package kinds

import (
	"cmp"
	"math"
	"slices"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/ledger/statistics"
)

// Level is how much of the chance the intervals hold.
const Level = 0.9

// Estimate is what is judged of a kind from its pieces. Amounts are cents, not
// rounded; NaN and false are 'not known'.
type Estimate struct {
	// Error is the standard error of profit per hour as it was, by ratio
	// linearisation over sales; NaN of one sale.
	Error  float64
	Sales  int  // how many readings there are: pieces with hours, those of one sale once
	Ranked bool // at least FewestSales pieces with hours
	Place  int  // from 1; 0 where not ranked
	// Known: there was scatter to judge by, so Expected is drawn in and has an
	// interval; else it is the profit per hour as it was.
	Known     bool
	Expected  float64 // profit per hour of its next pieces
	Low, High float64 // between which it lies with a chance of Level
	Beats     float64 // the chance that it is above the shop's target
	Kept      float64 // how much of its distance from the shop's was kept: 1 all, 0 none
	Within    [3]Sold // by Windows
}

// Sold is the share of listed pieces sold within so many days.
type Sold struct {
	Days  int
	Share float64
	Known bool // some piece was watched as long
	// Behind is how many pieces it is known of: sold by then, or watched longer.
	Behind int
}

// estimate judges every kind, ranks those that can be, and puts the kinds in order.
func (r *Report) estimate() {
	groups := make([][]float64, len(r.Kinds))
	for i := range r.Kinds {
		k := &r.Kinds[i]
		k.Estimate.Error, k.Estimate.Expected = math.NaN(), math.NaN()
		if ratio, ok := perHour(k.Judged); ok {
			groups[i] = ratio.Readings
			k.Estimate.Sales = len(ratio.Readings)
			k.Estimate.Error, k.Estimate.Expected = ratio.Error, ratio.Of
		}
		k.Estimate.Ranked = k.Timed >= FewestSales
	}
	r.Shop.Estimate.Error, r.Shop.Estimate.Expected = math.NaN(), math.NaN()
	if ratio, ok := perHour(r.Shop.Judged); ok {
		r.Shop.Estimate.Error, r.Shop.Estimate.Expected = ratio.Error, ratio.Of
	}
	if h, ok := statistics.Draw(groups); ok {
		for i := range r.Kinds {
			if r.Kinds[i].Timed > 0 {
				r.Kinds[i].Estimate.draw(h.Mean(i), h.Kept(i), float64(r.Target))
			}
		}
		r.Shop.Estimate.draw(h.Common(), 1, float64(r.Target))
	}
	slices.SortStableFunc(r.Kinds, inRank)
	for i := range r.Kinds {
		if r.Kinds[i].Estimate.Ranked {
			r.Kinds[i].Estimate.Place = i + 1
		}
	}
}

// draw fills what the drawing in says.
func (e *Estimate) draw(b statistics.Belief, kept, target float64) {
	in := b.Within(Level)
	e.Known, e.Expected, e.Low, e.High = true, b.Centre(), in.Low, in.High
	e.Beats, e.Kept = b.Above(target), kept
}

// inRank puts ranked kinds first, the best first, then kinds with fewer
// judged pieces by how many they have.
func inRank(a, b Kind) int {
	switch {
	case a.Estimate.Ranked != b.Estimate.Ranked:
		if a.Estimate.Ranked {
			return -1
		}
		return 1
	case a.Estimate.Ranked:
		return cmp.Or(cmp.Compare(b.Estimate.Expected, a.Estimate.Expected), cmp.Compare(a.Name, b.Name))
	}
	return cmp.Or(cmp.Compare(len(b.Judged), len(a.Judged)), cmp.Compare(a.Name, b.Name))
}

// perHour is Σ profit ÷ Σ hours of the pieces that have hours, with a reading
// for each sale: pieces sold on one line share its price and say as much as
// one. Where they stand in the order of the pieces decides the sales' order.
func perHour(pieces []Life) (statistics.Ratio, bool) {
	var results, hours []float64
	at := map[fault.Place]int{}
	for _, x := range pieces {
		if !x.Timed() {
			continue
		}
		h, _ := x.Hours.Float64()
		i, together := at[x.Sale]
		if !together || x.Sale == (fault.Place{}) {
			i = len(results)
			at[x.Sale] = i
			results, hours = append(results, 0), append(hours, 0)
		}
		results[i] += float64(x.Result)
		hours[i] += h
	}
	return statistics.RatioOf(results, hours)
}

// waitsOf is how long the pieces listed in the scope waited. One still here
// waits up to the end; one taken away unsold, for whatever reason, was watched
// up to that day and says nothing about later ones.
func waitsOf(pieces []Life, scope Scope, end calendar.Month) []statistics.Wait {
	var out []statistics.Wait
	for _, x := range pieces {
		listed := x.Record.ListedOn
		if !scope.Has(listed) || listed.InMonth() > end {
			continue
		}
		until := x.Left
		if x.Status == costing.InStock || until.IsZero() {
			until = end.Last()
		}
		out = append(out, statistics.Wait{Days: max(0, until.DaysSince(listed)), Came: x.Sold()})
	}
	return out
}

func within(waits []statistics.Wait) [3]Sold {
	var out [3]Sold
	for i, days := range Windows {
		share, known := statistics.CameWithin(waits, days)
		out[i] = Sold{Days: days, Share: share, Known: known}
		for _, w := range waits {
			if w.Days >= days || w.Came {
				out[i].Behind++
			}
		}
	}
	return out
}

// Rounded is an estimate in cents to the given unit: 10 for tenths of the
// currency's unit, 100 for whole ones. False of what is not known.
func Rounded(cents float64, unit int64) (money.Cents, bool) {
	if math.IsNaN(cents) || math.Abs(cents) > 1e15 {
		return 0, false
	}
	return money.Cents(math.RoundToEven(cents/float64(unit)) * float64(unit)), true
}
