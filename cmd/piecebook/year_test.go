package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/bookgen"
	"piecebook/ledger/calendar"
	"piecebook/report"
	"piecebook/report/workbook/recalc"
)

// written writes a books folder for a test.
func written(t testing.TB, files map[string][]byte) string {
	t.Helper()
	dir := t.TempDir()
	for name, data := range files {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, data, 0o644))
	}
	return dir
}

// yearIn is what a year's documents are composed from.
func yearIn(t testing.TB, dir string, year int) report.YearInput {
	t.Helper()
	c := cli{Books: dir}
	b, err := c.open(calendar.MonthOf(year, 12))
	require.NoError(t, err)
	require.Empty(t, b.problems.Errors())
	y, err := c.yearOf(b)
	require.NoError(t, err)
	return y.in
}

// Goal: every formula of the year's workbook comes to the figure beside it,
// exactly, in the sample, the year with everything in it and generated books
// of several years under either treatment. Method: the formulas worked out
// again with fractions, from the sheets alone.
func TestYearBookWorksOut(t *testing.T) {
	check := func(t *testing.T, dir string, year int) {
		wrong, n := recalc.Check(report.YearBook(yearIn(t, dir, year)))
		assert.Greater(t, n, 100)
		if len(wrong) > 10 {
			wrong = append(wrong[:10], "and more")
		}
		assert.Empty(t, wrong, "%d in %s", year, dir)
	}
	check(t, filepath.Join("..", "..", "sample"), 2025)
	check(t, filepath.Join("..", "..", "sample"), 2026)
	for _, treatment := range []string{"with the piece", "when used"} {
		dir := written(t, bookgen.WithTreatment(bookgen.Years(1), treatment))
		check(t, dir, 2022)
		check(t, dir, 2023)
	}
	check(t, written(t, bookgen.Files(7)), 2026)
}
