// Package money is exact money: whole cents, one way of rounding and one way
// of sharing. No binary floating point is used on the way to a cent.
package money

import (
	"fmt"
	"math"
	"math/big"
	"math/bits"
	"strconv"
)

// Cents is an amount in hundredths of the currency's unit. The zero value is
// nothing. int64 holds ninety trillion units, far above the 10^15 cents that
// the laws are tested to.
type Cents int64

// String is the amount with two decimals and no separators: -1234.50.
func (c Cents) String() string {
	digits, u := make([]byte, 0, 24), uint64(c)
	if c < 0 {
		digits, u = append(digits, '-'), -u
	}
	digits = strconv.AppendUint(digits, u/100, 10)
	return string(append(digits, '.', byte('0'+u/10%10), byte('0'+u%10)))
}

// Grouped is the amount with thousands separated, as sentences have it:
// −1,234.50, with a minus, since a hyphen is too short to be seen.
func (c Cents) Grouped() string {
	s := c.Abs().String()
	for i := len(s) - 6; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	if c < 0 {
		return "−" + s
	}
	return s
}

// Abs is the amount without its sign.
func (c Cents) Abs() Cents {
	if c < 0 {
		return -c
	}
	return c
}

// MarshalText writes String, so that no reader can lose a trailing zero.
func (c Cents) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads what MarshalText wrote: digits, a point, two digits.
func (c *Cents) UnmarshalText(b []byte) error {
	n := len(b)
	if n < 4 || b[n-3] != '.' {
		return fmt.Errorf("%q is not an amount with two decimals", b)
	}
	v, err := strconv.ParseInt(string(b[:n-3])+string(b[n-2:]), 10, 64)
	*c = Cents(v)
	return err
}

// Rat is the amount in cents as an exact fraction.
func (c Cents) Rat() *big.Rat { return new(big.Rat).SetInt64(int64(c)) }

// Round brings an exact number of cents to whole cents, half to even.
func Round(cents *big.Rat) Cents {
	if q, ok := small(cents, 0); ok {
		return Cents(q)
	}
	return Cents(RoundHalfEven(cents).Int64())
}

// small is x times 10^decimals to a whole number, half to even, where numbers
// of 64 bits hold all on the way; else false, and big ones must do it.
func small(x *big.Rat, decimals int) (int64, bool) {
	if decimals >= len(powers) || !x.Num().IsInt64() || !x.IsInt() && !x.Denom().IsUint64() {
		return 0, false
	}
	num, denom := x.Num().Int64(), uint64(1)
	if !x.IsInt() {
		denom = x.Denom().Uint64()
	}
	u := uint64(num)
	if num < 0 {
		u = -u
	}
	high, low := bits.Mul64(u, powers[decimals])
	if high >= denom {
		return 0, false
	}
	q, rest := bits.Div64(high, low, denom)
	if rest > denom-rest || rest == denom-rest && q%2 == 1 {
		q++
	}
	if q > math.MaxInt64 {
		return 0, false
	}
	if num < 0 {
		return -int64(q), true
	}
	return int64(q), true
}

// powers of ten.
var powers = [...]uint64{1, 10, 100, 1_000, 10_000, 100_000, 1_000_000, 10_000_000, 100_000_000}

// RoundHalfEven is the whole number nearest to x; of two equally near, the even one.
func RoundHalfEven(x *big.Rat) *big.Int {
	// Floor first; the remainder, doubled, against the divisor decides.
	q, r := new(big.Int).DivMod(x.Num(), x.Denom(), new(big.Int))
	switch r.Lsh(r, 1).Cmp(x.Denom()) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		if q.Bit(0) == 1 {
			q.Add(q, big.NewInt(1))
		}
	}
	return q
}

// RoundTo is x to the given decimals, half to even, as an exact fraction.
func RoundTo(x *big.Rat, decimals int) *big.Rat {
	if q, ok := small(x, decimals); ok {
		return big.NewRat(q, int64(powers[decimals]))
	}
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(decimals)), nil)
	scaled := new(big.Rat).Mul(x, new(big.Rat).SetInt(scale))
	return new(big.Rat).SetFrac(RoundHalfEven(scaled), scale)
}

// Fixed prints x with exactly the given decimals, rounded half to even.
func Fixed(x *big.Rat, decimals int) string {
	q, ok := small(x, decimals)
	if !ok {
		return RoundTo(x, decimals).FloatString(decimals)
	}
	digits := make([]byte, 0, 24)
	if q < 0 {
		digits, q = append(digits, '-'), -q
	}
	scale := int64(powers[decimals])
	digits = strconv.AppendInt(digits, q/scale, 10)
	if decimals > 0 {
		from := len(digits)
		digits = strconv.AppendInt(digits, scale+q%scale, 10)
		digits[from] = '.' // instead of the scale's one
	}
	return string(digits)
}

// AtMost prints x with at most the given decimals, half to even, without
// trailing zeros: 7.5000 is 7.5, 3.0000 is 3.
func AtMost(x *big.Rat, decimals int) string {
	s := Fixed(x, decimals)
	if decimals == 0 {
		return s
	}
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}
