package screen_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/testkit/bigbooks"
	"piecebook/report"
	"piecebook/report/html"
	"piecebook/report/page"
	"piecebook/report/screen"
	"piecebook/report/testkit"
)

// TestFortySalesUnderThreeMegabytes: a month of some 45 sales, with about twice
// as many pieces in stock, is a file under 3 MB with all parts of every share, in the
// first year of the books and in the second. In the sample's last month 7 are sold and 8 in stock.
func TestFortySalesUnderThreeMegabytes(t *testing.T) {
	for _, x := range []struct{ years, month, sold, pieces int }{{1, 7, 47, 144}, {2, 20, 47, 172}} {
		folder := fstest.MapFS{}
		for name, data := range bigbooks.Make(1, bigbooks.Size{Pieces: 480, Years: x.years}).CSV() {
			folder[name] = &fstest.MapFile{Data: data}
		}
		ins, _ := testkit.Months(t, folder, 0)
		in := ins[x.month]
		sold := 0
		for _, p := range in.Month.Pieces {
			if in.SoldIn(p) {
				sold++
			}
		}
		assert.Equal(t, x.sold, sold)
		assert.Len(t, in.Month.Pieces, x.pieces)
		var file bytes.Buffer
		require.NoError(t, html.Write(&file, screen.Month(in)))
		t.Log("year", x.years, "bytes:", file.Len())
		assert.Less(t, file.Len(), 3_000_000)
		uncut(t, screen.Month(in), file.String())
	}
}

// TestNothingCut: no month of the sample has a share without all of its parts.
func TestNothingCut(t *testing.T) {
	for _, in := range testkit.SampleInputs(t) {
		var file bytes.Buffer
		d := screen.Month(in)
		require.NoError(t, html.Write(&file, d))
		uncut(t, d, file.String())
	}
}

// uncut checks that a file has a row for each piece that had a part of a total.
func uncut(t *testing.T, d page.Document, file string) {
	t.Helper()
	assert.NotContains(t, file, "other pieces, in the report of", d.Period)
	for _, x := range d.Details {
		page.EachTable(x.Blocks, func(table page.Table) {
			for i, c := range table.Columns {
				whole, ok := c.Of.(report.Whole)
				if !ok {
					continue
				}
				pieces := map[string]bool{}
				for _, l := range whole.Lines {
					pieces[l.Piece] = true
				}
				for _, r := range table.Rows[:len(table.Rows)-1] {
					if r.Cells[i].Kind == page.KindMoney {
						delete(pieces, r.Cells[0].Text)
					}
				}
				delete(pieces, "") // 'no piece'
				assert.Empty(t, pieces, "%s, %s: %s", d.Period, x.Title, c.Head)
			}
		})
	}
}
