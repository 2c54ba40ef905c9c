package report_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/fault"
	"piecebook/report/month"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/testkit"
	"piecebook/report/text"
)

// TestDraftSaysSo: a draft says DRAFT in its banner and lists what it left out
// on its first page.
func TestDraftSaysSo(t *testing.T) {
	in := testkit.SmallShop(t)
	assert.Empty(t, month.Doc(in).Banner)
	in.Refused = []fault.Problem{{Place: fault.Place{File: "sales.csv", Row: 9}, Found: "P-14",
		Why: "There is no piece P-14.", Fix: "Type P-41."}}
	for _, d := range []page.Document{month.Doc(in), piece.PeriodSheets(in), piece.Sheets(in, []string{"A"})} {
		assert.Equal(t, "DRAFT", d.Banner)
	}
	assert.Contains(t, text.Render(month.Doc(in), text.Width), "There is no piece P-14. Type P-41.")
}

// TestCautionsFollowTheRecords: each for what the records say, and none
// without cause; and no page promises safety.
func TestCautionsFollowTheRecords(t *testing.T) {
	in := testkit.SmallShop(t)
	a := text.Render(piece.Sheets(in, []string{"A"}), text.Width)
	flat := strings.Join(strings.Fields(a), " ")
	for _, words := range []string{"test for lead before any sanding", "A Strippers and solvents:", "can tip on a child",
		"no tax advice"} {
		assert.Contains(t, flat, words)
	}
	assert.NotContains(t, flat, "crib")
	assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, flat+text.Render(month.Doc(in), text.Width))
	in.Books.Pieces[0].Made = 1990
	assert.NotContains(t, text.Render(piece.Sheets(in, []string{"A"}), text.Width), "test for lead")
	in.Books.Supplies[1].Caution = "ask Grandma first"
	b := text.Render(piece.Sheets(in, []string{"A"}), text.Width)
	assert.Contains(t, b, "ask Grandma first")
	assert.NotContains(t, b, "Strippers and solvents:")
}

// TestTotalsAddUp: in every table of every report, each total is what stands
// above it, as printed.
func TestTotalsAddUp(t *testing.T) {
	checked := 0
	ins := testkit.SampleInputs(t)
	for i, in := range ins {
		docs := []page.Document{month.Doc(in), piece.PeriodSheets(in)}
		if i == len(ins)-1 {
			var all []string
			for _, p := range in.All {
				all = append(all, p.Record.ID)
			}
			docs = append(docs, piece.Sheets(in, all))
		}
		for _, d := range docs {
			testkit.EveryBlock(d, func(section string, b page.Block) {
				if table, ok := b.(page.Table); ok && !apart(section, table) {
					checked += totalsAdd(t, fmt.Sprintf("%s %s, %s, %s", d.Title, in.Month.To, section, table.Caption), table)
				}
			})
		}
	}
	assert.Greater(t, checked, 450)
}

// apart are the tables whose totals are no plain sums: statements that take
// away, and the two ways to one total. TestStatementAddsUp and the tie-outs
// hold them.
func apart(section string, t page.Table) bool {
	return section == "Statement" || section == "Reconciliations" || t.Caption == "Money" ||
		strings.HasPrefix(t.Caption, "Pieces at book cost")
}

// totalsAdd checks a table's totals and says how many it checked. A rate's
// total is no sum.
func totalsAdd(t *testing.T, where string, table page.Table) int {
	t.Helper()
	checked := 0
	for c, col := range table.Columns {
		if col.Kind != page.KindMoney || strings.HasPrefix(col.Head, "An hour") {
			continue
		}
		var part, whole int64
		for _, r := range table.Rows {
			if r.Style == page.Group {
				part = 0
			}
			if c >= len(r.Cells) || r.Cells[c].Kind != page.KindMoney {
				continue
			}
			got := r.Cells[c].Cents
			switch r.Style {
			case page.Normal:
				part, whole = part+got, whole+got
			case page.Subtotal:
				assert.Equal(t, part, got, "%s: %s, %s", where, r.Cells[0].Text, col.Head)
				part = 0
				checked++
			case page.Total, page.GrandTotal:
				assert.Equal(t, whole, got, "%s: %s, %s", where, r.Cells[0].Text, col.Head)
				checked++
			}
		}
	}
	return checked
}
