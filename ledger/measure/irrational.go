package measure

import (
	"math/big"
	"strings"
)

// piDigits is π to 100 decimals (OEIS A000796).
const piDigits = "3.1415926535897932384626433832795028841971" +
	"693993751058209749445923078164062862089986280348253421170679"

// workDigits is how many decimals roots and series carry: over 50 digits stay
// right after every later multiplication a piece of furniture can need.
const workDigits = 80

// scale is 10^workDigits.
var scale = new(big.Int).Exp(big.NewInt(10), big.NewInt(workDigits), nil)

// pi is π as a fraction, right to 100 decimals.
func pi() *big.Rat {
	x, _ := new(big.Rat).SetString(piDigits)
	return x
}

// squareRoot is √x, exact where x is the square of a fraction, else cut to
// workDigits decimals. x may not be negative.
func squareRoot(x *big.Rat) *big.Rat {
	over, under := new(big.Int).Sqrt(x.Num()), new(big.Int).Sqrt(x.Denom())
	exact := new(big.Rat).SetFrac(over, under)
	if new(big.Rat).Mul(exact, exact).Cmp(x) == 0 {
		return exact
	}
	// √(a/b) = √(a·b·scale²) / (b·scale)
	inside := new(big.Int).Mul(x.Num(), x.Denom())
	inside.Mul(inside, scale).Mul(inside, scale)
	return new(big.Rat).SetFrac(inside.Sqrt(inside), new(big.Int).Mul(x.Denom(), scale))
}

// tangentOfPiOver is tan(π/n) for n of at least 3: exactly 1 for a square,
// else the quotient of the sine and cosine series in fixed point.
func tangentOfPiOver(n int) *big.Rat {
	if n == 4 {
		return big.NewRat(1, 1)
	}
	angle := fixed(new(big.Rat).Quo(pi(), big.NewRat(int64(n), 1)))
	sine, cosine := series(angle, 1), series(angle, 0)
	return new(big.Rat).SetFrac(sine, cosine)
}

// fixed is x in fixed point, cut.
func fixed(x *big.Rat) *big.Int {
	v := new(big.Int).Mul(x.Num(), scale)
	return v.Quo(v, x.Denom())
}

// series sums x^k/k! for k = first, first+2, … with changing signs: the sine
// from 1, the cosine from 0. It ends when a term falls below the last digit,
// after about 30 terms for angles up to π/3.
func series(x *big.Int, first int64) *big.Int {
	term := new(big.Int).Set(scale)
	if first == 1 {
		term.Set(x)
	}
	sum := new(big.Int).Set(term)
	square := new(big.Int).Mul(x, x)
	square.Quo(square, scale)
	for k := first + 2; term.Sign() != 0; k += 2 {
		term.Mul(term, square)
		term.Quo(term, scale)
		term.Quo(term, big.NewInt(k*(k-1)))
		term.Neg(term)
		sum.Add(sum, term)
	}
	return sum
}

// significant prints x to the given significant digits, half away from zero,
// zeros at the end left out.
func significant(x *big.Rat, digits int) string {
	whole := new(big.Int).Quo(x.Num(), x.Denom())
	decimals := digits
	switch {
	case whole.Sign() != 0:
		decimals = max(0, digits-len(new(big.Int).Abs(whole).String()))
	case x.Sign() != 0:
		// Below 1 the zeros after the point are not significant.
		for small := new(big.Rat).Abs(x); small.Cmp(big.NewRat(1, 10)) < 0; decimals++ {
			small.Mul(small, big.NewRat(10, 1))
		}
	}
	text := x.FloatString(decimals)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
