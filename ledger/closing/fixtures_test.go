package closing_test

import (
	"bytes"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Goal: what a version wrote, every later one reads. The files of
// testdata/closed-1 were written by the first version that closed months; they
// are never rewritten. A changed form gets a schema and a folder of its own.
func TestClosedFilesOfTheFirstVersion(t *testing.T) {
	books := os.DirFS("testdata/closed-1")
	closed, err := closing.Read(books)
	require.NoError(t, err)
	require.Len(t, closed, 2)
	march := closed[1]
	require.Equal(t, "2026-03", march.Month.String())
	require.Equal(t, money.Cents(3152), march.Closing.Pieces.Of("B").Book)
	require.Equal(t, "1", march.Closing.Shelf["Primer"].Left().RatString())
	require.NotNil(t, closed[0].Before)
	require.NotNil(t, march.Corrections)
	require.Len(t, march.Corrections.Changes, 1)
	require.Equal(t, closing.Changed, march.Corrections.Changes[0].What)
	require.Equal(t, []string{"cost"}, march.Corrections.Changes[0].Columns)
	require.Len(t, march.Corrections.Postings, 1)
	require.Equal(t, money.Cents(200), march.Corrections.Postings[0].Cents)
	require.Equal(t, ledger.Shelf, march.Corrections.Postings[0].To)

	folder, err := closing.Copy(books, march)
	require.NoError(t, err)
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(folder, set)
	require.Empty(t, read.Problems.Errors())
	d := closing.Compare(march.Records, closing.LinesOf(&read.Books), march.Month)
	require.Empty(t, d.Changes, "the copy says what was closed")
	require.Zero(t, d.Rows)

	data, err := os.ReadFile("testdata/closed-1/made-from.json")
	require.NoError(t, err)
	readMade := func(data []byte) (*closing.Made, error) {
		return closing.ReadMade(bytes.NewReader(data), func() ([]byte, error) { return data, nil })
	}
	made, err := readMade(data)
	require.NoError(t, err)
	require.Equal(t, calendar.MonthOf(2026, 4), made.Month)
	records, err := made.Records()
	require.NoError(t, err)
	require.NotEmpty(t, slices.Collect(records))

	_, err = readMade(data[:bytes.Index(data, []byte(`"records"`))])
	require.ErrorIs(t, err, closing.ErrAltered, "it ends before the records")
	made, err = readMade(data[:len(data)-200])
	require.NoError(t, err, "what stands before the records is whole")
	_, err = made.Records()
	require.ErrorIs(t, err, closing.ErrAltered, "it ends within the records")
}
