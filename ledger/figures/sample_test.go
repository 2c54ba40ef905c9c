package figures_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit"
	"piecebook/templates"
)

// The sample shop's books: no error, a few notes, every month ties out, and
// the events a first reader should meet are in it.
func TestSampleBooks(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(os.DirFS(filepath.Join("..", "..", "sample")), set)
	b := &read.Books
	last := checks.LastMonth(b)
	require.Equal(t, "2026-02", last.String())
	l := costing.Run(b, last)
	problems := read.Problems
	problems.Join(checks.Look(b, last))
	problems.Join(l.Problems)
	assert.Empty(t, problems.Errors())
	assert.InDelta(t, 6, len(problems.Notes()), 3, "a few notes")
	testkit.Tied(t, l)
	assert.Len(t, l.Months, 14)

	assert.InDelta(t, 64, len(b.Pieces), 6)
	assert.InDelta(t, 27, len(b.Supplies), 4)
	kinds, seen := map[string]bool{}, map[string]bool{}
	for _, p := range b.Pieces {
		kinds[p.Kind] = true
		seen["came "+string(p.How)] = true
		if p.Set != "" {
			seen["set"] = true
		}
	}
	assert.GreaterOrEqual(t, len(kinds), 12)
	for _, s := range b.Sales {
		seen[string(s.Type)] = true
	}
	for _, r := range b.Removals {
		seen[r.Why] = true
	}
	for _, event := range []string{"set", "came free", "came traded", "came own", "came client",
		string(ledger.PartPayment), string(ledger.Return),
		string(ledger.Refund), ledger.Kept, ledger.Scrapped} {
		assert.True(t, seen[event], event)
	}
	for name, n := range map[string]int{"lots": len(b.Lots), "schedules": len(b.Schedules), "openings": len(b.Openings),
		"counts": len(b.Counts),
		"moves":  len(b.Moves), "channels": len(b.Channels), "trips": len(b.Trips), "expenses": len(b.Expenses)} {
		assert.Positive(t, n, name)
	}
}
