package testkit

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/testkit/bigbooks"
	"piecebook/report"
)

// oneSale is a shop that sold its one piece; a month after its last is empty.
var oneSale = fstest.MapFS{
	"records/pieces.csv":    {Data: []byte("piece,kind,how,got_on,price,area,finished_on,listed_on,asking\nA,chair,bought,2026-03-02,20.00,15,2026-03-12,2026-03-14,90.00\n")},
	"records/supplies.csv":  {Data: []byte("supply,group,container,coverage\n\"Primer, oil\",primer,1 qt,100\n")},
	"records/purchases.csv": {Data: []byte("bought_on,supply,containers,cost\n2026-03-05,\"Primer, oil\",1,18.99\n")},
	"records/uses.csv":      {Data: []byte("used_on,pieces,supply\n2026-03-08,A,\"Primer, oil\"\n")},
	"records/hours.csv":     {Data: []byte("worked_on,pieces,hours,task\n2026-03-08,A,2.5,prime\n")},
	"records/sales.csv":     {Data: []byte("sold_on,pieces,channel,price\n2026-03-20,A,direct,85.00\n")},
}

// OneSale is the month of a shop that sold its one piece, and the empty month
// after it.
func OneSale(t *testing.T) []report.Input {
	t.Helper()
	months, _ := Months(t, oneSale, 1)
	return months
}

// ManySales is a month in which a shop sells 47 pieces.
func ManySales(t *testing.T) []report.Input {
	t.Helper()
	folder := fstest.MapFS{}
	for name, data := range bigbooks.Make(1, bigbooks.Size{Pieces: 480, Years: 1}).CSV() {
		folder[name] = &fstest.MapFile{Data: data}
	}
	all, _ := Months(t, folder, 0)
	august := all[7:8]
	sold := 0
	for _, p := range august[0].Month.Pieces {
		if august[0].SoldIn(p) {
			sold++
		}
	}
	require.Equal(t, 47, sold)
	return august
}
