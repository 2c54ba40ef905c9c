package offer

import (
	"math"
	"math/big"

	"piecebook/ledger/kinds"
	"piecebook/ledger/statistics"
)

// Input is one thing the offer is worked out from.
type Input struct {
	Label string
	Unit  string   // money, share, hours, area
	N     int      // the kind's pieces that have it
	Own   float64  // the kind's own average; NaN of none
	Shop  float64  // what all kinds have in common; NaN of none
	Used  float64  // rounded to what is printed of it
	Given bool     // by the owner
	Usual float64  // the usual difference between pieces of the kind
	exact *big.Rat // what is reckoned with; Used is the same
}

type inputs struct{ receipts, selling, lost, parts, trips, hours, area Input }

func (in inputs) list() []Input {
	return []Input{in.receipts, in.selling, in.lost, in.parts, in.trips, in.hours, in.area}
}

// lostWeight: the shop's share of pieces lost is read as so many pieces beside
// the kind's own. Losses are too rare for a kind to show its own, and too dear
// to leave out.
const lostWeight = 10

// inputs takes each figure from the kind's sold pieces, drawn toward the
// shop's by how few and how scattered they are; what the owner gives wins.
// Lost pieces count in the chance of losing one, as if that were found out
// when all the work is done.
func (p past) inputs(ask Ask) inputs {
	var in inputs
	in.receipts = p.drawn(Receipts, "money", p.readings(func(x kinds.Life) (float64, bool) { return float64(x.Receipts), x.Sold() }))
	in.selling = p.drawn(Selling, "share", p.sellingReadings())
	in.lost = p.lostInput()
	in.parts = p.drawn(Parts, "money", p.readings(func(x kinds.Life) (float64, bool) { return float64(x.Parts + x.OutsideWork), x.Sold() }))
	in.trips = p.drawn(Trips, "money", p.readings(func(x kinds.Life) (float64, bool) { return float64(x.Trips), x.Sold() }))
	in.hours = p.drawn(Hours, "hours", p.readings(soldOnly(hoursOf)))
	in.area = p.drawn(Area, "area", p.readings(soldOnly(areaOf)))
	if in.receipts.N == 0 && ask.Usual != nil {
		in.area.Used, _ = ask.Usual.Float64()
	}
	for _, i := range []*Input{&in.receipts, &in.selling, &in.lost, &in.parts, &in.trips, &in.hours, &in.area} {
		i.settle()
	}
	if ask.Price != nil {
		in.receipts.give(ask.Price.Rat())
	}
	in.hours.give(ask.Hours)
	in.area.give(ask.Area)
	return in
}

func hoursOf(x kinds.Life) (float64, bool) {
	h, _ := x.Hours.Float64()
	return h, x.Timed()
}

// soldOnly is a figure of the pieces that were sold.
func soldOnly(of func(kinds.Life) (float64, bool)) func(kinds.Life) (float64, bool) {
	return func(x kinds.Life) (float64, bool) {
		v, ok := of(x)
		return v, ok && x.Sold()
	}
}

// lostInput is the chance that such a piece is never sold.
func (p past) lostInput() Input {
	lost, left := float64(lostOf(p.mine)), float64(len(p.mine))
	in := Input{Label: Lost, Unit: "share", N: len(p.mine), Own: lost / left}
	if len(p.all) > 0 {
		in.Shop = float64(lostOf(p.all)) / float64(len(p.all))
	}
	in.Used = (lost + lostWeight*in.Shop) / (left + lostWeight)
	return in
}

// lostOf counts the pieces that were scrapped or stolen.
func lostOf(pieces []kinds.Life) int {
	n := 0
	for _, x := range pieces {
		if !x.Sold() {
			n++
		}
	}
	return n
}

func areaOf(x kinds.Life) (float64, bool) {
	if x.Record.Area == nil {
		return 0, false
	}
	a, _ := x.Record.Area.Float64()
	return a, true
}

// sellingReadings is selling costs over receipts, of the sold.
func (p past) sellingReadings() [][]float64 {
	out := make([][]float64, len(p.groups))
	for i, pieces := range p.groups {
		var costs, receipts []float64
		for _, x := range pieces {
			if x.Sold() {
				costs, receipts = append(costs, float64(x.SellingCosts)), append(receipts, float64(x.Receipts))
			}
		}
		if r, ok := statistics.RatioOf(costs, receipts); ok {
			out[i] = r.Readings
		}
	}
	return out
}

// drawn is an input from readings, the kind's own first.
func (p past) drawn(label, unit string, groups [][]float64) Input {
	own := groups[0]
	var all []float64
	for _, g := range groups {
		all = append(all, g...)
	}
	in := Input{Label: label, Unit: unit, N: len(own), Own: statistics.Mean(own), Shop: statistics.Mean(all), Usual: usual(groups)}
	if h, ok := statistics.Draw(groups); ok {
		in.Shop, in.Used = h.Common().Centre(), h.Mean(0).Centre()
		return in
	}
	// Nothing differs, so there is nothing to draw; or nothing is known.
	switch {
	case len(own) > 0:
		in.Used = in.Own
	case len(all) > 0:
		in.Used = in.Shop
	}
	return in
}

// usual is the usual difference between pieces of the first kind: its own
// standard deviation from three pieces on, else that within all kinds.
func usual(groups [][]float64) float64 {
	if len(groups[0]) >= kinds.FewestSales {
		return statistics.Deviation(groups[0])
	}
	var squares, freedom float64
	for _, g := range groups {
		if len(g) > 1 {
			d := statistics.Deviation(g)
			squares, freedom = squares+d*d*float64(len(g)-1), freedom+float64(len(g)-1)
		}
	}
	if freedom == 0 {
		return 0
	}
	return math.Sqrt(squares / freedom)
}
