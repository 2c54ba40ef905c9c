package kinds_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
)

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
