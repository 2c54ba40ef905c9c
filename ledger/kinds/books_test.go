package kinds_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

// costed reads and costs books in words: a table's name, then its rows, blank
// lines between tables.
func costed(t testing.TB, words, through string) *costing.Ledger {
	t.Helper()
	files := bookgen.InWords(words)
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(files, set)
	require.Empty(t, read.Problems.Errors())
	m, err := calendar.ParseMonth(through)
	require.NoError(t, err)
	l := costing.Run(&read.Books, m)
	require.Empty(t, l.Problems.Errors())
	return l
}

// of is one kind of a report.
func of(t testing.TB, r kinds.Report, name string) kinds.Kind {
	t.Helper()
	for _, k := range r.Kinds {
		if k.Name == name {
			return k
		}
	}
	require.Fail(t, "no such kind", name)
	return kinds.Kind{}
}

// text is an amount as words, blank where there is none.
func text(c *money.Cents) string {
	if c == nil {
		return ""
	}
	return c.String()
}
