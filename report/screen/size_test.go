package screen_test

import (
	"bytes"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/testkit/bigbooks"
	"piecebook/report/html"
	"piecebook/report/screen"
	"piecebook/report/testkit"
)

// TestFortySalesUnderThreeMegabytes: a month of some 45 sales, with about twice
// as many pieces in stock, is a file under 3 MB, in the first year of the books
// and in the second. In the sample's last month 7 are sold and 8 in stock.
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
	}
}
