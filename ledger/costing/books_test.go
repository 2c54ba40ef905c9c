package costing_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
)

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
