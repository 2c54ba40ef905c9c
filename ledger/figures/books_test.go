package figures_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/templates"
)

// folder is a books folder in words: a table's name, then its rows, as
//
//	pieces
//	piece,kind,got_on,price
//	A,chair,2026-03-01,10
//
// with a blank line between tables. A first table named settings is settings.toml.
func folder(words string) fstest.MapFS {
	out := fstest.MapFS{}
	for _, block := range strings.Split(strings.TrimSpace(words), "\n\n") {
		name, rows, _ := strings.Cut(strings.TrimSpace(block), "\n")
		path := "records/" + name + ".csv"
		if name == "settings" {
			path = "settings.toml"
		}
		out[path] = &fstest.MapFile{Data: []byte(rows + "\n")}
	}
	return out
}

// costed reads, checks and costs books written in words, through the same
// rooms as the program; an error in them fails the test.
func costed(t testing.TB, words string, through string) *costing.Ledger {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(folder(words), set)
	require.Empty(t, read.Problems.Errors())
	l := costing.Run(&read.Books, month(t, through))
	require.Empty(t, l.Problems.Errors())
	return l
}

func month(t testing.TB, text string) calendar.Month {
	t.Helper()
	m, err := calendar.ParseMonth(text)
	require.NoError(t, err)
	return m
}

// piece is one piece's figures at the end of a month.
func piece(t testing.TB, l *costing.Ledger, id, at string) figures.Piece {
	t.Helper()
	m := month(t, at)
	f := figures.For(l, l.Months[0].Month, m)
	for _, p := range f.Pieces {
		if p.Record.ID == id {
			return p
		}
	}
	require.Fail(t, "no such piece", id)
	return figures.Piece{}
}

// shelf is one supply's line in a month.
func shelf(t testing.TB, l *costing.Ledger, supply, at string) figures.ShelfLine {
	t.Helper()
	m := month(t, at)
	for _, s := range figures.For(l, m, m).Shelf {
		if s.Supply.Name == supply {
			return s
		}
	}
	require.Fail(t, "not on the shelf", supply)
	return figures.ShelfLine{}
}

// share is what a supply cost a piece in a month, as text; blank: nothing posted.
func share(p figures.Piece, supply, m string) string {
	for _, s := range p.Shares {
		if s.Supply == supply && s.Month.String() == m {
			return s.Cost.String()
		}
	}
	return ""
}

// tied asserts that every reconciliation of every month is 0.00.
func tied(t testing.TB, l *costing.Ledger) {
	t.Helper()
	for _, r := range l.Months {
		for _, tie := range figures.For(l, r.Month, r.Month).TieOut {
			require.Zerof(t, tie.Difference, "%s in %s: %s against %s", tie.Name, r.Month, tie.Reached, tie.Against)
		}
	}
}
