package offer

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// lines is the way from what the piece brings to what it is worth.
func (o *Offer) lines(in inputs, supplies, lost float64, p past) {
	receipts, selling := in.receipts.Used, in.receipts.Used*in.selling.Used
	add := func(label string, cents float64, how string) {
		o.Lines = append(o.Lines, Line{label, cents, how})
	}
	add("What it sells for", receipts, "")
	add("Selling costs", -selling, fmt.Sprintf("%.1f %% of it", 100*in.selling.Used))
	if lost != 0 {
		how := fmt.Sprintf("%.1f %%: scrapped or stolen so far %d of the shop's %d", 100*in.lost.Used, lostOf(p.all), len(p.all))
		if len(p.mine) > 0 {
			how += fmt.Sprintf(", %d of the %d of its kind", lostOf(p.mine), len(p.mine))
		}
		add("The chance that it never sells", -lost, how)
	}
	add("Parts and outside work", -in.parts.Used, "")
	add("Supplies", -supplies, "")
	add("Trips", -in.trips.Used, "")
	add("The most to pay to come out even", o.Even.At, "working for nothing")
	add("Your hours", -float64(o.Target)*in.hours.Used, "")
	add("The most to pay", o.Top.At, "")
}

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
