package bigbooks_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit/bigbooks"
	"piecebook/templates"
)

// read reads files as a books folder.
func read(t *testing.T, files map[string][]byte) *intake.Result {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	folder := fstest.MapFS{}
	for name, data := range files {
		folder[name] = &fstest.MapFile{Data: data}
	}
	return intake.Read(folder, set)
}

// Goal: large books stand for a real shop's: every table is there, nothing in
// them is wrong, and they say the same as plain files and as a workbook.
func TestBooksHaveNoErrors(t *testing.T) {
	for _, size := range []bigbooks.Size{bigbooks.Year, {Pieces: 60, Years: 3}, {Pieces: 1, Years: 1}} {
		made := bigbooks.Make(7, size)
		plain := read(t, made.Folder())
		book := read(t, made.WorkbookFolder())
		used := 0
		for _, t := range plain.Tally {
			used += t.Used
		}
		assert.Equal(t, made.Lines(), used)
		for _, in := range []*intake.Result{plain, book} {
			found := in.Problems
			found.Join(checks.Look(&in.Books, bigbooks.LastMonth))
			found.Join(costing.Run(&in.Books, bigbooks.LastMonth).Problems)
			assert.Empty(t, found.Errors())
		}
		for _, table := range made.Tables {
			if size == bigbooks.Year {
				assert.Greater(t, len(table.Lines), 1, "%s has no lines", table.Name)
			}
		}
	}
}

// Goal: the sizes are those that are promised: about 2,350 lines a year, and
// ten times as many for ten times the pieces or the years, but for what any
// shop has once.
func TestLinesGrowWithPieces(t *testing.T) {
	year := bigbooks.Make(1, bigbooks.Year).Lines()
	assert.InDelta(t, 2_350, year, 150)
	assert.InDelta(t, 10, float64(bigbooks.Make(1, bigbooks.TenTimes).Lines())/float64(year), 1.2)
	assert.InDelta(t, 10, float64(bigbooks.Make(1, bigbooks.TenYears).Lines())/float64(year), 1.2)
}

func TestSameSeedSameBooks(t *testing.T) {
	assert.Equal(t, bigbooks.Make(3, bigbooks.Year).CSV(), bigbooks.Make(3, bigbooks.Year).CSV())
	assert.Equal(t, bigbooks.Make(3, bigbooks.Year).Workbook(), bigbooks.Make(3, bigbooks.Year).Workbook())
}
