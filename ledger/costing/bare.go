package costing

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// smallUnits is a unit that may be meant by a number alone, for containers that
// are counted in units of volume or weight. Containers counted in sheets and
// the like hold what is meant.
var smallUnits = map[string]string{"fl oz": "fl oz", "cup": "fl oz", "pt": "fl oz", "qt": "fl oz", "gal": "fl oz",
	"ml": "ml", "l": "ml",
	"oz": "oz", "lb": "oz", "g": "g", "kg": "g"}

// likeUnits says what a number without a unit was read as, and what to type if
// units were meant: 3 of a pack of 25 sheets are 75 sheets. Empty where the
// number can hardly mean units: a part of one, one, or more than a container holds.
func likeUnits(n *big.Rat, s *ledger.Supply) string {
	one := big.NewRat(1, 1)
	if n == nil || !n.IsInt() || n.Cmp(one) <= 0 || s.Size == nil || s.Size.Sign() <= 0 {
		return ""
	}
	unit, small := s.Unit+"s", smallUnits[s.Unit]
	switch {
	case s.Unit == "each":
		unit = "pieces of it"
	case small != "":
		unit = s.Unit
	}
	if small == "" && (s.Size.Cmp(one) <= 0 || n.Cmp(s.Size) > 0) || small == s.Unit && n.Cmp(s.Size) > 0 {
		return ""
	}
	number, meant := money.AtMost(n, 4), unit
	if s.Unit == "each" {
		meant = "each"
	} else if small != "" {
		meant = small
	}
	return fmt.Sprintf(" %s counts containers, %s %s in all; if you meant %s, type %s %s.", number,
		money.AtMost(mul(n, s.Size), 4), unit, meant, number, meant)
}

// largestBare is the month's use of the supply with the largest number without
// a unit; nil where there is none that could mean units.
func (d *shelfMonth) largestBare() *ledger.Use {
	var largest *ledger.Use
	for u := range ledger.Each(d.b.Uses) {
		if u.Supply != d.s.Name || !u.Bare || u.On.InMonth() != d.m || likeUnits(u.Amount, d.s) == "" {
			continue
		}
		if largest == nil || u.Amount.Cmp(largest.Amount) > 0 ||
			u.Amount.Cmp(largest.Amount) == 0 && u.At.Compare(largest.At) < 0 {
			largest = u
		}
	}
	return largest
}

// worthOf is what an amount is worth at the cost of the newest of the layers
// that cost something, in cents, half to even; 0 where none did.
func worthOf(layers []*Layer, amount *big.Rat) money.Cents {
	for _, l := range slices.Backward(layers) {
		if l.Cents != 0 && l.Amount.Sign() > 0 {
			return money.Round(quo(mul(l.Cents.Rat(), amount), l.Amount))
		}
	}
	return 0
}
