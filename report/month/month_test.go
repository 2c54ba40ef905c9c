package month

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/testkit"
)

// TestChangesAddUp: in every month what changed adds up to the difference of
// the two net profits, and the names of each line to the line.
func TestChangesAddUp(t *testing.T) {
	amount := regexp.MustCompile(`\(?[0-9,]+\.[0-9]{2}\)?(?:; |$)`)
	for _, in := range testkit.SampleInputs(t)[1:] {
		var sum money.Cents
		for _, c := range changes(&in, in.Before.To, in.Month.To) {
			sum += c.total
			var named money.Cents
			for _, m := range amount.FindAllString(through(&in, c), -1) {
				named += money.Cents(readAmount(t, strings.TrimSuffix(m, "; ")))
			}
			assert.Equal(t, c.total, named, "%s, %s: %s", in.Month.To, c.line, through(&in, c))
		}
		assert.Equal(t, in.Month.Statement.NetProfit-in.Before.Statement.NetProfit, sum, in.Month.To)
	}
}

// readAmount reads an amount as printed: 1,234.56 or (1,234.56).
func readAmount(t *testing.T, s string) int64 {
	t.Helper()
	digits := strings.NewReplacer("(", "", ")", "", ",", "", ".", "").Replace(s)
	n, err := strconv.ParseInt(digits, 10, 64)
	require.NoError(t, err, s)
	if strings.HasPrefix(s, "(") {
		return -n
	}
	return n
}

// TestPayoutsTie: the sample's payouts are what the sales, fees and rent leave.
func TestPayoutsTie(t *testing.T) {
	tables := 0
	for _, in := range testkit.SampleInputs(t) {
		for _, b := range bank(&in) {
			if table, ok := b.(page.Table); ok && table.NoHead {
				tables++
				assert.Zero(t, table.Rows[len(table.Rows)-1].Cells[1].Cents, "%s: %s", in.Month.To, table.Caption)
			}
		}
		assert.Empty(t, bankNotArrived(&in))
	}
	assert.Equal(t, 11, tables)
}

// TestSpreadTies: the groups' rows and columns add up to the shelf's use.
func TestSpreadTies(t *testing.T) {
	in := testkit.SmallShop(t)
	m := spreadMatrix(&in)
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

// Page 1 lists what can be done, each thing with what the cell holds; a column
// of the owner's own, which may stay as it is, is among the notes only.
func TestPageOneListsWhatCanBeDone(t *testing.T) {
	at := fault.Place{File: "records/pieces.csv", Row: 1}
	unknown := func(column, fix string) fault.Problem {
		return fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: at.At(column), Found: column,
			Why: "Pieces has no column of that name, so it is not read.", Fix: fix}
	}
	own := unknown("Style", "A column of your own may stay.")
	own.AsksNothing = true
	in := report.Input{Books: &ledger.Books{}, Notes: []fault.Problem{
		own,
		unknown("piecs", "It looks like piece. If it is, rename it."),
		unknown("colr", "It looks like color. If it is, rename it."),
		{Note: true, AsksNothing: true, Place: at, Why: "The count moves 0.29.", Fix: "Nothing to type; counting sooner keeps such corrections small."},
	}}
	items := attentionItems(&in)
	require.Len(t, items, 2)
	assert.Equal(t, `"piecs": Pieces has no column of that name, so it is not read (pieces.csv:1, piecs).`, items[0].words)
	assert.Equal(t, "Note 2", items[0].look, "by its number among all notes")
	assert.NotEqual(t, items[0].words, items[1].words)
}

// TestPagesAgree: what several pages of a month say is the same on each: the
// supplies spread, used on the shelf and put into pieces; the money tied up by
// age and in the table; page 1's net profit, the statement's and the last bar's.
func TestPagesAgree(t *testing.T) {
	for _, in := range testkit.SampleInputs(t) {
		d, m := Doc(in), in.Month.To.String()
		var spread, byAge, inStock []int64
		testkit.EveryBlock(d, func(section string, b page.Block) {
			table, ok := b.(page.Table)
			if !ok || len(table.Rows) == 0 {
				return
			}
			last := table.Rows[len(table.Rows)-1].Cells
			switch {
			case strings.HasPrefix(section, "How supplies") && table.Columns[len(table.Columns)-1].Head == "All supplies":
				spread = append(spread, last[len(last)-1].Cents)
			case strings.HasPrefix(table.Caption, "Money tied up"):
				byAge = append(byAge, last[1].Cents)
			case section == "Pieces in stock":
				for _, r := range table.Rows {
					if strings.Contains(r.Cells[0].Text, "in stock") {
						inStock = append(inStock, r.Cells[len(r.Cells)-1].Cents)
					}
				}
			}
		})
		used := in.Month.Stock.Supplies
		if len(spread) > 0 {
			assert.Equal(t, []int64{int64(used)}, spread, m)
		}
		assert.Equal(t, inStock, byAge, m)
		bars := monthBars(&in).(page.VerticalBars)
		assert.Equal(t, int64(in.Month.Statement.NetProfit), bars.Items[len(bars.Items)-1].Figure.Cents, m)
	}
}
