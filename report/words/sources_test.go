package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// TestEveryReasonHasItsLine: a posting of a piece either counts in a line of
// its sheet or only moves cost that another line holds.
func TestEveryReasonHasItsLine(t *testing.T) {
	none := []ledger.Reason{ledger.ReasonOpening, ledger.ReasonPurchase, ledger.ReasonTakenBack, ledger.ReasonTakeBackGain,
		ledger.ReasonDiscarded, ledger.ReasonSurplus, ledger.ReasonSold, ledger.ReasonReturned,
		ledger.ReasonRemoved, ledger.ReasonLate, ledger.ReasonEquipment, ledger.ReasonOtherIncome, ledger.ReasonAllowance,
		ledger.ReasonTaxCollected, ledger.ReasonTaxRefunded, ledger.ReasonTaxPaid}
	for _, w := range none {
		l, c := LineOf(ledger.Posting{Reason: w, Cents: 5})
		assert.Equal(t, NoLine, l, w)
		assert.Zero(t, c)
	}
	l, c := LineOf(ledger.Posting{Reason: ledger.ReasonRefund, Cents: 5})
	assert.Equal(t, ReceiptsLine, l)
	assert.Equal(t, money.Cents(-5), c)
}

func TestSources(t *testing.T) {
	row := func(file string, n int) fault.Place { return fault.Place{File: file, Row: n} }
	assert.Equal(t, "", Sources(nil))
	assert.Equal(t, "a.csv:3, 7-9; b.csv:2", Sources([]fault.Place{row("a.csv", 9), row("a.csv", 7), row("a.csv", 8),
		row("b.csv", 2), row("a.csv", 3), row("a.csv", 3).At("area")}))
	var many []fault.Place
	for i := range 20 {
		many = append(many, row("a.csv", 2*i+1))
	}
	assert.Equal(t, "a.csv:1, 3, 5, 7, 9, 11, 13, 15 and 12 rows more", Sources(many))
	assert.NotContains(t, AllSources(many), "more")
}
