package money_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"piecebook/ledger/money"
)

func ExampleShare() {
	// A lot of 100.00 shared by worths of 60, 50 and 40: the floors leave one
	// cent, which goes to the largest remainder.
	parts := money.Share(10000, []*big.Rat{big.NewRat(60, 1), big.NewRat(50, 1), big.NewRat(40, 1)})
	fmt.Println(parts[0].Cents, parts[1].Cents, parts[2].Cents)
	// Output: 40.00 33.33 26.67
}

func TestCentsText(t *testing.T) {
	for cents, want := range map[money.Cents]string{0: "0.00", 5: "0.05", -5: "-0.05", 123456: "1234.56", -100: "-1.00"} {
		assert.Equal(t, want, cents.String())
		var back money.Cents
		require.NoError(t, back.UnmarshalText([]byte(want)))
		assert.Equal(t, cents, back)
	}
	assert.Equal(t, "1,234,567.89", money.Cents(123456789).Grouped())
	assert.Equal(t, "−1,234.50", money.Cents(-123450).Grouped())
	assert.Equal(t, "999.99", money.Cents(99999).Grouped())
	var c money.Cents
	assert.Error(t, c.UnmarshalText([]byte("12.5")))
}

// Half goes to the even neighbour: IEEE 754-2019 section 4.3.1, roundTiesToEven,
// here on exact fractions.
func TestRoundHalfToEven(t *testing.T) {
	for _, c := range []struct {
		num, den int64
		want     money.Cents
	}{{5, 2, 2}, {7, 2, 4}, {-5, 2, -2}, {-7, 2, -4}, {1, 2, 0}, {3, 2, 2}, {-1, 2, 0}, {26, 10, 3}, {-26, 10, -3},
		{24, 10, 2}} {
		assert.Equal(t, c.want, money.Round(big.NewRat(c.num, c.den)), "%d/%d", c.num, c.den)
	}
	assert.Equal(t, "14.44", money.Fixed(big.NewRat(1443585, 100000), 2))
	assert.Equal(t, "0.285", money.AtMost(big.NewRat(285, 1000), 4))
	assert.Equal(t, "3", money.AtMost(big.NewRat(3, 1), 4))
	assert.Equal(t, "-0.3333", money.AtMost(big.NewRat(-1, 3), 4))
}

// What is worked out on small numbers is what big ones give, also where numbers
// of 64 bits are only just enough or no longer are.
func TestSmallNumbersRoundAsBigOnesDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := big.NewRat(rapid.Int64Min(-1<<63+1).Draw(t, "num"), rapid.Int64Range(1, 1<<63-1).Draw(t, "denom"))
		decimals := rapid.IntRange(0, 10).Draw(t, "decimals")
		scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(decimals)), nil))
		whole := money.RoundHalfEven(new(big.Rat).Mul(x, scale))
		want := new(big.Rat).Quo(new(big.Rat).SetInt(whole), scale)
		assert.Equal(t, want.RatString(), money.RoundTo(x, decimals).RatString())
		assert.Equal(t, want.FloatString(decimals), money.Fixed(x, decimals))
		if whole := money.RoundHalfEven(x); whole.IsInt64() {
			assert.Equal(t, whole.Int64(), int64(money.Round(x)))
		}
	})
}

// Weights that only big numbers hold are shared as small ones in the same
// proportions are: a factor moves no cent.
func TestLargeWeightsShareAsSmallOnesDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := money.Cents(rapid.Int64Range(-1e15, 1e15).Draw(t, "total"))
		factor := new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(3), rapid.UintRange(0, 90).Draw(t, "bits")))
		var small, large []*big.Rat
		for range rapid.IntRange(1, 8).Draw(t, "lines") {
			w := big.NewRat(rapid.Int64Range(0, 1e6).Draw(t, "num"), rapid.Int64Range(1, 1e3).Draw(t, "denom"))
			small, large = append(small, w), append(large, new(big.Rat).Quo(new(big.Rat).Mul(w, factor), big.NewRat(7, 1)))
		}
		assert.Equal(t, money.Share(total, small), money.Share(total, large))
	})
}

func weights(ns ...int64) []*big.Rat {
	out := make([]*big.Rat, len(ns))
	for i, n := range ns {
		out[i] = big.NewRat(n, 1)
	}
	return out
}

func centsOf(parts []money.Part) []int64 {
	out := make([]int64, len(parts))
	for i, p := range parts {
		out[i] = int64(p.Cents)
	}
	return out
}

// Largest remainder on published apportionments, a seat standing for a cent.
func TestSharePublishedApportionments(t *testing.T) {
	for _, c := range []struct {
		source  string
		units   money.Cents
		weights []int64
		want    []int64
	}{
		{"1790 census, Hamilton's bill of 120 seats: populations and seats in For All Practical Purposes, " +
			"10th ed., ch. 14, " +
			"Table 14.5 (no state has a quota under 1, so no minimum plays a part)", 120,
			[]int64{630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236, 179570, 141822, 85533, 70835, 68705,
				68446, 55540},
			[]int64{21, 16, 14, 12, 11, 9, 8, 7, 6, 5, 3, 2, 2, 2, 2}},
		{"OpenStax, Contemporary Mathematics 11.5", 10, []int64{6, 6, 2}, []int64{4, 4, 2}},
		{"OpenStax, Contemporary Mathematics 11.5 (the third loses one as the total grows)", 11, []int64{6, 6, 2}, []int64{5, 5, 1}},
		{"OpenStax, Contemporary Mathematics 11.5", 18, []int64{825, 613, 239}, []int64{9, 7, 2}},
		{"OpenStax, Contemporary Mathematics 11.5", 18, []int64{882, 626, 242}, []int64{9, 6, 3}},
		{"OpenStax, Contemporary Mathematics 11.5", 38, []int64{894, 696, 215}, []int64{19, 15, 4}},
		{"OpenStax, Contemporary Mathematics 11.5", 38, []int64{953, 706, 218}, []int64{19, 14, 5}},
		{"OpenStax, Contemporary Mathematics 11.5", 90, []int64{700, 937}, []int64{38, 52}},
		{"OpenStax, Contemporary Mathematics 11.5", 99, []int64{700, 937, 170}, []int64{39, 51, 9}},
		{"vignette of the R package apportR (moves published, seats worked out here)", 50, []int64{150, 78, 173, 204, 295}, []int64{8, 4, 10, 11, 17}},
		{"vignette of the R package apportR (moves published, seats worked out here)", 50, []int64{150, 78, 181, 204, 296}, []int64{8, 5, 10, 11, 16}},
	} {
		assert.Equal(t, c.want, centsOf(money.Share(c.units, weights(c.weights...))), c.source)
	}
}

// Lump sums bought together and split by value, some not dividing evenly.
func TestSharePublishedLumpSums(t *testing.T) {
	for _, c := range []struct {
		source  string
		total   money.Cents
		weights []int64
		want    []int64
	}{
		{"Saylor, Financial Accounting 10.5: land and building", 500_000_000, []int64{4_500_000, 1_500_000}, []int64{375_000_000, 125_000_000}},
		{"Saylor, Financial Accounting 10.5: the same with 30,000 of fees", 503_000_000, []int64{75, 25}, []int64{377_250_000, 125_750_000}},
		{"Principles of Financial Accounting 24e, ch. 10: three assets", 32_600_000, []int64{175_000, 70_000, 105_000}, []int64{16_300_000, 6_520_000, 9_780_000}},
		{"lump-sum purchase article, 2017, which prints whole units: 238,095 and 761,905", 1_000_000, []int64{250_000, 800_000}, []int64{238_095, 761_905}},
		{"valuation article's inputs; the cents worked out exactly", 10_000_000, []int64{1_500, 14_500, 98_000}, []int64{131_579, 1_271_930, 8_596_491}},
		{"Treas. Reg. 1.338-7 table: 270 over fair values 100 and 200", 27_000, []int64{100, 200}, []int64{9_000, 18_000}},
		{"Saylor, Managerial Accounting 7.10: lumber by board feet", 25_000_000, []int64{600_000, 200_000}, []int64{18_750_000, 6_250_000}},
		{"Saylor, Managerial Accounting 7.10: apples by sales value, printed in whole units", 4_000, []int64{2_400, 3_500}, []int64{1_627, 2_373}},
		{"OpenStax, Managerial Accounting 4.2: property tax by floor area", 3_000_000, []int64{4_000, 6_000}, []int64{1_200_000, 1_800_000}},
		{"Saylor, Managerial Accounting 3.6: a service department by heads", 9_000_000, []int64{35, 85}, []int64{2_625_000, 6_375_000}},
	} {
		assert.Equal(t, c.want, centsOf(money.Share(c.total, weights(c.weights...))), c.source)
	}
}

// Ties, zero weights and sign, which published tables cannot show.
func TestShareTiesAndZeros(t *testing.T) {
	assert.Equal(t, []int64{4, 3, 3}, centsOf(money.Share(10, weights(1, 1, 1))), "a tie goes to the earlier line")
	assert.Equal(t, []int64{0, 4, 3, 3}, centsOf(money.Share(10, weights(0, 1, 1, 1))), "a zero weight gets nothing")
	assert.Equal(t, []int64{4, 3, 3}, centsOf(money.Share(10, weights(0, 0, 0))), "all zero count as equal")
	assert.Equal(t, []int64{-4, -3, -3}, centsOf(money.Share(-10, weights(1, 1, 1))), "a negative total is shared as its "+
		"absolute value")
	assert.Empty(t, money.Share(10, nil))
	parts := money.Share(10, weights(1, 1, 1)) // exact 3.33 each: the first is a cent above
	assert.Equal(t, []money.Cents{1, 0, 0}, []money.Cents{parts[0].Off, parts[1].Off, parts[2].Off})
	parts = money.Share(-11, weights(1, 1, 1)) // exact -3.67 each: the last is a cent short of -4
	assert.Equal(t, []money.Cents{0, 0, 1}, []money.Cents{parts[0].Off, parts[1].Off, parts[2].Off})
}

// The laws of sharing, on totals to 10^15 cents and fractional weights:
// parts sum to the total and keep its sign, a zero weight gets nothing unless
// all are zero, each part is under a cent from its exact share, and no part
// with a smaller remainder has a leftover cent where a larger has none.
func TestShareLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := money.Cents(rapid.Int64Range(-1_000_000_000_000_000, 1_000_000_000_000_000).Draw(t, "total"))
		n := rapid.IntRange(1, 12).Draw(t, "n")
		ws := make([]*big.Rat, n)
		sum := new(big.Rat)
		for i := range ws {
			ws[i] = big.NewRat(rapid.Int64Range(0, 1_000_000).Draw(t, "num"), rapid.Int64Range(1, 9_999).Draw(t, "den"))
			sum.Add(sum, ws[i])
		}
		parts := money.Share(total, ws)
		var got money.Cents
		type fate struct {
			remainder *big.Rat
			extra     bool
		}
		var fates []fate
		for i, p := range parts {
			got += p.Cents
			if int64(p.Cents)*sign(int64(total)) < 0 {
				t.Fatalf("part %d of %d changed sign: %d", i, total, p.Cents)
			}
			weight, all := ws[i], sum
			if sum.Sign() == 0 {
				weight, all = big.NewRat(1, 1), big.NewRat(int64(n), 1)
			}
			if weight.Sign() == 0 && p.Cents != 0 {
				t.Fatalf("zero weight got %d", p.Cents)
			}
			exact := new(big.Rat).Quo(new(big.Rat).Mul(total.Abs().Rat(), weight), all)
			off := new(big.Rat).Sub(p.Cents.Abs().Rat(), exact)
			if off.Abs(off).Cmp(big.NewRat(1, 1)) >= 0 {
				t.Fatalf("part %d is %s cents from its exact share", i, off.FloatString(4))
			}
			floor := new(big.Int).Div(exact.Num(), exact.Denom())
			half := new(big.Rat).Sub(off, big.NewRat(1, 2)).Sign() == 0
			if want := money.Round(exact) + p.Off*money.Cents(sign(int64(total))); p.Cents.Abs() != want &&
				!(half && p.Off == 0) {
				t.Fatalf("part %d is %d, its share rounded by itself and what it is off give %d", i, p.Cents, want)
			}
			fates = append(fates, fate{new(big.Rat).Sub(exact, new(big.Rat).SetInt(floor)),
				int64(p.Cents.Abs()) > floor.Int64()})
		}
		if got != total {
			t.Fatalf("parts sum to %d, not %d", got, total)
		}
		for i, a := range fates {
			for j, b := range fates {
				c := a.remainder.Cmp(b.remainder)
				if !a.extra && b.extra && (c > 0 || c == 0 && i < j) {
					t.Fatalf("line %d has the better claim to a cent than line %d", i, j)
				}
			}
		}
	})
}

func sign(n int64) int64 {
	if n < 0 {
		return -1
	}
	return 1
}
