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

// TestFortySalesUnderThreeMegabytes: a month of 47 sales, with 97 pieces in
// stock, is a file under 3 MB. In stock are twice as many for a sale as in the
// sample's last month (7 sold, 8 in stock).
func TestFortySalesUnderThreeMegabytes(t *testing.T) {
	folder := fstest.MapFS{}
	for name, data := range bigbooks.Make(1, bigbooks.Size{Pieces: 480, Years: 1}).CSV() {
		folder[name] = &fstest.MapFile{Data: data}
	}
	ins, _ := testkit.Months(t, folder, 0)
	august := ins[7]
	sold := 0
	for _, p := range august.Month.Pieces {
		if august.SoldIn(p) {
			sold++
		}
	}
	require.Equal(t, 47, sold)
	require.Len(t, august.Month.Pieces, 144)
	var file bytes.Buffer
	require.NoError(t, html.Write(&file, screen.Month(august)))
	t.Log("bytes:", file.Len())
	assert.Less(t, file.Len(), 3_000_000)
}
