package offer

import (
	"math"

	"piecebook/ledger/money"
)

// Step is one line of how an offer is reached.
type Step string

// The steps, in their order. The first six are averages over the kind's sales
// and losses, or over the shop's where the kind has none.
const (
	StepReceipts Step = "receipts"
	StepSelling  Step = "selling costs"
	StepParts    Step = "parts and outside work"
	StepSupplies Step = "supplies"
	StepTrips    Step = "trips"
	StepHours    Step = "hours"
	StepAverage  Step = "average worth" // the sum of those above
	StepDrawn    Step = "drawn toward the shop"
	StepTrend    Step = "trend"
	StepKnown    Step = "known of this one"
	StepTop      Step = "top offer" // the average and what stands below it
)

// Line is one step from what such pieces brought to the top offer.
type Line struct {
	Step  Step
	Cents money.Cents
	// Hours and AnHour are those of StepHours: their product is its cents.
	Hours, AnHour float64
}

// lines is the way to the top offer. What is rounded away on the way is in
// what the steps after the average are.
func (o *Offer) lines(v value) {
	var sum money.Cents
	add := func(step Step, of float64) {
		c := money.Cents(math.RoundToEven(of))
		o.Lines = append(o.Lines, Line{Step: step, Cents: c})
		sum += c
	}
	average := func(step Step, sign float64, of func(outcome) float64) {
		if x := mean(v.from, of); !math.IsNaN(x) {
			add(step, sign*x)
		}
	}
	average(StepReceipts, 1, func(x outcome) float64 { return x.receipts })
	average(StepSelling, -1, func(x outcome) float64 { return x.selling })
	average(StepParts, -1, func(x outcome) float64 { return x.parts })
	average(StepSupplies, -1, func(x outcome) float64 { return x.supplies })
	average(StepTrips, -1, func(x outcome) float64 { return x.trips })
	if v.anHour > 0 {
		average(StepHours, -1, func(x outcome) float64 { return x.hours * v.anHour })
		if n := len(o.Lines); n > 0 {
			o.Lines[n-1].Hours, o.Lines[n-1].AnHour = mean(v.from, func(x outcome) float64 { return x.hours }), v.anHour
		}
	}
	o.Lines = append(o.Lines, Line{Step: StepAverage, Cents: sum})
	// Each of these is what is still missing to the figure it leads to, so that
	// no cent of rounding stands as a step of its own.
	add(StepDrawn, v.drawn-float64(sum))
	add(StepTrend, v.today-float64(sum))
	top := money.Cents(math.RoundToEven(v.at))
	o.Lines = append(o.Lines, Line{Step: StepKnown, Cents: top - sum}, Line{Step: StepTop, Cents: top})
}
