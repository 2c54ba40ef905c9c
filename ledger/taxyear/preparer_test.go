package taxyear_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/testkit/bookgen"
)

// The preparer's questions on two pieces of 40.00 and 100.00, of which one is
// donated: one got in the same year is out of line 36 as it was put in there;
// one of an earlier year was in line 35 and is taken out of line 36.
func TestDonatedPieceIsOutOfLine36(t *testing.T) {
	const donated = remarkPieces + remarkRemovals + "%s,B,donated,,60,R1\n"
	same := year(t, bookgen.InWords(strings.ReplaceAll(donated, "%s", "2026-03-01")), 2026)
	assert.Equal(t, "100.00", same.Amount("36").String(), "140.00 acquired less 40.00 donated")
	assert.Equal(t, "100.00", same.Amount("41").String())
	assert.Equal(t, "0.00", same.Amount("42").String(), "its cost is no cost of sales")
	assert.Contains(t, strings.Join(remarked(same), "\n"), "Line 36: 40.00 of pieces donated in the year "+
		"they were got is "+
		"taken out of line 36: their whole book cost, with what of it came in on lines 38 and 39. How a donated piece "+
		"leaves depends on the year it was bought")

	later := year(t, bookgen.InWords(strings.ReplaceAll(donated, "%s", "2027-03-01")), 2027)
	assert.Equal(t, "140.00", later.Amount("35").String())
	assert.Equal(t, "-40.00", later.Amount("36").String())
	assert.Equal(t, "0.00", later.Amount("42").String())
	words := strings.Join(remarked(later), "\n")
	assert.Contains(t, words, "40.00 of pieces donated that were got in an earlier year is taken out of line 36")
	assert.NotContains(t, words, "is this cost to stay out?")

	late := year(t, bookgen.InWords(strings.ReplaceAll(donated, "%s", "2026-03-01")+remarkParts+
		"2027-01-09,B,knob,5,part,\n"), 2027)
	assert.Equal(t, "-5.00", late.Amount("36").String())
	assert.Equal(t, "0.00", late.Amount("42").String())
	words = strings.Join(remarked(late), "\n")
	assert.Contains(t, words, "5.00 of costs that came this year for pieces donated in an earlier year is taken out")
	assert.NotContains(t, words, "got in an earlier year")
}

// Lines 13 and 31 stand both ways. 3,000.00 over 7 years is 14.29 % in its
// first year, 428.70 (IRS Pub. 946, Table A-1); by default the whole cost from
// 2025-01-20 on, and 40 % before, which leaves 1,800.00 at 14.29 %, 257.22.
func TestLinesWithTheDefaultAllowance(t *testing.T) {
	for on, want := range map[string][]string{
		"2025-02-01": {"428.70", "−428.70", "3,000.00", "−3,000.00"},
		"2025-01-10": {"428.70", "−428.70", "1,457.22", "−1,457.22"},
	} {
		y := year(t, bookgen.InWords(equipment(on+",lathe,3000,,7,,\n")), 2025)
		assert.Equal(t, want[0], y.Amount("13").Grouped())
		assert.Contains(t, strings.Join(remarked(y), "\n"), "These figures use line 13 without that allowance: line 13 is "+
			want[0]+" and line 31 is "+want[1]+". With it, by the default: line 13 "+want[2]+" and line 31 "+want[3]+".")
	}
	y := year(t, bookgen.InWords(equipment("2025-02-01,lathe,3000,,first year,,\n")), 2025)
	assert.NotContains(t, strings.Join(remarked(y), "\n"), "by the default")
}

// A year whose records stop in February asks for no count of the year's end,
// and does not call February that.
func TestYearSoFar(t *testing.T) {
	const books = `
pieces
piece,kind,how,got_on,price,area
A,dresser,bought,2026-01-05,100,20

supplies
supply,group,container,coverage
Stripper,stripper,1 qt,20

purchases
bought_on,supply,containers,cost
2026-01-02,Stripper,1,20
`
	february := year(t, bookgen.InWords(books+"2026-02-02,Stripper,1,20\n"), 2026)
	assert.False(t, february.Whole())
	assert.Equal(t, "the end of February 2026", february.End())
	assert.Equal(t, "Pieces in stock and the shelf at the end of February 2026", february.Line("41").Label)
	assert.NotContains(t, strings.Join(remarked(february), "\n"), "year's end")
	december := year(t, bookgen.InWords(books+"2026-12-02,Stripper,1,20\n"), 2026)
	assert.True(t, december.Whole())
	assert.Equal(t, "Pieces in stock and the shelf at the year's end", december.Line("41").Label)
	assert.Contains(t, strings.Join(remarked(december), "\n"), "The shelf was not counted at the year's end for 1 supply")
	assert.Contains(t, december.Line("48").Label, "within the limit per item of 2,500.00")
}

// How the home was used is asked where utilities stand and [home] does not.
func TestUseOfTheHomeIsAsked(t *testing.T) {
	power := remarkExpenses + "2026-03-01,shop share,utilities,24,,\n"
	asked := "Line 25 has 24.00 of utilities. If part of it is the home's: was the space used regularly and for " +
		"nothing but the business, and in which months of the year?"
	assert.Contains(t, remarked(year(t, bookgen.InWords(power), 2026)), asked)
	for _, other := range []string{"\nsettings\n[home]\nshop_area = 240\n" + power,
		remarkExpenses + "2026-03-01,ink,office,24,,\n"} {
		assert.NotContains(t, remarked(year(t, bookgen.InWords(other), 2026)), asked)
	}
}
