package kinds

import (
	"math"

	"piecebook/ledger/calendar"
	"piecebook/ledger/statistics"
)

// Sizes are what an hour on each kind's pieces moves over what an hour on the
// shop's does, 1 where it is not known.
type Sizes struct {
	// Scatter is how far profit an hour may be expected to differ, and what a
	// change of prices counts for: as the book cost an hour and the average profit
	// do. That is halfway between the shop's and the kind's, drawn in. The kind's
	// own receipts are not asked, since luck is in them: a kind that was lucky
	// would seem to have a trend.
	Scatter []float64
	// Hours are those of a piece.
	Hours []float64
	// Receipts an hour of the whole shop, cents, and hours of a piece; NaN without hours.
	Receipts, Usual float64
}

// widest: no kind's size counts as so many times more or less than usual.
const widest = 4.0

// sums are what the sold pieces with hours of a kind come to.
type sums struct{ cost, hours, receipts, result, pieces float64 }

// SizesOf are the sizes by the sold pieces of each kind that have hours.
func SizesOf(kinds [][]Life) Sizes {
	each, all, groups := make([]sums, len(kinds)), sums{}, make([][]float64, len(kinds))
	for i, pieces := range kinds {
		ratio, _, _ := perHour(pieces, 0)
		groups[i] = ratio.Readings
		for _, x := range pieces {
			if x.Sold() && x.Timed() {
				h, _ := x.Hours.Float64()
				for _, s := range []*sums{&each[i], &all} {
					s.cost, s.hours, s.pieces = s.cost+float64(x.BookCost), s.hours+h, s.pieces+1
					s.receipts, s.result = s.receipts+float64(x.Receipts), s.result+float64(x.Result)
				}
			}
		}
	}
	rate := math.Max(0, all.result/all.hours)
	out := Sizes{Receipts: all.receipts / all.hours, Usual: all.hours / all.pieces}
	for _, s := range each {
		out.Scatter = append(out.Scatter, bounded(s.cost/s.hours+rate, all.cost/all.hours+rate))
		out.Hours = append(out.Hours, bounded(s.hours/s.pieces, all.hours/all.pieces))
	}
	if h, ok := (statistics.Model{Groups: groups, Scatter: out.Scatter}).Draw(); ok {
		for i, s := range each {
			own := math.Max(0, (rate+h.Mean(i).Centre())/2)
			out.Scatter[i] = bounded(s.cost/s.hours+own, all.cost/all.hours+rate)
		}
	}
	return out
}

// bounded is a ratio between 1/widest and widest; 1 where there is none.
func bounded(a, b float64) float64 {
	if x := a / b; x > 0 {
		return math.Min(widest, math.Max(1/widest, x))
	}
	return 1
}

// Years is a day in years after a month's end, below zero for one before it.
func Years(day calendar.Date, end calendar.Month) float64 {
	return float64(day.DaysSince(end.Last())) / 365.25
}

// InTime is one way in which prices may move with time, by the same share in
// every kind. None is the chance, before anything is seen, that they do not;
// Effect is how far one unit of Of moves a piece of usual receipts where they
// do, in units of the usual difference between pieces of one kind. Both are
// chosen by what the simulator shows (ledger/offer/testdata), not by a source.
type InTime struct {
	None, Effect float64
	Joined       bool // moves prices where the one before does
	Of           func(years float64) float64
}

// Times are the ways: a trend, which is the first, and a season as one wave a
// year. A season that a short history covers unevenly would else look like a
// trend.
var Times = [...]InTime{
	{0.75, 1, false, func(years float64) float64 { return years }},
	{0.6, 0.5, false, func(years float64) float64 { return math.Sin(2 * math.Pi * years) }},
	{0, 0.5, true, func(years float64) float64 { return math.Cos(2 * math.Pi * years) }},
}

// Column is what is held of it beforehand.
func (t InTime) Column() statistics.Column {
	return statistics.Column{None: t.None, Effect: t.Effect, Joined: t.Joined}
}

// inTime are the columns of Times for sales at such dates, in years, by kind.
func (s Sizes) inTime(dates [][]float64) []statistics.Column {
	var out []statistics.Column
	for _, t := range Times {
		x := make([][]float64, len(dates))
		for i := range dates {
			for _, years := range dates[i] {
				x[i] = append(x[i], s.Scatter[i]*t.Of(years))
			}
		}
		c := t.Column()
		c.X = x
		out = append(out, c)
	}
	return out
}
