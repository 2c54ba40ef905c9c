package words_test

import (
	"math/big"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
	"piecebook/report/words"
)

// TestHalfCents: a fee, a trip and a year's write-off that come to an exact half
// cent say which way it was rounded; any other says nothing. (Half to even by
// hand: 62.5 is 62, 63.5 is 64, 1087.5 is 1088, 2.5 is 2.)
func TestHalfCents(t *testing.T) {
	rat := func(text string) *big.Rat { x, _ := new(big.Rat).SetString(text); return x }
	fee := func(base, fixed money.Cents) ledger.Derivation {
		return ledger.Derivation{Method: ledger.FeeWorkedOut, Field: ledger.FieldFee, Rate: rat("5"),
			Amounts: []ledger.Amount{{Name: ledger.AmountBase, Cents: base}, {Name: ledger.AmountFixed, Cents: fixed}}}
	}
	driven := ledger.Derivation{Method: ledger.Driven, Quantity: rat("15"), Unit: "miles", Rate: rat("0.725"),
		Amounts: []ledger.Amount{{Name: ledger.AmountTolls, Cents: 100}}}
	table := ledger.Derivation{Method: ledger.OfTable, Words: "saw", Rate: rat("10"), Quantity: rat("1"),
		Whole: rat("6"), Unit: "5",
		Amounts: []ledger.Amount{{Name: ledger.AmountCost, Cents: 25}}}
	for _, c := range []struct {
		how  ledger.Derivation
		want string
	}{
		{fee(1250, 0), "fee, worked out: 12.50 × 5 %, the half cent rounded down"},
		{fee(1250, 1), "fee, worked out: 12.50 × 5 % + 0.01, the half cent rounded up"},
		{fee(1260, 0), "fee, worked out: 12.60 × 5 %"},
		{driven, "15 miles × 0.725 + tolls 1.00, the half cent rounded up"},
		{table, "saw: 0.25 × 10 %, year 1 of 6 of the 5-year table, the half cent rounded down"},
	} {
		assert.Equal(t, c.want, words.How(ledger.Posting{How: c.how}))
	}
}

// printedShare is a supply share's percentage, its cost and the share, and what
// is said after it.
var printedShare = regexp.MustCompile(
	`^.*, ([0-9.]+) % of ([0-9,.]+) = ([0-9,.]+)((?:, .* so that the shares add up)?)$`)

// TestCalculatorGivesTheShare: over generated books, what a pocket calculator
// gives from a supply share's printed percentage and cost, a half rounded up, is
// the share printed after them, or the cent between them is shown.
func TestCalculatorGivesTheShare(t *testing.T) {
	cents := func(t *testing.T, text string) *big.Rat {
		x, ok := new(big.Rat).SetString(strings.ReplaceAll(text, ",", ""))
		require.True(t, ok, text)
		return x.Mul(x, big.NewRat(100, 1))
	}
	var shares, noted atomic.Int64 // the books are looked at side by side
	testkit.EveryBook(t, 12, func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		for _, p := range l.Postings() {
			if p.How.Method != ledger.UsedSupply || p.Of == nil || p.Of.Total < 0 {
				continue
			}
			text := words.How(p)
			m := printedShare.FindStringSubmatch(text)
			require.NotNil(t, m, text)
			percent, ok := new(big.Rat).SetString(m[1])
			require.True(t, ok, text)
			gives := percent.Mul(percent, cents(t, m[2]))
			gives.Quo(gives, big.NewRat(100, 1)).Add(gives, big.NewRat(1, 2))
			calculated := new(big.Rat).SetInt(new(big.Int).Div(gives.Num(), gives.Denom()))
			off := calculated.Sub(cents(t, m[3]), calculated)
			if off.Sign() != 0 {
				assert.Equal(t, ", "+words.Signed(money.Round(off))+" so that the shares add up", m[4], text)
			}
			if shares.Add(1); m[4] != "" {
				noted.Add(1)
			}
		}
	})
	t.Cleanup(func() {
		assert.Positive(t, noted.Load())
		assert.Less(t, 3*noted.Load(), shares.Load(), "most shares are what a calculator gives")
	})
}
