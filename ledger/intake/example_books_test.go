package intake_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/intake"
	"piecebook/templates"
)

// The example books must be read without an error, every row used.
func TestExampleBooksReadWhole(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	res := intake.Read(os.DirFS("../testdata/example"), set)
	for _, p := range res.Problems.Errors() {
		t.Error(p)
	}
	b := res.Books
	got := map[string]int{}
	for r := range b.Records() {
		got[r.Table]++
	}
	for _, row := range res.Tally {
		require.Equal(t, row.Rows, row.Used+row.Refused+row.Examples+row.NotRecord+row.NotTable)
		require.Equal(t, row.Rows, row.Used, row.File)
		if row.Table != "uses" {
			require.Equal(t, row.Used, got[row.Table], row.Table)
		}
	}
	t.Log(got, res.Fingerprint)
	for _, p := range res.Problems.Notes() {
		t.Log(p)
	}
}
