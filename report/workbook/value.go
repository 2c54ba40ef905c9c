package workbook

import (
	"math/big"
	"strconv"
)

// Value is an exact number, or none: the zero Value. Nearly all are small
// fractions, which are held in place: a large workbook has a million of them.
type Value struct {
	num, denom int64    // where denom is not 0
	large      *big.Rat // else
}

// Exactly is a number as a value; nil is none. It must not be changed afterwards.
func Exactly(x *big.Rat) Value {
	if x != nil && x.Num().IsInt64() && x.Denom().IsInt64() {
		return fraction(x.Num().Int64(), x.Denom().Int64())
	}
	return Value{large: x}
}

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

// plus is the sum of two values, of which none counts as zero.
func (v Value) plus(w Value) Value {
	const most = 1 << 61
	switch {
	case v.None():
		return w
	case w.None():
		return v
	case v.denom == w.denom && max(v.num, -v.num, w.num, -w.num) < most:
		return fraction(v.num+w.num, v.denom)
	}
	return Exactly(new(big.Rat).Add(v.Rat(), w.Rat()))
}

// Float64 is the nearest binary number; 0 for none.
func (v Value) Float64() float64 {
	const most = 1 << 53
	if v.denom > 0 && v.denom < most && v.num > -most && v.num < most {
		return float64(v.num) / float64(v.denom) // both are exact, and division rounds to the nearest
	}
	x := v.Rat()
	if x == nil {
		return 0
	}
	f, _ := x.Float64()
	return f
}

// WholeDigits is how many characters the number has when rounded to a whole one, its sign too.
func (v Value) WholeDigits() int {
	const most = 1 << 61
	if v.denom == 0 || v.denom > most || v.num < -most || v.num > most {
		return len(v.Rat().FloatString(0))
	}
	sign, num := 0, v.num
	if num < 0 {
		sign, num = 1, -num
	}
	return sign + len(strconv.FormatInt((2*num+v.denom)/(2*v.denom), 10))
}

// Cents is the number in hundredths; false where they are not whole or too many.
func (v Value) Cents() (int64, bool) {
	const most = 1 << 56
	if v.denom == 0 || 100%v.denom != 0 || v.num <= -most || v.num >= most {
		return 0, false
	}
	return v.num * (100 / v.denom), true
}
