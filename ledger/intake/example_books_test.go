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
	got := map[string]int{"pieces": len(b.Pieces), "lots": len(b.Lots), "surfaces": len(b.Surfaces), "supplies": len(b.Supplies),
		"purchases": len(b.Purchases), "openings": len(b.Openings), "schedules": len(b.Schedules), "parts": len(b.Parts),
		"hours": len(b.Hours), "trips": len(b.Trips), "expenses": len(b.Expenses), "equipment": len(b.Equipment),
		"channels": len(b.Channels), "sales": len(b.Sales), "counts": len(b.Counts), "moves": len(b.Moves),
		"removals": len(b.Removals), "other income": len(b.OtherIncome), "tax paid": len(b.TaxPaid)}
	for _, row := range res.Tally {
		require.Equal(t, row.Rows, row.Used+row.Refused+row.Examples+row.NotRecord+row.NotTable)
		require.Equal(t, row.Rows, row.Used, row.File)
		if row.Table != "uses" {
			require.Equal(t, row.Used, got[row.Table], row.Table)
		}
	}
	t.Log(got, "uses", len(b.Uses), res.Fingerprint)
	for _, p := range res.Problems.Notes() {
		t.Log(p)
	}
}
