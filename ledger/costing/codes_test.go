package costing_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

var update = flag.Bool("update", false, "write the golden messages again; read them before keeping them")

const oneChair = `
pieces
piece,kind,got_on,price,area
A,chair,2026-01-05,10,20
B,chair,2026-01-05,10,20

`

// aCan is a can of primer that does 100 sq ft by its label.
const aCan = `supplies
supply,group,container,coverage
Primer,primer,1 qt,100

purchases
bought_on,supply,containers,cost
2026-01-06,Primer,1,15

`

// costingCases are small books, one for each code that only costing raises.
var costingCases = []struct {
	code  fault.Code
	month string
	books string
}{
	{fault.TakenBackMore, "2026-02", oneChair + `supplies
supply,group,container,coverage
Primer,primer,1 qt,20

purchases
bought_on,supply,containers,cost
2026-01-06,Primer,2,30
2026-02-10,Primer,-2,-30

uses
used_on,pieces,supply
2026-01-10,A,Primer
`},
	{fault.TakenBackMore, "2026-02", oneChair + `supplies
supply,group,container,coverage
Primer,primer,1 qt,20

purchases
bought_on,supply,containers,cost
2026-02-10,Primer,-1,-15
`},
	{fault.UsedMore, "2026-01", oneChair + `supplies
supply,group,container,coverage
Primer,primer,1 qt,20

purchases
bought_on,supply,containers,cost
2026-01-06,Primer,1,15

uses
used_on,pieces,supply,coats
2026-01-10,A; B,Primer,2
`},
	{fault.NoCoverage, "2026-01", oneChair + `supplies
supply,group,container
Gilding,other,1 each

purchases
bought_on,supply,containers,cost
2026-01-06,Gilding,1,15

uses
used_on,pieces,supply
2026-01-10,A,Gilding
`},
	{fault.CountAbove, "2026-01", oneChair + `supplies
supply,group,container
Wax,wax,1 lb

purchases
bought_on,supply,containers,cost
2026-01-06,Wax,1,15

counts
counted_on,supply,left
2026-01-31,Wax,1.5
`},
	{fault.UsedMore, "2026-01", oneChair + `supplies
supply,group,container
Paper,abrasive,25 sheets
Paint,paint,1 gal

purchases
bought_on,supply,containers,cost
2026-01-06,Paper,1,15
2026-01-06,Paint,1,40

uses
used_on,pieces,supply,amount
2026-01-10,A,Paper,3
2026-01-11,A,Paper,30 sheets
2026-01-10,A,Paint,8
`},
	{fault.CountAbove, "2026-01", oneChair + `supplies
supply,group,container
Paper,abrasive,25 sheets
Rag,other,1 each

purchases
bought_on,supply,containers,cost
2026-01-06,Paper,1,15
2026-01-06,Rag,1,2

counts
counted_on,supply,left
2026-01-31,Paper,18
2026-01-31,Rag,3
`},
	{fault.LateCost, "2026-02", oneChair + aCan + `uses
used_on,pieces,supply
2026-01-10,A,Primer

sales
sold_on,pieces,channel,price
2026-01-20,A,direct,90

counts
counted_on,supply,left
2026-02-27,Primer,0.5
`},
	{fault.MovedAboveCost, "2026-01", oneChair + `moves
moved_on,from_piece,to_piece,what,value
2026-01-09,A,B,brass pulls,10.01
`},
	{fault.NoMileageRate, "2014-05", `pieces
piece,kind,got_on,price
A,chair,2014-05-01,10

trips
on,miles,purpose,pieces
2014-05-02,10,pick up,A
`},
}

// TestCostingMessages holds every message that only costing gives to its
// golden words and place, and every code to a case.
func TestCostingMessages(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	var b strings.Builder
	raised := map[fault.Code]bool{}
	for _, c := range costingCases {
		read := intake.Read(bookgen.InWords(c.books), set)
		require.Empty(t, read.Problems.Errors(), c.code)
		l := costing.Run(&read.Books, month(t, c.month))
		for _, p := range l.Problems.All() {
			kind := "error"
			if p.Note {
				kind = fmt.Sprintf("note, %d cents", p.MoneyCents)
			}
			raised[p.Code] = raised[p.Code] || p.Code == c.code
			fmt.Fprintf(&b, "[%s, %s] %s\n", p.Code, kind, p)
		}
	}
	for code := range fault.CostingCatalogue {
		assert.True(t, raised[code], "no case raises %s", code)
	}
	golden := filepath.Join("testdata", "messages.golden")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}
