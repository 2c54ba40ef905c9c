package taxyear_test

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/taxyear"
	"piecebook/templates"
)

// costed reads, checks and costs a books folder to a year's December, through
// the same rooms as the program; an error in the records fails the test.
func costed(t testing.TB, books fs.FS, through int) (*costing.Ledger, *templates.Set) {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(books, set)
	require.Empty(t, read.Problems.Errors())
	require.Empty(t, checks.Look(&read.Books, 0).Errors())
	l := costing.Run(&read.Books, calendar.MonthOf(through, 12))
	require.Empty(t, l.Problems.Errors())
	return l, set
}

// year works out one tax year and holds it to what every year must be.
func year(t testing.TB, books fs.FS, of int) *taxyear.Year {
	t.Helper()
	l, set := costed(t, books, of)
	return worked(t, l, set, of)
}

// worked works a year out of costed books.
func worked(t testing.TB, l *costing.Ledger, set *templates.Set, of int) *taxyear.Year {
	t.Helper()
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	y, err := taxyear.For(l, of, tax, set.RatesFor("USD").AtOnceCents)
	require.NoError(t, err)
	sound(t, y)
	return y
}

// sound holds a year to what is always true: every reconciliation 0.00, and
// every line the sum of its postings.
func sound(t testing.TB, y *taxyear.Year) {
	t.Helper()
	for _, tie := range y.Ties {
		require.Zerof(t, tie.Difference, "%d, %s: %s against %s", y.Year, tie.Name, tie.Reached, tie.Against)
	}
	for _, l := range y.Lines {
		sum := l.Cents
		for _, p := range l.Postings {
			sum -= p.Cents
			require.NotEmpty(t, p.Source, "%d, line %s: a posting without a record", y.Year, l.Line)
		}
		require.Zerof(t, sum, "%d, line %s is not its postings", y.Year, l.Line)
	}
}

// amounts is the lines' amounts, for those asked.
func amounts(y *taxyear.Year, lines ...string) map[string]string {
	out := map[string]string{}
	for _, l := range lines {
		out[l] = y.Amount(l).String()
	}
	return out
}
