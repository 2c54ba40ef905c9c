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

// Estimate is what is judged of a kind from its pieces: its long-run average
// profit an hour, before shop costs. Amounts are cents, not rounded; NaN and
// false are 'not known'.
type Estimate struct {
	// Error is the standard error of profit per hour as it was, by ratio
	// linearisation over sales; NaN of one sale.
	Error  float64
	Sales  int  // how many readings there are: pieces that count by the hour, those of one sale once
	Ranked bool // at least FewestSales readings
	Place  int  // from 1; 0 where not ranked
	// Known: there was scatter to judge by, so Expected is drawn in and has an
	// interval; else it is the profit per hour as it was.
	Known     bool
	Expected  float64 // the kind's long-run average
	Low, High float64 // between which it lies with a chance of Level
	Beats     float64 // the chance that it reaches the shop's target after usual shop costs
	Best      float64 // the chance that no other kind's is higher
	Kept      float64 // how much of its distance from the shop's was kept: 1 all, 0 none
	// Next is where the next one piece would lie, NextFive the next five
	// together, with a chance of Level.
	Next, NextFive statistics.Interval
	Within         [3]Sold // by Windows
}

// Sold is the share of listed pieces sold within so many days, those of one
// sale counting once, and where it lies with a chance of Level.
type Sold struct {
	Days int
	statistics.Arrived
	// Watched is how many sales and pieces it is known of: sold by then, or
	// watched longer.
	Watched int
}

// Trend is how prices have moved, by the same share in every kind.
type Trend struct {
	Known  bool
	Share  float64 // of receipts, for each year; drawn hard toward none
	Chance float64 // that there is a trend at all
}

// Matters says that a trend is likelier than not, so that it is shown.
func (t Trend) Matters() bool { return t.Known && t.Chance > 0.5 }

// estimate judges every kind, ranks those that can be, and puts the kinds in order.
func (r *Report) estimate() {
	groups, dates := make([][]float64, len(r.Kinds)), make([][]float64, len(r.Kinds))
	judged := make([][]Life, len(r.Kinds))
	for i := range r.Kinds {
		k := &r.Kinds[i]
		var ratio statistics.Ratio
		ratio, dates[i] = k.Estimate.asItWas(k.Judged, r.End)
		groups[i], judged[i] = ratio.Readings, k.Judged
		k.Estimate.Ranked = k.Estimate.Sales >= FewestSales
	}
	sizes := SizesOf(judged)
	r.Shop.Estimate.asItWas(r.Shop.Judged, r.End)
	if h, ok := (statistics.Model{Groups: groups, Scatter: sizes.Scatter, Columns: sizes.inTime(dates)}).Draw(); ok {
		best := h.Best()
		wanted := float64(r.Target + r.Costs.AnHour)
		for i := range r.Kinds {
			if e := &r.Kinds[i].Estimate; e.Sales > 0 {
				e.draw(h.Mean(i), wanted)
				e.Kept, e.Best = h.Kept(i), best[i]
				e.Next, e.NextFive = h.Next(i, 1).Within(Level), h.Next(i, 5).Within(Level)
			}
		}
		r.Shop.Estimate.draw(h.Common(), wanted)
		r.Shop.Estimate.Kept = 1
		r.Trend.Known = true
		by, chance := h.Effect(0)
		r.Trend.Share, r.Trend.Chance = by/sizes.Receipts, chance
	}
	slices.SortStableFunc(r.Kinds, inRank)
	for i := range r.Kinds {
		if r.Kinds[i].Estimate.Ranked {
			r.Kinds[i].Estimate.Place = i + 1
		}
	}
}

// asItWas fills what the pieces show undrawn, and gives its readings and their
// dates, in years before the end.
func (e *Estimate) asItWas(pieces []Life, end calendar.Month) (statistics.Ratio, []float64) {
	e.Error, e.Expected = math.NaN(), math.NaN()
	none := statistics.Interval{Low: math.NaN(), High: math.NaN()}
	e.Next, e.NextFive = none, none
	ratio, dates, ok := perHour(pieces, end)
	if ok {
		e.Sales, e.Error, e.Expected = len(ratio.Readings), ratio.Error, ratio.Of
	}
	return ratio, dates
}

// draw fills what is believed of the long-run average.
func (e *Estimate) draw(b statistics.Belief, wanted float64) {
	in := b.Within(Level)
	e.Known, e.Expected, e.Low, e.High = true, b.Centre(), in.Low, in.High
	e.Beats = b.Above(wanted)
}

// Contenders are the fewest kinds that hold the best one with a chance of
// Level, the likeliest first, of those that have readings.
func (r Report) Contenders() []Kind {
	var out []Kind
	for _, k := range r.Kinds {
		if k.Estimate.Known {
			out = append(out, k)
		}
	}
	slices.SortStableFunc(out, func(a, b Kind) int { return cmp.Compare(b.Estimate.Best, a.Estimate.Best) })
	sum := 0.0
	for i, k := range out {
		if sum += k.Estimate.Best; sum >= Level {
			return out[:i+1]
		}
	}
	return out
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

// perHour is Σ profit ÷ Σ hours of the pieces that count by the hour, with a
// reading for each sale, and when each was, in years before the end: pieces
// sold on one line share its price and say as much as one. Where they stand in
// the order of the pieces decides the sales' order.
func perHour(pieces []Life, end calendar.Month) (statistics.Ratio, []float64, bool) {
	var results, hours, dates []float64
	at := map[fault.Place]int{}
	for _, x := range pieces {
		if !x.ByHour() {
			continue
		}
		h, _ := x.Hours.Float64()
		i, together := at[x.Sale]
		if !together || x.Sale == (fault.Place{}) {
			i = len(results)
			at[x.Sale] = i
			results, hours, dates = append(results, 0), append(hours, 0), append(dates, Years(x.Left, end))
		}
		results[i] += float64(x.Result)
		hours[i] += h
	}
	ratio, ok := statistics.RatioOf(results, hours)
	return ratio, dates, ok
}

// waitsOf is how long what was listed in the scope waited; pieces sold on one
// line waited once, from the first's listing. One still here waits up to the
// end; one taken away unsold, for whatever reason, was watched up to that day
// and says nothing about later ones.
func waitsOf(pieces []Life, scope Scope, end calendar.Month) (waits []statistics.Wait, listed int) {
	at := map[fault.Place]int{}
	for _, x := range pieces {
		on := x.Record.ListedOn
		if !scope.Has(on) || on.InMonth() > end {
			continue
		}
		listed++
		until := x.Left
		if x.Status == costing.InStock || until.IsZero() {
			until = end.Last()
		}
		w := statistics.Wait{Days: max(0, until.DaysSince(on)), Came: x.Sold()}
		if i, together := at[x.Sale]; together && x.Sale != (fault.Place{}) {
			waits[i].Days = max(waits[i].Days, w.Days)
			continue
		}
		at[x.Sale] = len(waits)
		waits = append(waits, w)
	}
	return waits, listed
}

func within(waits []statistics.Wait) [3]Sold {
	var out [3]Sold
	for i, days := range Windows {
		out[i] = Sold{Days: days, Arrived: statistics.CameWithin(waits, days, Level)}
		for _, w := range waits {
			if w.Days >= days || w.Came {
				out[i].Watched++
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
