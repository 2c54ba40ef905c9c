package report_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/month"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/testkit"
	"piecebook/report/words"
)

// whyNames is what `why` is asked for each printed line; a line that is not
// here is asked by its own words, and a blank is a sum of lines above it.
var whyNames = map[string]string{
	"All these costs": "", "included above: part payments on unfinished work": "", "Opening": "",
	// a sheet
	words.Unbroken("Profit before shop costs"): "profit before shop costs",
	words.Unbroken("Profit after shop costs"):  "profit after shop costs", words.Unbroken("Book cost so far"): "book cost",
	"Selling costs so far": "selling costs", "Trips so far": "trips", "Its shop costs, so far": "its shop costs", words.Unbroken("It must bring"): "", "Work at the wanted rate": "",
}

// walked asks why of a printed line and holds the postings to what is printed;
// each must rest on records, but for what an account has of no piece. It says
// whether there was something to ask.
func walked(t *testing.T, where string, row page.Row, ask func(string) (figures.Detail, bool)) bool {
	t.Helper()
	label := row.Cells[0].Text
	name, ok := whyNames[label]
	if !ok {
		name = label
	}
	if name == "" {
		return false
	}
	got, ok := ask(name)
	if !assert.True(t, ok, "%s: why knows no %q", where, name) {
		return false
	}
	assert.Equal(t, money.Cents(row.Cells[1].Cents), got.Total, "%s: %s", where, label)
	for _, p := range got.Postings {
		assert.True(t, len(p.Source) > 0 || p.Piece == "", "%s: %s rests on no record: %s", where, label, words.How(p))
	}
	return true
}

// detail is what is under the figure of that name; an expense group goes by its own.
func detail(l *costing.Ledger, of figures.Scope, subject, name string, m calendar.Month) (figures.Detail, bool) {
	if got, ok := figures.DetailOf(l, of, subject, words.Asked(of, name), m); ok {
		return got, true
	}
	return figures.GroupDetail(l, words.AskedGroup(name), m, m)
}

// tableNamed is the first table of a section whose caption is the given one.
func tableNamed(t *testing.T, d page.Document, section, caption string) page.Table {
	t.Helper()
	var found []page.Table
	testkit.EveryBlock(d, func(s string, b page.Block) {
		if table, ok := b.(page.Table); ok && (section == "" || s == section) && table.Caption == caption {
			found = append(found, table)
		}
	})
	require.NotEmpty(t, found, "%s, %s", section, caption)
	return found[0]
}

// TestPrintedTotalsToRecords walks from each line printed of the statement, the
// roll-forward, the shelf and every piece's money to its records.
func TestPrintedTotalsToRecords(t *testing.T) {
	ins, l := testkit.SampleBooks(t)
	steps := 0
	for i, in := range ins {
		if i%4 != 1 {
			continue // every fourth month, the last among them; in ledger/figures all are walked
		}
		m := in.Month.To
		count := func(ok bool) {
			if ok {
				steps++
			}
		}
		d := month.Doc(in)
		for _, row := range tableNamed(t, d, "Statement", "").Rows {
			count(walked(t, m.String(), row, func(name string) (figures.Detail, bool) {
				return detail(l, figures.OfStatement, "",
					name, m)
			}))
		}
		for _, row := range tableNamed(t, d, "Stock and channels", "Pieces at book cost, from the opening "+
			"to the closing").Rows {
			count(walked(t, m.String(), row, func(name string) (figures.Detail, bool) {
				return detail(l, figures.OfStock, "",
					name, m)
			}))
		}
		shelf := tableNamed(t, d, "The shelf", "")
		for _, line := range in.Month.Shelf {
			at := slices.IndexFunc(shelf.Rows, func(r page.Row) bool {
				return strings.HasPrefix(r.Cells[0].Text,
					line.Supply.Name)
			})
			require.GreaterOrEqual(t, at, 0, line.Supply.Name)
			row, worth := shelf.Rows[at], slices.IndexFunc(shelf.Columns, func(c page.Column) bool { return c.Head == "Worth" })
			got, ok := detail(l, figures.OfShelf, line.Supply.Name, "closing", m)
			require.True(t, ok)
			assert.Equal(t, int64(got.Total), row.Cells[worth].Cents, line.Supply.Name)
			steps++
		}
		for _, p := range in.Month.Pieces {
			steps += walkedSheet(t, in, l, p)
		}
	}
	assert.Greater(t, steps, 500)
}

// walkedSheet walks a sheet's money lines.
func walkedSheet(t *testing.T, in report.Input, l *costing.Ledger, p figures.Piece) int {
	t.Helper()
	steps := 0
	for _, row := range tableNamed(t, piece.Sheets(in, []string{p.Record.ID}), "", "Money").Rows {
		if walked(t, p.Record.ID, row, func(name string) (figures.Detail, bool) {
			return detail(l, figures.OfPiece, p.Record.ID, name, in.Month.To)
		}) {
			steps++
		}
	}
	return steps
}
