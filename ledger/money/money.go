// Package money is exact money: whole cents, one way of rounding and one way
// of sharing. No binary floating point is used on the way to a cent.
package money

import (
	"fmt"
	"math/big"
	"strconv"
)

// Cents is an amount in hundredths of the currency's unit. The zero value is
// nothing. int64 holds ninety trillion units, far above the 10^15 cents that
// the laws are tested to.
type Cents int64

// String is the amount with two decimals and no separators: -1234.50.
func (c Cents) String() string {
	sign := ""
	u := uint64(c)
	if c < 0 {
		sign, u = "-", -uint64(c)
	}
	return fmt.Sprintf("%s%d.%02d", sign, u/100, u%100)
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
	return Cents(RoundHalfEven(cents).Int64())
}

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
	scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(decimals)), nil)
	scaled := new(big.Rat).Mul(x, new(big.Rat).SetInt(scale))
	return new(big.Rat).SetFrac(RoundHalfEven(scaled), scale)
}

// Fixed prints x with exactly the given decimals, rounded half to even.
func Fixed(x *big.Rat, decimals int) string { return RoundTo(x, decimals).FloatString(decimals) }

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
