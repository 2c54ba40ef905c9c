package accountant

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/report/testkit"
	"piecebook/report/testkit/recalc"
	wb "piecebook/report/workbook"
)

// Every posting that moves a piece's cost has its line of the roll-forward, and
// only those.
func TestStockLineOfEveryPosting(t *testing.T) {
	for _, c := range []struct {
		p    ledger.Posting
		line string
		sign figures.Sign
	}{
		{ledger.Posting{From: ledger.Paid, To: ledger.Pieces, Reason: ledger.ReasonAcquired}, "Acquired", 1},
		{ledger.Posting{From: ledger.Paid, To: ledger.Pieces, Reason: ledger.ReasonMove}, "Parts", 1},
		{ledger.Posting{From: ledger.Shelf, To: ledger.Pieces, Reason: ledger.ReasonRecount}, "Supplies put in", 1},
		{ledger.Posting{From: ledger.Lost, To: ledger.Pieces, Reason: ledger.ReasonReturned}, "Returned", 1},
		{ledger.Posting{From: ledger.Pieces, To: ledger.CostOfSales, Reason: ledger.ReasonLate}, "less: sold", -1},
		{ledger.Posting{From: ledger.Pieces, To: ledger.Owner, Reason: ledger.ReasonRemoved}, "less: removed unsold", -1},
		{ledger.Posting{From: ledger.Paid, To: ledger.Shelf, Reason: ledger.ReasonPurchase}, "", 0},
	} {
		line, sign := stockLine(&c.p)
		assert.Equal(t, c.line, line)
		assert.Equal(t, c.sign, sign)
	}
}

// A draft says so on the Cover and in the head of every printed page.
func TestDraftBookSaysSo(t *testing.T) {
	in := testkit.SmallShop(t)
	in.Refused = []fault.Problem{{Place: fault.Place{File: "sales.csv", Row: 9}, Why: "There is no piece P-14."}}
	b := MonthBook(in)
	assert.Equal(t, "DRAFT", b.Banner)
	assert.Equal(t, "DRAFT · March 2026", b.Sheet("Cover").Title)
	assert.Contains(t, recalc.Text(b), "1 line of the records, until they are put right")
	assert.NotContains(t, recalc.Text(MonthBook(testkit.SmallShop(t))), "raft")
}

// Further sheets stand after the checks, are named on the Cover, and may refer
// to what is there.
func TestFurtherSheets(t *testing.T) {
	b := MonthBook(testkit.SmallShop(t), BookSheet{Name: "Kinds", Title: "Kinds of pieces",
		About:   "what is worth buying again",
		Columns: []wb.Column{{Head: "Kind"}, {Head: "Profit", Kind: wb.KindMoney}},
		Fill: func(book *wb.Book, s *wb.Sheet) {
			s.Row(wb.Normal, wb.Text("dresser"), wb.Money(1).By(book.Sheet("Pieces").Cell("Profit before shop costs", 5)))
		}})
	var names []string
	for _, s := range b.Sheets {
		names = append(names, s.Name)
	}
	assert.Equal(t, []string{"Cover", "Statement", "Twelve months", "Sold", "In stock", "Stock roll-forward", "Shelf",
		"Trips", "Pieces",
		"Profit to net", "Checks", "Kinds", "Shared totals", "Shares", "Corrections", "Postings"}, names[:16])
	found := false
	for _, r := range b.Sheet("Cover").Rows() {
		found = found || r.Cells[0].Link == "Kinds" && r.Cells[2].Text == "what is worth buying again"
	}
	assert.True(t, found)
	assert.Equal(t, "Pieces!$V$5", b.Sheet("Kinds").At(0).Cells[1].Formula)
}
