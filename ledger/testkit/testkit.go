// Package testkit holds what the tests of several rooms of the ledger share:
// generated books read and costed, and that they tie out. Only tests import it.
package testkit

import (
	"flag"
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

var seeds = flag.Int("seeds", 60, "how many generated books the laws are tested on")

// Seeds is how many generated books the laws are tested on, as the flag says.
func Seeds() int { return *seeds }

// Read takes generated files through intake and the checks; generated books
// have no errors.
func Read(t testing.TB, files map[string][]byte) *ledger.Books {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, data := range files {
		fsys[name] = &fstest.MapFile{Data: data}
	}
	set, err := templates.Load()
	require.NoError(t, err)
	r := intake.Read(fsys, set)
	require.Empty(t, r.Problems.Errors())
	require.Empty(t, checks.Look(&r.Books, 0).Errors())
	return &r.Books
}

// Costed reads and costs books in words (bookgen.InWords) through a month, 2026-01.
func Costed(t testing.TB, words, through string) *costing.Ledger {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(bookgen.InWords(words), set)
	require.Empty(t, read.Problems.Errors())
	m, err := calendar.ParseMonth(through)
	require.NoError(t, err)
	l := costing.Run(&read.Books, m)
	require.Empty(t, l.Problems.Errors())
	return l
}

// EveryBook runs f over n generated books, each a subtest of its own, costed to the end.
func EveryBook(t *testing.T, n int, f func(t *testing.T, seed uint64, files map[string][]byte, l *costing.Ledger)) {
	for seed := uint64(1); seed <= uint64(n); seed++ {
		t.Run(fmt.Sprintf("seed=%d", seed), func(t *testing.T) {
			t.Parallel()
			files := bookgen.Files(seed)
			b := Read(t, files)
			l := costing.Run(b, checks.LastMonth(b)+2)
			require.Empty(t, l.Problems.Errors())
			f(t, seed, files, l)
		})
	}
}

// Tied asserts that every reconciliation of every month is 0.00.
func Tied(t testing.TB, l *costing.Ledger) {
	t.Helper()
	index := figures.NewIndex(l)
	for _, r := range l.Months {
		for _, tie := range index.For(r.Month, r.Month).TieOut {
			require.Zerof(t, tie.Difference, "%s in %s: %s against %s", tie.Name, r.Month, tie.Reached, tie.Against)
		}
	}
}
