package testkit

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/opened"
	"piecebook/report"
	"piecebook/templates"
)

// Opened is a books folder without errors, costed up to a month; 0: its last.
func Opened(t testing.TB, dir string, month calendar.Month) *opened.Books {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	closed, err := closing.Read(os.DirFS(dir))
	require.NoError(t, err)
	b, err := opened.Reader{Set: set, Program: "a test"}.Open(os.DirFS(dir), month, closed)
	require.NoError(t, err)
	require.Empty(t, b.Problems.Errors())
	return b
}

// Input is what the reports of a month are composed from; 0: the last.
func Input(t testing.TB, dir string, month calendar.Month) report.Input {
	t.Helper()
	in, err := report.Of(Opened(t, dir, month))
	require.NoError(t, err)
	in.Photos = os.DirFS(dir)
	return in
}

// YearInput is what a year's documents are composed from, by the tables of the
// country whose money the books are in.
func YearInput(t testing.TB, dir string, year int) report.YearInput {
	t.Helper()
	b := Opened(t, dir, calendar.MonthOf(year, 12))
	tax, err := templates.TaxFor(b.Read.Books.Settings.Currency)
	require.NoError(t, err)
	tax, err = tax.Of(year)
	require.NoError(t, err)
	in, err := report.YearOf(b, tax)
	require.NoError(t, err)
	in.Photos = os.DirFS(dir)
	return in
}
