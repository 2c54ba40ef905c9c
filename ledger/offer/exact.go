package offer

import (
	"math"
	"math/big"

	"piecebook/ledger/money"
)

// rounded is an estimate to so many decimals, half to even, and exact from
// there on; what is not known is 0.
func rounded(x float64, decimals int) *big.Rat {
	exact := new(big.Rat)
	if math.IsNaN(x) || exact.SetFloat64(x) == nil {
		return new(big.Rat)
	}
	return money.RoundTo(exact, decimals)
}

// decimals an input is used to, as it is printed: cents, tenths of a per cent,
// tenths of an area, hundredths of an hour.
var decimals = map[string]int{"money": 0, "share": 3, "area": 1, "hours": 2}

// decimalsGiven are kept of what the owner gives.
const decimalsGiven = 4

// settle makes an input what is printed of it.
func (in *Input) settle() {
	in.exact = rounded(in.Used, decimals[in.Unit])
	in.Used, _ = in.exact.Float64()
}

// give takes what the owner says instead.
func (in *Input) give(x *big.Rat) {
	if x == nil {
		return
	}
	in.exact = money.RoundTo(x, decimalsGiven)
	in.Used, _ = in.exact.Float64()
	in.Given = true
}

// Exact is what is reckoned with, in its unit (cents of money): Used without
// its binary rounding, to the decimals that are printed.
func (in Input) Exact() *big.Rat {
	if in.exact == nil {
		return new(big.Rat)
	}
	return in.exact
}

// Percent is a share as a percentage.
func (in Input) Percent() string {
	return money.RoundTo(new(big.Rat).Mul(in.Exact(), big.NewRat(100, 1)), 1).FloatString(1)
}
