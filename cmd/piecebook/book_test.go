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

// generated writes a generated books folder.
func generated(t testing.TB, seed uint64) string {
	t.Helper()
	dir := t.TempDir()
	for name, data := range bookgen.Files(seed) {
		path := filepath.Join(dir, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, data, 0o644))
	}
	return dir
}

// inputOf is what the reports of a month are composed from.
func inputOf(t testing.TB, dir string, month calendar.Month) report.Input {
	t.Helper()
	c := cli{Books: dir}
	b, err := c.open(month)
	require.NoError(t, err)
	require.Empty(t, b.problems.Errors())
	in, err := b.input()
	require.NoError(t, err)
	return in
}

// Goal: every formula of the month's workbook comes to the figure beside it,
// exactly, in every month of the sample and in generated books. Method: the
// formulas worked out again with fractions, from the sheets alone; the figures
// beside them come from the ledger.
func TestMonthBookWorksOut(t *testing.T) {
	check := func(t *testing.T, dir string, month calendar.Month) {
		wrong, n := recalc.Check(report.MonthBook(inputOf(t, dir, month)))
		assert.Greater(t, n, 100)
		if len(wrong) > 10 {
			wrong = append(wrong[:10], "and more")
		}
		assert.Empty(t, wrong, "%s in %s", dir, month)
	}
	sample := filepath.Join("..", "..", "sample")
	for m := calendar.MonthOf(2025, 1); m <= calendar.MonthOf(2026, 2); m++ {
		check(t, sample, m)
	}
	for seed := uint64(1); seed <= 12; seed++ {
		check(t, generated(t, seed), 0)
	}
}
