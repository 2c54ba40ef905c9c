package money

import (
	"cmp"
	"math/big"
	"slices"
)

// Median is the middle one, or half-even between the two in the middle; false
// of none.
func Median(of []Cents) (Cents, bool) {
	if len(of) == 0 {
		return 0, false
	}
	s := slices.Clone(of)
	slices.Sort(s)
	middle := len(s) / 2
	if len(s)%2 == 1 {
		return s[middle], true
	}
	return Round(big.NewRat(int64(s[middle-1]+s[middle]), 2)), true
}

// LargestFirst orders larger amounts, whatever their sign, first.
func LargestFirst(a, b Cents) int { return cmp.Compare(b.Abs(), a.Abs()) }

// OrZero is x, or zero where there is none.
func OrZero(x *big.Rat) *big.Rat {
	if x == nil {
		return new(big.Rat)
	}
	return x
}
