package report

import (
	"encoding/json"
	"flag"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
	"piecebook/report/text"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden holds a document, as text, to its golden file.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run go test ./report -update, and look at what changed")
	assert.Equal(t, string(want), got)
}

func TestGoldens(t *testing.T) {
	in := smallShop(t)
	golden(t, "month.txt", text.Render(MonthDoc(in)))
	golden(t, "pieces.txt", text.Render(PiecesDoc(in)))
	golden(t, "sheet-unsold.txt", text.Render(SheetDoc(in, []string{"C", "nobody", "D"})))
	golden(t, "why.txt", text.Render(WhyDoc(in, "A: supplies", in.Postings[1:5], 1744)))
	json, err := FiguresJSON(in.Month)
	require.NoError(t, err)
	golden(t, "figures.json", string(json))
}

// TestDraftSaysSo: a draft says DRAFT in its banner and lists what it left out
// on its first page.
func TestDraftSaysSo(t *testing.T) {
	in := smallShop(t)
	assert.Empty(t, MonthDoc(in).Banner)
	in.Refused = []fault.Problem{{Place: fault.Place{File: "sales.csv", Row: 9}, Found: "P-14", Why: "There is no piece P-14.", Fix: "Type P-41."}}
	for _, d := range []page.Document{MonthDoc(in), PiecesDoc(in), SheetDoc(in, []string{"A"})} {
		assert.Equal(t, "DRAFT", d.Banner)
	}
	assert.Contains(t, text.Render(MonthDoc(in)), "There is no piece P-14. Type P-41.")
}

// TestLinesMeetTheFigures: what the sheet's records add up to, line by line,
// is what its money column says.
func TestLinesMeetTheFigures(t *testing.T) {
	in := smallShop(t)
	a := in.Month.Pieces[0]
	sums := map[line]money.Cents{}
	for _, p := range in.of("A") {
		l, c := lineOf(p)
		sums[l] += c
	}
	assert.Equal(t, map[line]money.Cents{noLine: 0, receiptsLine: a.Receipts, acquisitionLine: a.Acquisition, suppliesLine: a.Supplies, sellingLine: a.SellingCosts, tripsLine: a.Trips, overheadLine: a.Overhead}, sums)
}

// TestEveryReasonHasItsLine: a posting of a piece either counts in a line of
// its sheet or only moves cost that another line holds.
func TestEveryReasonHasItsLine(t *testing.T) {
	none := []ledger.Reason{ledger.ReasonOpening, ledger.ReasonPurchase, ledger.ReasonTakenBack, ledger.ReasonTakeBackGain, ledger.ReasonDiscarded, ledger.ReasonSurplus, ledger.ReasonSold, ledger.ReasonReturned,
		ledger.ReasonRemoved, ledger.ReasonLate, ledger.ReasonEquipment, ledger.ReasonOtherIncome, ledger.ReasonAllowance, ledger.ReasonTaxCollected, ledger.ReasonTaxRefunded, ledger.ReasonTaxPaid}
	for _, w := range none {
		l, c := lineOf(ledger.Posting{Reason: w, Cents: 5})
		assert.Equal(t, noLine, l, w)
		assert.Zero(t, c)
	}
	l, c := lineOf(ledger.Posting{Reason: ledger.ReasonRefund, Cents: 5})
	assert.Equal(t, receiptsLine, l)
	assert.Equal(t, money.Cents(-5), c)
}

func TestSources(t *testing.T) {
	row := func(file string, n int) fault.Place { return fault.Place{File: file, Row: n} }
	assert.Equal(t, "", sources(nil))
	assert.Equal(t, "a.csv:3, 7-9; b.csv:2", sources([]fault.Place{row("a.csv", 9), row("a.csv", 7), row("a.csv", 8), row("b.csv", 2), row("a.csv", 3), row("a.csv", 3).At("area")}))
	var many []fault.Place
	for i := range 20 {
		many = append(many, row("a.csv", 2*i+1))
	}
	assert.Equal(t, "a.csv:1, 3, 5, 7, 9, 11, 13, 15 and 12 rows more", sources(many))
	assert.NotContains(t, allSources(many), "more")
}

func TestSurety(t *testing.T) {
	share := func(b ledger.Basis, c money.Cents) figures.Share { return figures.Share{Basis: b, Cost: c} }
	for words, shares := range map[string][]figures.Share{
		"How sure the supplies are, by cost: 86 % counted, 14 % estimated.":                {share(ledger.Counted, 600), share(ledger.Stated, 100)},
		"How sure the supplies are, by cost: 34 % counted, 33 % measured, 33 % estimated.": {share(ledger.Counted, 1), share(ledger.Measured, 1), share(ledger.FromOwn, 1)},
		"The shares come to nothing, so there is nothing to be sure of.":                   {share(ledger.Counted, 5), share(ledger.Counted, -5)},
	} {
		assert.Equal(t, words, surety(figures.Piece{Shares: shares}))
	}
	assert.Contains(t, surety(figures.Piece{Shares: []figures.Share{share(ledger.Counted, -5)}}), "cannot be told")
}

func TestMedian(t *testing.T) {
	_, ok := median(nil)
	assert.False(t, ok)
	for _, c := range []struct {
		of   []money.Cents
		want money.Cents
	}{{[]money.Cents{3}, 3}, {[]money.Cents{5, 1, 3}, 3}, {[]money.Cents{2, 1}, 2}, {[]money.Cents{4, 3}, 4}, {[]money.Cents{-1, 0, 5, 1}, 0}} {
		got, ok := median(c.of)
		assert.True(t, ok)
		assert.Equal(t, c.want, got, c.of)
	}
	assert.Equal(t, "3/2", medianRat([]*big.Rat{big.NewRat(2, 1), big.NewRat(1, 1)}).String())
}

// TestCautionsFollowTheRecords: each for what the records say, and none
// without cause; and no page promises safety.
func TestCautionsFollowTheRecords(t *testing.T) {
	in := smallShop(t)
	a := text.Render(SheetDoc(in, []string{"A"}))
	flat := strings.Join(strings.Fields(a), " ")
	for _, words := range []string{"test for lead before any sanding", "Strippers and solvents:", "can tip on a child", "no tax advice"} {
		assert.Contains(t, flat, words)
	}
	assert.NotContains(t, flat, "crib")
	assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, flat+text.Render(MonthDoc(in)))
	in.Books.Pieces[0].Made = 1990
	assert.NotContains(t, text.Render(SheetDoc(in, []string{"A"})), "test for lead")
	in.Books.Supplies[1].Caution = "ask Grandma first"
	b := text.Render(SheetDoc(in, []string{"A"}))
	assert.Contains(t, b, "ask Grandma first")
	assert.NotContains(t, b, "Strippers and solvents:")
}

// TestSpreadTies: the groups' rows and columns add up to the shelf's use.
func TestSpreadTies(t *testing.T) {
	in := smallShop(t)
	m := in.spreadMatrix()
	var rows, columns money.Cents
	for _, p := range m.pieces {
		rows += m.row(p, m.supplies)
	}
	for _, s := range m.supplies {
		columns += m.column(s)
	}
	assert.Equal(t, money.Cents(1744), rows)
	assert.Equal(t, rows, columns)
}

// TestFiguresJSONShape: keys in the contract's order, nulls where there is no
// value, lists never null.
func TestFiguresJSONShape(t *testing.T) {
	raw, err := FiguresJSON(figures.Figures{From: march - 2, To: march + 9, Currency: "EUR"})
	require.NoError(t, err)
	var empty map[string]any
	require.NoError(t, json.Unmarshal(raw, &empty))
	assert.Equal(t, "2026", empty["period"])
	assert.Equal(t, Schema, empty["schema"])
	assert.Equal(t, []any{}, empty["pieces"])
	assert.Equal(t, map[string]any{}, empty["statement"].(map[string]any)["expenses"])
	assert.Equal(t, "2026-02/2026-03", periodOf(march-1, march))

	raw, err = FiguresJSON(smallShop(t).Month)
	require.NoError(t, err)
	var got struct {
		Pieces []map[string]any `json:"pieces"`
	}
	require.NoError(t, json.Unmarshal(raw, &got))
	c := got.Pieces[2]
	for _, key := range []string{"sold_on", "area", "profit", "profit_after_overhead", "profit_per_hour", "margin", "days_held", "sold_less_bought"} {
		value, there := c[key]
		assert.True(t, there, key)
		assert.Nil(t, value, key)
	}
	assert.Equal(t, "0", c["hours"])
	assert.Equal(t, "50.00", c["held"])
	assert.Equal(t, "0.7113", got.Pieces[0]["margin"])
	assert.Equal(t, "31.50", got.Pieces[0]["supply_shares"].([]any)[0].(map[string]any)["coated_area"])
}
