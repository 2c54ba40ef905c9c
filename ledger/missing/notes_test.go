package missing_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/missing"
	"piecebook/ledger/testkit"
)

// noteCase is records that raise a code in a month; its name is the code, or the
// code, a colon and what is particular about it. Tables are separated by blank
// lines, the first line of each its name.
type noteCase struct{ name, month, tables string }

const primer = `
supplies
supply,group,container,coverage
Primer,primer,1 qt,100
`

// chests is six painted chests finished in January, and what they had.
func chests() string {
	var pieces, uses, hours strings.Builder
	for i := range 6 {
		fmt.Fprintf(&pieces, "C%d,chest,2026-01-02,20,25,2026-01-20\n", i+1)
		fmt.Fprintf(&uses, "2026-01-10,C%d,Primer,1\n2026-01-11,C%d,Paint,2\n", i+1, i+1)
		fmt.Fprintf(&hours, "2026-01-10,C%d,3\n", i+1)
	}
	return "pieces\npiece,kind,got_on,price,area,finished_on\n" + pieces.String() + "%s" +
		"\nsupplies\nsupply,group,container,coverage\nPrimer,primer,1 qt,100\nPaint,paint,1 qt,100\n" +
		"\npurchases\nbought_on,supply,containers,cost\n2026-01-03,Primer,4,80\n2026-01-03,Paint,6,180\n" +
		"\nuses\nused_on,pieces,supply,coats\n" + uses.String() + "%s" +
		"\nhours\nworked_on,pieces,hours\n" + hours.String() + "%s"
}

// bought, used, worked and counted are tables of such rows.
func bought(rows ...string) string {
	return tableOf("purchases\nbought_on,supply,containers,cost", rows)
}
func used(rows ...string) string    { return tableOf("uses\nused_on,pieces,supply,coats", rows) }
func worked(rows ...string) string  { return tableOf("hours\nworked_on,pieces,hours", rows) }
func counted(rows ...string) string { return tableOf("counts\ncounted_on,supply,left", rows) }

func tableOf(head string, rows []string) string {
	return "\n" + head + "\n" + strings.Join(rows, "\n") + "\n"
}

func noteCases() []noteCase {
	like := chests()
	piece := "pieces\npiece,kind,got_on,price,area\nP1,chest,2026-01-02,20,50\nP2,chest,2026-01-02,20,50\n" + primer
	return []noteCase{
		{"piece-without-supplies", "2026-02",
			fmt.Sprintf(like, "D1,chest,2026-01-03,20,50,2026-02-09\nD2,chest,2026-01-03,20,25,2026-02-10\n", "",
				"2026-02-05,D1; D2,4\n")},
		{"schedule-waits", "2026-01", `
pieces
piece,kind,got_on,price,area,schedule,hours,finished_on
P1,chest,2026-01-02,20,50,Painted,3,
P2,chest,2026-01-02,20,50,Painted,,
P3,chest,2026-01-02,20,50,Painted,2,2026-01-20
P4,chest,2026-01-02,20,50,Painted,2,2026-02-02

schedules
schedule,supply
Painted,Primer
` + primer},
		{"supplies-on-no-piece", "2026-01", `
pieces
piece,kind,got_on,price,sold_on,sold_price
P1,chest,2026-01-02,20,2026-01-20,90

purchases
bought_on,supply,containers,cost
2026-01-09,Primer,1,21
2026-01-03,Primer,4,80
2026-02-03,Primer,4,80
` + primer},
		{"piece-lacks-supply", "2026-02", fmt.Sprintf(like, "D1,chest,2026-01-03,20,50,2026-02-09\n", "2026-02-05,D1,Paint,2\n", "2026-02-05,D1,4\n")},
		{"gone-more-than-uses", "2026-02", piece + bought("2026-01-03,Primer,5,100") + used("2026-01-10,P1,Primer,2", "2026-02-10,P1,Primer,1") + worked("2026-02-11,P2,3") + counted("2026-01-31,Primer,4", "2026-02-28,Primer,2")},
		{"gone-less-than-uses", "2026-02", piece + bought("2026-01-03,Primer,5,100") + used("2026-01-10,P1,Primer,2", "2026-02-10,P1; P2,Primer,2") + counted("2026-01-31,Primer,4", "2026-02-28,Primer,3.5")},
		{"bought-with-plenty-left", "2026-03", piece + bought("2026-01-03,Primer,4,80", "2026-03-09,Primer,1,21") + used("2026-01-10,P1,Primer,2", "2026-02-10,P1,Primer,1") + worked("2026-02-11,P2,3") + counted("2026-01-31,Primer,3")},
		{"loss-unexplained", "2026-02", piece + `
purchases
bought_on,supply,containers,cost
2026-01-03,Primer,2,40

counts
counted_on,supply,left,discarded
2026-02-28,Primer,0.5,0.25
`},
		{"uses-before-count", "2026-01", piece + bought("2026-01-03,Primer,2,40") + used("2026-01-10,P1,Primer,1", "2026-02-01,P2,Primer,1") + counted("2026-02-03,Primer,1")},
		{"shelf-held-long", "2026-08", piece + bought("2026-01-03,Primer,4,80") + used("2026-01-10,P1,Primer,1", "2026-05-10,P2,Primer,1")},
	}
}

// TestMessages compares every message with the golden text: its place, its words
// and its money. Each case raises its own code and no other.
func TestMessages(t *testing.T) {
	var got strings.Builder
	cased := map[fault.Code]bool{}
	for _, c := range noteCases() {
		code, _, _ := strings.Cut(c.name, ":")
		cased[fault.Code(code)] = true
		l := testkit.Costed(t, c.tables, c.month)
		list := missing.Look(l, l.Months[len(l.Months)-1].Month)
		fmt.Fprintf(&got, "== %s\n", c.name)
		for _, p := range list.Notes() {
			fmt.Fprintf(&got, "[%s, note %d, %s] %s\n", p.Code, p.MoneyCents, p.Month, p)
			assert.Equal(t, fault.Code(code), p.Code, c.name)
		}
		assert.NotEmpty(t, list.Notes(), c.name)
	}
	for code, meaning := range fault.MissingCatalogue {
		assert.True(t, cased[code], "no case raises %s", code)
		assert.NotEmpty(t, meaning)
	}
	file := filepath.Join("testdata", "messages.golden")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got.String())
}

// TestCountThese: 50 sq ft of primer at a stated 100 a can of 20.00 is 10.00, and
// 150 of paint at 30.00 is 45.00; a count moves what stated coverages are usually
// off (23 %): 10.35 and 2.30. What is counted in the month has nothing to move.
func TestCountThese(t *testing.T) {
	tables := "pieces\npiece,kind,got_on,price,area\nP1,chest,2026-01-02,20,50\n" + `
supplies
supply,group,container,coverage
Primer,primer,1 qt,100
Paint,paint,1 qt,100
Wax,wax,1 qt,100

purchases
bought_on,supply,containers,cost
2026-01-03,Primer,1,20
2026-01-03,Paint,2,60
2026-01-03,Wax,2,60

uses
used_on,pieces,supply,coats
2026-01-10,P1,Primer,1
2026-01-10,P1,Paint,3
2026-01-10,P1,Wax,1
`
	got := missing.CountThese(testkit.Costed(t, tables+"\ncounts\ncounted_on,supply,left\n2026-01-31,Wax,1\n", "2026-01"))
	require.Len(t, got, 2)
	assert.Equal(t, "Paint", got[0].Supply.Name)
	assert.Equal(t, "10.35", got[0].AtStake.String())
	assert.Equal(t, "0.5", got[0].Left.FloatString(1))
	assert.Equal(t, "Primer", got[1].Supply.Name)
	assert.Equal(t, "2.30", got[1].AtStake.String())
}

// TestAllMonthsOfAPeriod: a look over several months has what each month's own
// look has, a piece finished and sold in two of them once, and the pieces without
// any use in one note.
func TestAllMonthsOfAPeriod(t *testing.T) {
	tables := fmt.Sprintf(chests(), "D1,chest,2026-01-03,20,50,2026-02-09\nE1,chest,2026-01-03,20,50,2026-02-10\n"+
		"E2,chest,2026-01-03,20,50,2026-03-10\n", "2026-02-05,D1,Paint,2\n", "2026-02-05,D1; E1; E2,6\n") +
		"\nsales\nsold_on,what,pieces,channel,price\n2026-03-20,sale,D1,direct,300\n"
	l := testkit.Costed(t, tables, "2026-04")
	codes := func(from string) map[fault.Code][]string {
		m, err := calendar.ParseMonth(from)
		require.NoError(t, err)
		out := map[fault.Code][]string{}
		list := missing.Look(l, m)
		for _, n := range list.All() {
			out[n.Code] = append(out[n.Code], n.Found)
		}
		return out
	}
	assert.Empty(t, codes("2026-04"))
	assert.Equal(t, map[fault.Code][]string{fault.CodePieceLacksSupply: {"D1"}, fault.CodePieceNoSupplies: {"E2"}},
		codes("2026-03"))
	assert.Equal(t, map[fault.Code][]string{fault.CodePieceLacksSupply: {"D1"}, fault.CodePieceNoSupplies: {"E1"}},
		codes("2026-01"))
	list := missing.Look(l, l.Months[0].Month)
	assert.Contains(t, fmt.Sprint(list.All()), "E1, E2 were finished or sold from January 2026 to April 2026")
}
