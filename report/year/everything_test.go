package year_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/report/testkit"
	"piecebook/report/text"
	"piecebook/report/year"
)

// The pages of the year with everything in it, as text that a person reads:
// every amount of its README is in them.
func TestYearPagesOfEverything(t *testing.T) {
	got := text.Render(year.Doc(testkit.YearInput(t, filepath.Join("..", "..", "ledger", "testdata", "year"), 2022)),
		text.Width)
	testkit.Golden(t, "year-of-everything.txt", got)
	assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, got)
	assert.Contains(t, got, "They are no tax advice")
	// How each source was seen is kept in the data; the pages say once to check.
	assert.NotRegexp(t, `(?i)from memory|edition not|our reading|secondary`, got)
	assert.Contains(t, strings.Join(strings.Fields(got), " "), "Check them against the printed form and the "+
		"current edition.")
}

// A year's notes are those of all its months: a piece finished in February
// without any use is named, though the last month's own notes name it no longer.
func TestYearHasTheNotesOfItsMonths(t *testing.T) {
	dir := ledgerkit.Folder(t, map[string][]byte{
		"records/pieces.csv": []byte("piece,kind,got_on,price,area,finished_on\n" +
			"P1,chest,2026-01-02,20,50,\nP2,chest,2026-01-02,20,50,2026-02-09\n"),
		"records/supplies.csv":  []byte("supply,group,container,coverage\nPrimer,primer,1 qt,100\n"),
		"records/purchases.csv": []byte("bought_on,supply,containers,cost\n2026-01-03,Primer,1,20\n"),
		"records/uses.csv":      []byte("used_on,pieces,supply,coats\n2026-03-10,P1,Primer,1\n"),
		"records/hours.csv":     []byte("worked_on,pieces,hours\n2026-02-05,P2,4\n"),
	})
	b := testkit.Opened(t, dir, calendar.MonthOf(2026, 3))
	named := func(notes []fault.Problem) bool {
		return slices.ContainsFunc(notes, func(n fault.Problem) bool { return n.Code == fault.CodePieceNoSupplies })
	}
	assert.False(t, named(b.Problems.Notes()))
	assert.True(t, named(testkit.YearInput(t, dir, 2026).Notes))
}
