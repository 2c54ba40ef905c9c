package money

import (
	"math/big"
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
	whole := wholeWeights(weights)
	sum := new(big.Int)
	for _, w := range whole {
		sum.Add(sum, w)
	}
	amount := big.NewInt(int64(total))
	negative := amount.Sign() < 0
	amount.Abs(amount)

	floors := make([]*big.Int, len(whole))
	remainders := make([]*big.Int, len(whole))
	left := new(big.Int).Set(amount)
	for i, w := range whole {
		floors[i], remainders[i] = new(big.Int).DivMod(new(big.Int).Mul(amount, w), sum, new(big.Int))
		left.Sub(left, floors[i])
	}
	order := make([]int, len(whole))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return remainders[b].Cmp(remainders[a]) })

	parts := make([]Part, len(whole))
	for i, f := range floors {
		parts[i].Cents = Cents(f.Int64())
		if new(big.Int).Lsh(remainders[i], 1).Cmp(sum) == 0 {
			continue // a half may be rounded either way: whichever it gets, a calculator agrees
		}
		parts[i].Off = parts[i].Cents - Round(new(big.Rat).Add(new(big.Rat).SetInt(f),
			new(big.Rat).SetFrac(remainders[i], sum)))
	}
	// Fewer cents are left than there are parts with a remainder, so a zero
	// weight, whose remainder is zero, is never reached.
	for _, i := range order[:left.Int64()] {
		parts[i].Cents++
		if new(big.Int).Lsh(remainders[i], 1).Cmp(sum) != 0 {
			parts[i].Off++
		}
	}
	if negative {
		for i := range parts {
			parts[i].Cents, parts[i].Off = -parts[i].Cents, -parts[i].Off
		}
	}
	return parts
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
