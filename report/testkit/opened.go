package testkit

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

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

// Closed is the sample's last month after all earlier ones were closed and a
// purchase of one was changed, so that it carries a correction.
func Closed(t testing.TB) report.Input {
	t.Helper()
	dir := filepath.Join(top(t), "sample")
	was := Opened(t, dir, 0)
	var closed []*closing.Month
	for lines := closing.LinesOf(was.Records.Books); len(closed) < len(was.Records.Months)-1; {
		view, carried := closing.View(was.Records, closed, "a test")
		closed = append(closed, closing.Seal(view, carried, closed, "a test", []byte("{}"), lines, nil))
	}
	folder := fstest.MapFS{}
	for _, pattern := range []string{"settings.toml", "records/*"} {
		names, err := fs.Glob(os.DirFS(dir), pattern)
		require.NoError(t, err)
		for _, name := range names {
			data, err := os.ReadFile(filepath.Join(dir, name))
			require.NoError(t, err)
			folder[name] = &fstest.MapFile{Data: bytes.Replace(data, []byte("Wood filler,1,,11.49"),
				[]byte("Wood filler,1,,15.49"), 1)}
		}
	}
	set, err := templates.Load()
	require.NoError(t, err)
	b, err := opened.Reader{Set: set, Program: "a test"}.Open(folder, 0, closed)
	require.NoError(t, err)
	in, err := report.Of(b)
	require.NoError(t, err)
	require.NotEmpty(t, in.Corrections)
	in.Photos = os.DirFS(dir)
	return in
}
