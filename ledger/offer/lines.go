package offer

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"

	"piecebook/ledger/money"
)

// lines is the way from what the piece brings to what it is worth. Each step is
// worked out of the inputs as printed and rounded to the cent once.
func (o *Offer) lines(in inputs, supplies money.Cents, p past) {
	var sum money.Cents
	add := func(label string, cents money.Cents, how string) {
		o.Lines = append(o.Lines, Line{label, cents, how})
		sum += cents
	}
	part := func(of money.Cents, share Input) money.Cents {
		return money.Round(new(big.Rat).Mul(of.Rat(), share.Exact()))
	}
	receipts := money.Round(in.receipts.Exact())
	add(StepReceipts, receipts, "")
	add(StepSelling, -part(receipts, in.selling), fmt.Sprintf("%s %% of it", in.selling.Percent()))
	if lost := part(sum, in.lost); lost != 0 {
		how := fmt.Sprintf("%s %% of what is left: scrapped or stolen so far %d of the shop's %d", in.lost.Percent(), lostOf(p.all), len(p.all))
		if len(p.mine) > 0 {
			how += fmt.Sprintf(", %d of the %d of its kind", lostOf(p.mine), len(p.mine))
		}
		add(StepLost, -lost, how)
	}
	add(StepParts, -money.Round(in.parts.Exact()), "")
	add(StepSupplies, -supplies, "")
	add(StepTrips, -money.Round(in.trips.Exact()), "")
	o.Even.At = float64(sum)
	o.Lines = append(o.Lines, Line{StepEven, sum, "working for nothing"})
	add(StepHours, -part(o.Target, in.hours), "")
	o.Top.At = float64(sum)
	o.Lines = append(o.Lines, Line{StepTop, sum, ""})
}

// The labels of the steps.
const (
	StepReceipts = "What it sells for"
	StepSelling  = "Selling costs"
	StepLost     = "The chance that it never sells"
	StepParts    = "Parts and outside work"
	StepSupplies = "Supplies"
	StepTrips    = "Trips"
	StepEven     = "The most to pay to come out even"
	StepHours    = "Your hours"
	StepTop      = "The most to pay"
)

// swing is what one usual difference in each input does to the top offer.
func (o *Offer) swing(in inputs, supplies float64) {
	kept := (1 - in.selling.Used) * (1 - in.lost.Used)
	see := func(what, unit string, by, change float64) {
		if by > 0 && !math.IsNaN(by) && change != 0 {
			o.Swings = append(o.Swings, Swing{what, by, unit, math.Abs(change)})
		}
	}
	see(Receipts, "money", in.receipts.Usual, in.receipts.Usual*kept)
	see(Hours, "hours", in.hours.Usual, in.hours.Usual*float64(o.Target))
	see(Parts, "money", in.parts.Usual, in.parts.Usual)
	see(Trips, "money", in.trips.Usual, in.trips.Usual)
	if in.area.Used > 0 {
		see(Area, "area", in.area.Usual, in.area.Usual/in.area.Used*supplies)
	}
	see(Selling, "share", in.selling.Usual, in.selling.Usual*in.receipts.Used)
	slices.SortStableFunc(o.Swings, func(a, b Swing) int { return cmp.Compare(b.Change, a.Change) })
}
