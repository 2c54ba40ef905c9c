package workbook

import "math/big"

// Value is an exact number, or none: the zero Value. Nearly all are small
// fractions, which are held in place: a large workbook has a million of them.
type Value struct {
	num, denom int64    // where denom is not 0
	large      *big.Rat // else
}

// Exactly is a number as a value; nil is none. It must not be changed afterwards.
func Exactly(x *big.Rat) Value { return Value{large: x} }

func fraction(num, denom int64) Value { return Value{num: num, denom: denom} }

// None says that there is no number.
func (v Value) None() bool { return v == Value{} }

// Rat is the number, not to be changed; nil for none.
func (v Value) Rat() *big.Rat {
	if v.denom != 0 {
		return big.NewRat(v.num, v.denom)
	}
	return v.large
}

// Sign is -1, 0 or 1; 0 for none.
func (v Value) Sign() int {
	switch {
	case v.denom == 0 && v.large != nil:
		return v.large.Sign()
	case v.num < 0:
		return -1
	case v.num > 0:
		return 1
	}
	return 0
}

// Float64 is the nearest binary number; 0 for none.
func (v Value) Float64() float64 {
	if v.denom == 1 && v.num > -1<<53 && v.num < 1<<53 {
		return float64(v.num)
	}
	x := v.Rat()
	if x == nil {
		return 0
	}
	f, _ := x.Float64()
	return f
}

// Cents is the number in hundredths; false where they are not whole or too many.
func (v Value) Cents() (int64, bool) {
	num, denom := v.num, v.denom
	if denom == 0 {
		if v.large == nil || !v.large.Num().IsInt64() || !v.large.Denom().IsInt64() {
			return 0, false
		}
		num, denom = v.large.Num().Int64(), v.large.Denom().Int64()
	}
	const most = 1 << 56
	if 100%denom != 0 || num <= -most || num >= most {
		return 0, false
	}
	return num * (100 / denom), true
}
