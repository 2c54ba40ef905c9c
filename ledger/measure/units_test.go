package measure_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/measure"
)

func rat(t *testing.T, s string) *big.Rat {
	t.Helper()
	x, ok := new(big.Rat).SetString(s)
	require.True(t, ok, s)
	return x
}

func unit(t *testing.T, name string) measure.Unit {
	t.Helper()
	u, ok := measure.FindUnit(name)
	require.True(t, ok, name)
	return u
}

// Goal: every conversion is the exact value of NIST Handbook 44, Appendix C.
// Method: the values as the handbook prints them, one a line.
func TestUnitsAreThoseOfHandbook44(t *testing.T) {
	for _, c := range []struct{ from, to, value string }{
		{"in", "cm", "2.54"}, {"ft", "m", "0.3048"}, {"yd", "m", "0.9144"}, {"ft", "in", "12"}, {"yd", "ft", "3"},
		{"lb", "g", "453.59237"}, {"oz", "g", "28.349523125"}, {"lb", "oz", "16"}, {"kg", "g", "1000"},
		{"fl oz", "ml", "29.5735295625"}, {"pt", "ml", "473.176473"}, {"qt", "ml", "946.352946"},
		{"gal", "l", "3.785411784"}, {"l", "ml", "1000"}, {"cup", "fl oz", "8"}, {"pt", "cup", "2"},
		{"gal", "qt", "4"}, {"qt", "pt", "2"}, {"gal", "fl oz", "128"},
	} {
		require.Zero(t, unit(t, c.from).In(unit(t, c.to)).Cmp(rat(t, c.value)), "1 %s in %s", c.from, c.to)
	}
}

// A gallon is 231 cubic inches of 16.387064 ml (NIST Handbook 44), so spread
// one mil thick it covers 9625/6 = 1604.1666... sq ft, the figure coverage is
// worked out from in the trade (printed as 1604: R. Joseph, Paint & Coatings
// Q&A, October 2003).
func TestGallonAtOneMil(t *testing.T) {
	cubicInch := rat(t, "16.387064")
	cubicInches := new(big.Rat).Quo(unit(t, "gal").In(unit(t, "ml")), cubicInch)
	require.Zero(t, cubicInches.Cmp(big.NewRat(231, 1)))
	sqFt := new(big.Rat).Quo(new(big.Rat).Mul(cubicInches, big.NewRat(1000, 1)), big.NewRat(144, 1))
	require.Zero(t, sqFt.Cmp(big.NewRat(9625, 6)))
}

// A square foot is 0.09290304 m2 and so the square of 0.3048 m (Handbook 44).
func TestSquareFootIsSquareOfFoot(t *testing.T) {
	foot := unit(t, "ft").In(unit(t, "m"))
	require.Zero(t, new(big.Rat).Mul(foot, foot).Cmp(measure.SqFtInSqM()))
	// A mile is 5280 ft.
	require.Zero(t, new(big.Rat).Mul(foot, big.NewRat(5280, 1000)).Cmp(measure.MileInKm()))
}

func TestUnitsAsPeopleWriteThem(t *testing.T) {
	for spelt, name := range map[string]string{"Quarts": "qt", "quart": "qt", "qt.": "qt", "Fl. Oz.": "fl oz",
		"fluid ounces": "fl oz",
		"OZ":           "oz", "ounces": "oz", "litre": "l", "liters": "l", "Gallons": "gal", "gal": "gal", "sheets": "sheet", "disks": "disc",
		"\"": "in", "inches": "in", "feet": "ft", "pounds": "lb", "lbs": "lb", "ea": "each", "tubes": "tube", "pairs": "pair",
		"cups": "cup", "Blatt": "sheet", "Blätter": "sheet", "Stk.": "each", "Stück": "each", "STÜCK": "each",
		"Rollen": "roll", "Dose": "can", "Paar": "pair"} {
		require.Equal(t, name, unit(t, spelt).Name, spelt)
	}
	_, known := measure.FindUnit("barrel")
	require.False(t, known)
	require.True(t, unit(t, "qt").Same(unit(t, "ml")))
	require.False(t, unit(t, "oz").Same(unit(t, "fl oz")))
	require.False(t, unit(t, "sheet").Same(unit(t, "disc")))
}
