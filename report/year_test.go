package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// A fee shared over two pieces is one row of its record again, with its whole
// amount; shares of a supply each keep their own row and arithmetic.
func TestByRecord(t *testing.T) {
	sale := []fault.Place{{File: "records/sales.csv", Row: 4}}
	count := []fault.Place{{File: "records/counts.csv", Row: 2}}
	day := calendar.Date{Year: 2026, Month: 3, Day: 9}
	got := byRecord([]ledger.Posting{
		{Date: day, Reason: ledger.ReasonFee, Piece: "A", Cents: 501, Source: sale, Arithmetic: "fee: 10.01 over 2 pieces equally = 5.01"},
		{Date: day, Reason: ledger.ReasonCardFee, Piece: "A", Cents: 30, Source: sale, Arithmetic: "card fee"},
		{Date: day, Reason: ledger.ReasonFee, Piece: "B", Cents: 500, Source: sale, Arithmetic: "fee: 10.01 over 2 pieces equally = 5.00"},
		{Date: day, Reason: ledger.ReasonRecount, Piece: "A", Supply: "Stripper", Cents: -20, Source: count, Arithmetic: "Stripper: less"},
		{Date: day, Reason: ledger.ReasonRecount, Piece: "B", Supply: "Stripper", Cents: 30, Source: count, Arithmetic: "Stripper: more"},
	})
	require.Len(t, got, 4)
	assert.Equal(t, "A, B: fee: 10.01", expenseWords(got[0]))
	assert.Equal(t, "10.01", got[0].Cents.String())
	assert.Equal(t, "Card fee", capital(got[1].Arithmetic))
	assert.Equal(t, "A: Stripper: less", expenseWords(got[2]))
	assert.Equal(t, "B: Stripper: more", expenseWords(got[3]))
}
