package taxyear_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/testkit/bookgen"
)

// Books for the remarks on single records, in words.
const (
	remarkEarlierPieces = `
pieces
piece,kind,how,got_on,price,area
A,dresser,bought,2025-11-05,100,20
B,chair,bought,2025-11-05,40,10
`
	remarkOwn = `
pieces
piece,kind,how,got_on,price,pickup
`
	remarkWhenUsed = `
settings
tax_supplies = "when used"
`
	remarkUse = `
supplies
supply,group,container,coverage
Stripper,stripper,1 qt,20
Paint,paint,1 qt,20

purchases
bought_on,supply,containers,cost
2026-01-02,Stripper,1,20
2026-01-02,Paint,1,20

uses
used_on,pieces,supply
`
	remarkOpening = `
supplies
supply,group,container,coverage
Stripper,stripper,1 qt,20

openings
on,supply,amount,cost,deducted
`
)

// Goal: a remark on a single record, and one on the books' money, stands where
// there is such a record, and nowhere else. Method: of each, two books of a year
// that call for it and two that do not.
func TestRemarksOnRecords(t *testing.T) {
	pieces, use := remarkPieces, remarkUse
	earlier, removals := remarkEarlierPieces, remarkRemovals
	checkRemarks(t, 2026, []remarkCase{
		{words: "There are no tax lines here for books in",
			must:    [2]string{"\nsettings\ncurrency = \"EUR\"\n" + pieces, "\nsettings\ncurrency = \"CAD\"\n" + pieces},
			mustNot: [2]string{"\nsettings\ncurrency = \"USD\"\n" + pieces, pieces}},
		{words: "was the household's own and came in at",
			must: [2]string{remarkOwn + "A,dresser,own,2026-01-05,60,\n", remarkOwn + "A,dresser,own,2026-01-05,,5\n"},
			// Without a cost, and of the year before.
			mustNot: [2]string{remarkOwn + "A,dresser,own,2026-01-05,,\nB,chair,bought,2026-01-05,40,\n",
				remarkOwn + "A,dresser,own,2025-12-31,60,\n"}},
		{words: "of supplies that do not stay on it were counted when used and are not taken back",
			must: [2]string{remarkWhenUsed + pieces + use + "2026-02-01,A,Stripper\n" + removals + "2026-03-01,A,kept,,120,\n",
				remarkWhenUsed + pieces + use + "2026-02-01,B,Stripper\n" + removals + "2026-03-01,B,donated,,60,R1\n"},
			// Paint stays on the piece; the other treatment has the stripper on it too.
			mustNot: [2]string{remarkWhenUsed + pieces + use + "2026-02-01,A,Paint\n" + removals + "2026-03-01,A,kept,,120,\n",
				pieces + use + "2026-02-01,A,Stripper\n" + removals + "2026-03-01,A,kept,,120,\n"}},
		{words: "after the books began",
			must: [2]string{earlier + remarkOpening + "2026-01-10,Stripper,1 qt,20,no\n",
				earlier + remarkOpening + "2026-06-30,Stripper,1 qt,0.01,no\n"},
			// Of the year before, and in books that began in the same year.
			mustNot: [2]string{earlier + remarkOpening + "2025-12-10,Stripper,1 qt,20,no\n",
				pieces + remarkOpening + "2026-03-10,Stripper,1 qt,20,no\n"}},
		{words: "of pieces donated that were got in an earlier year is taken out of line 36",
			must: [2]string{earlier + removals + "2026-03-01,A,donated,,120,R1\n",
				earlier + removals + "2026-12-31,B,donated,,60,\n"},
			mustNot: [2]string{earlier + removals + "2026-03-01,A,kept,,120,\n",
				pieces + removals + "2026-03-01,A,donated,,120,R1\n"}},
		{words: "of costs that came this year for pieces donated in an earlier year",
			must: [2]string{earlier + removals + "2025-12-01,A,donated,,120,R1\n" + remarkParts + "2026-01-09,A,knob,5,part,\n",
				earlier + removals + "2025-12-31,B,donated,,60,R1\n" + remarkParts + "2026-01-09,B,seat,30,outside work,W\n"},
			// Costs of the same year, and none.
			mustNot: [2]string{earlier + removals + "2026-02-01,A,donated,,120,R1\n" + remarkParts +
				"2026-03-09,A,knob,5,part,\n",
				earlier + removals + "2025-12-01,A,donated,,120,R1\n"}},
		{words: "These figures use line 13 without that allowance",
			must:    [2]string{equipment("2026-03-01,lathe,3000,,7,,\n"), equipment("2026-03-01,saw,100,,5,,\n")},
			mustNot: [2]string{equipment("2026-03-01,lathe,3000,,first year,,\n"), equipment("2025-03-01,saw,100,,5,,\n")}},
		{words: "use of the home, is not in these lines",
			must: [2]string{"\nsettings\n[home]\nshop_area = 240\n" + pieces,
				"\nsettings\n[home]\nshop_area = 100\nseparate = true\n" + pieces},
			mustNot: [2]string{pieces, "\nsettings\ncurrency = \"USD\"\n" + pieces}},
	})
}

// The allowance was 40 % for what was acquired from 1 to 19 January 2025, and is
// the whole cost from 20 January on (Pub. L. 119-21 sec. 70301).
func TestRemarkOnAnAllowanceThatIsNotTheWhole(t *testing.T) {
	checkRemarks(t, 2025, []remarkCase{{words: "By law the allowance for that day is 40 % of the cost " +
		"(IRC 168(k), as changed by Pub. L. 119-21 sec. 70301 (2025)): compare it.",
		must: [2]string{equipment("2025-01-01,lathe,3000,,first year,,\n"),
			equipment("2025-01-19,lathe,100,,first year,,\n")},
		mustNot: [2]string{equipment("2025-01-20,lathe,3000,,first year,,\n"),
			equipment("2025-01-10,lathe,3000,,7,,\n")}}})
	checkRemarks(t, 2024, []remarkCase{{words: "No allowance for that day is in these tables: compare it.",
		must: [2]string{equipment("2024-01-01,lathe,3000,,first year,,\n"), equipment("2024-12-31,saw,100,,first year,,\n")},
		mustNot: [2]string{equipment("2023-12-31,lathe,3000,,first year,,\n"),
			equipment("2024-01-10,lathe,3000,,at once,,\n")}}})
}

// A year whose form was not seen, or of which sources disagree, asks to compare
// its line numbers; the one that was seen does not.
func TestRemarkOnTheYearsForm(t *testing.T) {
	for _, books := range []string{strings.ReplaceAll(remarkEarlierPieces, "2025-", "2021-"),
		remarkOwn + "A,dresser,own,2021-01-05,60,\n"} {
		for of, asks := range map[int]bool{2022: true, 2023: true, 2024: true, 2025: false, 2026: true, 2027: true} {
			words := strings.Join(remarked(year(t, bookgen.InWords(books), of)), "\n")
			assert.Equal(t, asks, strings.Contains(words, "with the printed form"), "%d", of)
		}
	}
}
