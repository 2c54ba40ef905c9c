package year

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// A fee shared over two pieces is one row of its record again, with its whole
// amount; shares of a supply each keep their own row and arithmetic.
func TestByRecord(t *testing.T) {
	sale := []fault.Place{{File: "records/sales.csv", Row: 4}}
	count := []fault.Place{{File: "records/counts.csv", Row: 2}}
	day := calendar.Date{Year: 2026, Month: 3, Day: 9}
	typed := ledger.Derivation{Method: ledger.Typed, Field: ledger.FieldFee}
	fee := &ledger.Shared{Reason: ledger.ReasonFee, How: typed, Total: 1001, By: ledger.Equally,
		Lines: []ledger.SharedLine{{Piece: "A", Cents: 501}, {Piece: "B", Cents: 500}}}
	counted := func(by, before money.Cents) ledger.Derivation {
		return ledger.Derivation{Method: ledger.CountedAnew, Amounts: []ledger.Amount{{Name: ledger.AmountCounted, Cents: by},
			{Name: ledger.AmountBefore, Cents: before}}}
	}
	got := byRecord([]ledger.Posting{
		{Date: day, Reason: ledger.ReasonFee, Piece: "A", Cents: 501, Source: sale, How: typed, Of: fee},
		{Date: day, Reason: ledger.ReasonCardFee, Piece: "A", Cents: 30, Source: sale, How: ledger.Derivation{Method: ledger.Typed, Field: ledger.FieldCardFee}},
		{Date: day, Reason: ledger.ReasonFee, Piece: "B", Cents: 500, Source: sale, How: typed, Of: fee, Line: 1},
		{Date: day, Reason: ledger.ReasonRecount, Piece: "A", Supply: "Stripper", Cents: -20, Source: count, How: counted(10, 30)},
		{Date: day, Reason: ledger.ReasonRecount, Piece: "B", Supply: "Stripper", Cents: 30, Source: count, How: counted(40, 10)},
	})
	require.Len(t, got, 4)
	assert.Equal(t, "A, B: fee: 10.01", expenseWords(got[0]))
	assert.Equal(t, "10.01", got[0].Cents.String())
	assert.Equal(t, "A: card fee", expenseWords(got[1]))
	assert.Equal(t, "A: Stripper: by the count its uses before this month cost 0.10, 0.30 was charged for them",
		expenseWords(got[2]))
	assert.Equal(t, "B: Stripper: by the count its uses before this month cost 0.40, 0.10 was charged for them",
		expenseWords(got[3]))
}
