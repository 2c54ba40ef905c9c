package money

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"
	"slices"
)

// Part is one line's portion of a shared total. Off is the cent that it is
// above (1) or below (-1) its exact share rounded by itself, which a pocket
// calculator would give: so that the parts add up. An exact half may go either
// way and is never off.
type Part struct {
	Cents Cents
	Off   Cents
}

// Share splits total over the weights so that the parts always add up to it:
// the largest remainder method (Hamilton's method of apportionment). Each part
// is the floor of its exact share; the cents left over go one each to the
// largest fractional remainders, ties to the earlier line. A negative total is
// shared as its absolute value. A zero weight gets nothing, unless all weights
// are zero: then they count as equal. No weight may be negative; with no
// weights there are no parts, and the caller must not have a total to share.
func Share(total Cents, weights []*big.Rat) []Part {
	if len(weights) == 0 {
		return nil
	}
	d, ok := dividedSmall(total.Abs(), weights)
	if !ok {
		d = divided(total.Abs(), weights)
	}
	parts, left := make([]Part, len(weights)), total.Abs()
	for i, floor := range d.floors {
		left -= floor
		parts[i].Cents = floor
		if d.half[i] > 0 {
			parts[i].Off = -1 // by itself it would be rounded up
		}
	}
	// Fewer cents are left than there are parts with a remainder, so a zero
	// weight, whose remainder is zero, is never reached.
	for _, i := range d.order[:left] {
		parts[i].Cents++
		if d.half[i] != 0 { // a half may be rounded either way: whichever it gets, a calculator agrees
			parts[i].Off++
		}
	}
	if total < 0 {
		for i := range parts {
			parts[i].Cents, parts[i].Off = -parts[i].Cents, -parts[i].Off
		}
	}
	return parts
}

// division is a total divided by weights. A line's remainder is of the weights'
// sum: half says how it compares with half of that, order gives the lines by
// their remainders, the largest first.
type division struct {
	floors []Cents
	half   []int
	order  []int
}

func newDivision(lines int) *division {
	d := &division{make([]Cents, lines), make([]int, lines), make([]int, lines)}
	for i := range d.order {
		d.order[i] = i
	}
	return d
}

// divided divides any amount by any weights.
func divided(total Cents, weights []*big.Rat) *division {
	whole, d := wholeWeights(weights), newDivision(len(weights))
	sum, amount := new(big.Int), big.NewInt(int64(total))
	for _, w := range whole {
		sum.Add(sum, w)
	}
	remainders := make([]*big.Int, len(whole))
	for i, w := range whole {
		floor, rest := new(big.Int).DivMod(new(big.Int).Mul(amount, w), sum, new(big.Int))
		remainders[i] = rest
		d.floors[i], d.half[i] = Cents(floor.Int64()), new(big.Int).Lsh(rest, 1).Cmp(sum)
	}
	slices.SortStableFunc(d.order, func(a, b int) int { return remainders[b].Cmp(remainders[a]) })
	return d
}

// dividedSmall is divided where the weights in whole numbers, and their sum, are
// of 63 bits; else false.
func dividedSmall(total Cents, weights []*big.Rat) (*division, bool) {
	whole, sum, ok := smallWeights(weights)
	if !ok {
		return nil, false
	}
	d := newDivision(len(weights))
	for i, w := range whole {
		high, low := bits.Mul64(uint64(total), w)
		floor, rest := bits.Div64(high, low, sum) // no weight is above the sum
		whole[i] = rest
		d.floors[i], d.half[i] = Cents(floor), cmp.Compare(rest, sum-rest)
	}
	slices.SortStableFunc(d.order, func(a, b int) int { return cmp.Compare(whole[b], whole[a]) })
	return d, true
}

// smallWeights is wholeWeights and their sum, where all are of 63 bits.
func smallWeights(weights []*big.Rat) (whole []uint64, sum uint64, ok bool) {
	denominator, allZero := uint64(1), true
	for _, w := range weights {
		if !w.Num().IsInt64() || !w.IsInt() && !w.Denom().IsInt64() {
			return nil, 0, false
		}
		allZero = allZero && w.Sign() == 0
		if w.IsInt() {
			continue
		}
		more := w.Denom().Uint64() / gcd(denominator, w.Denom().Uint64())
		high, low := bits.Mul64(denominator, more)
		if high > 0 || low > math.MaxInt64 {
			return nil, 0, false
		}
		denominator = low
	}
	whole = make([]uint64, len(weights))
	for i, w := range weights {
		whole[i] = 1
		if !allZero {
			times := denominator
			if !w.IsInt() {
				times /= w.Denom().Uint64()
			}
			high, low := bits.Mul64(w.Num().Uint64(), times)
			if high > 0 || low > math.MaxInt64 {
				return nil, 0, false
			}
			whole[i] = low
		}
		if sum += whole[i]; sum > math.MaxInt64 {
			return nil, 0, false
		}
	}
	return whole, sum, true
}

// gcd is the greatest common divisor (Euclid, Elements VII.2).
func gcd(a, b uint64) uint64 {
	for b > 0 {
		a, b = b, a%b
	}
	return a
}

// wholeWeights brings the weights to whole numbers in the same proportions;
// where all are zero, to ones.
func wholeWeights(weights []*big.Rat) []*big.Int {
	denominator := big.NewInt(1)
	allZero := true
	for _, w := range weights {
		allZero = allZero && w.Sign() == 0
		gcd := new(big.Int).GCD(nil, nil, denominator, w.Denom())
		denominator.Mul(denominator, new(big.Int).Div(w.Denom(), gcd))
	}
	whole := make([]*big.Int, len(weights))
	for i, w := range weights {
		if allZero {
			whole[i] = big.NewInt(1)
			continue
		}
		whole[i] = new(big.Int).Mul(w.Num(), new(big.Int).Div(denominator, w.Denom()))
	}
	return whole
}
