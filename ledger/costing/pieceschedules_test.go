package costing_test

import (
	"testing"

	"piecebook/ledger/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

const scheduled = `
pieces
piece,kind,got_on,price,area,schedule,finished_on,listed_on,sold_on,channel,sold_price
A,dresser,2026-03-01,40,30,Painted,2026-03-10,2026-04-01,,,
B,dresser,2026-03-01,40,20,painted,,2026-03-20,,,
C,dresser,2026-03-01,40,50,Painted,,,,,
D,dresser,2026-03-01,40,10,Painted,,,2026-04-02,fair,90
E,dresser,2026-03-01,40,40,Painted,2026-03-12,,,,

supplies
supply,group,container,coverage
Primer,primer,1 qt,100
White paint,paint,1 qt,110

schedules
schedule,supply,coats
Painted,Primer,1
Painted,White paint,2

purchases
bought_on,supply,containers,cost
2026-03-01,Primer,1,18.00
2026-03-01,White paint,1,22.00
`

// A piece's schedule stands for one use on the day it was finished, else listed,
// else sold, with none of these for nothing yet; where Uses names the piece,
// only Uses count. By hand: in March primer did 30, 20 and E's 40 of 100 sq ft,
// 16.20: 5.40, 3.60, 7.20; paint 60 and 40 of 110, 20.00: 12.00, 8.00. In April
// D's 10 sq ft take a tenth of the primer, 1.80, and all the paint that is left.
func TestPieceSchedules(t *testing.T) {
	l := testkit.Costed(t, scheduled+`
uses
used_on,pieces,supply
2026-03-15,E,Primer
`, "2026-04")
	for id, want := range map[string]string{"A": "17.40", "B": "11.60", "C": "0.00", "D": "3.80", "E": "7.20"} {
		assert.Equal(t, want, piece(t, l, id, "2026-04").Supplies.String(), id)
	}
	assert.Len(t, piece(t, l, "D", "2026-04").Shares, 2)
	assert.Equal(t, "0.00", piece(t, l, "D", "2026-03").Supplies.String(), "not yet sold")
}

// Without an area what a schedule used cannot be shared.
func TestPieceScheduleNeedsAnArea(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(bookgen.InWords(`
pieces
piece,kind,got_on,price,schedule,finished_on
A,thing,2026-03-01,40,Bare,2026-03-10
B,thing,2026-03-01,40,Bare,

supplies
supply,group,container
Wax,wax,1 lb

schedules
schedule,supply
Bare,Wax
`), set)
	errors := read.Problems.Errors()
	require.Len(t, errors, 1, "of the piece that is not finished nothing is used yet")
	assert.Equal(t, fault.CodeAreaMissing, errors[0].Code)
	assert.Equal(t, "area", errors[0].Place.Column)
}
