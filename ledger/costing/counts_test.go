package costing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
)

// What a count says is left is brought to its month's end: what is dated the
// count's own day is in it, what came after is added, and a count of the 1st
// to 5th, which closes the month before, loses what came since that month's
// end. (The contract's rule; every case worked by hand on one container of one
// each at 1.00 a unit.)
func TestCountsAreBroughtToTheMonthsEnd(t *testing.T) {
	for _, c := range []struct {
		name, purchases, counts string
		left                    string // at the end of March
		used                    string // in March
	}{
		{"bought on the count's own day", "2026-03-20,Unit,5,5", "2026-03-20,Unit,4,", "4", "11.00"},
		{"bought the day after", "2026-03-21,Unit,5,5", "2026-03-20,Unit,4,", "9", "6.00"},
		{"taken back after", "2026-03-22,Unit,-2,-2", "2026-03-20,Unit,4,", "2", "6.00"},
		{"counted on 2 April, bought on 1 April", "2026-04-01,Unit,5,5", "2026-04-02,Unit,9,", "4", "6.00"},
		{"counted on 2 April, bought that day", "2026-04-02,Unit,5,5", "2026-04-02,Unit,9,", "4", "6.00"},
		{"counted on 2 April, bought on 3 April", "2026-04-03,Unit,5,5", "2026-04-02,Unit,4,", "4", "6.00"},
		{"not below nothing", "2026-04-01,Unit,5,5", "2026-04-02,Unit,3,", "0", "10.00"},
		{"the last of several, the sum of discarded", "2026-03-02,Unit,1,1", "2026-03-10,Unit,9,1\n2026-03-28,Unit,4,2", "4", "4.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := testkit.Costed(t, `
pieces
piece,kind,got_on,how,area
A,stand,2026-03-01,free,10

supplies
supply,group,container
Unit,other,1 each

purchases
bought_on,supply,containers,cost
2026-03-01,Unit,10,10
`+c.purchases+`

uses
used_on,pieces,supply
2026-03-15,A,Unit

counts
counted_on,supply,left,discarded
`+c.counts, "2026-03")
			march := shelf(t, l, "Unit", "2026-03")
			assert.Equal(t, c.left, money.AtMost(march.Left, 4))
			assert.Equal(t, c.used, march.Used.String())
			testkit.Tied(t, l)
		})
	}
}

// What a count moves on pieces sold before is one note, whose money is what it
// moves up and down; 'left' is said only of one that has not come back. 30 sq ft
// took half a can of 15.00 and not the 0.3 charged: 0.2 × 15.00 more, 1.00 a piece.
func TestLateCostsAreToldOnceAndOfPiecesThatHaveLeft(t *testing.T) {
	for _, c := range []struct{ name, returned, want string }{
		{"all have left", "", "(Primer) moves 3.00 on A, B, C, which have left; this goes where they went."},
		{"one is back", "2026-02-03,B,direct,return,90", "(Primer) moves 2.00 on A, C, which have left; this goes where they went."},
	} {
		l := testkit.Costed(t, `
pieces
piece,kind,got_on,how,area
A,stand,2026-01-02,free,10
B,stand,2026-01-02,free,10
C,stand,2026-01-02,free,10

`+aCan+`uses
used_on,pieces,supply
2026-01-10,A; B; C,Primer

sales
sold_on,pieces,channel,type,price
2026-01-20,A,direct,sale,90
2026-01-20,B,direct,sale,90
2026-01-20,C,direct,sale,90
`+c.returned+`

counts
counted_on,supply,left
2026-02-27,Primer,0.5
`, "2026-02")
		var reported []fault.Problem
		for _, n := range l.Problems.Notes() {
			if n.Code == fault.LateCost {
				reported = append(reported, n)
			}
		}
		if assert.Len(t, reported, 1, c.name) {
			assert.Contains(t, reported[0].Why, c.want, c.name)
			assert.True(t, reported[0].AsksNothing)
		}
	}
}
