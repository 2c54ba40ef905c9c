package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/kinds"
	"piecebook/ledger/offer"
	"piecebook/report"
	"piecebook/report/text"
	"piecebook/report/workbook"
	"piecebook/report/workbook/recalc"
)

// Goal: the kinds' sheets add up by their own formulas to what the kinds are
// told by. Method: worked out again from the sheets alone, over the sample and
// generated books.
func TestKindsSheetsWorkOut(t *testing.T) {
	formulas := 0
	for _, dir := range []string{filepath.Join("..", "..", "sample"), generated(t, 3), generated(t, 5), generated(t, 8)} {
		c := cli{Books: dir}
		b, err := c.open(0)
		require.NoError(t, err)
		in, err := b.input()
		require.NoError(t, err)
		book := &workbook.Book{}
		sheets := report.KindsSheets(in, kinds.Of(b.ledger, kinds.Scope{}))
		var added []*workbook.Sheet
		for _, s := range sheets {
			added = append(added, book.Add(s.Name, s.Title, s.Columns...))
		}
		for i, s := range sheets {
			s.Fill(book, added[i])
		}
		wrong, n := recalc.Check(book)
		assert.Empty(t, wrong, dir)
		formulas += n
	}
	assert.Greater(t, formulas, 100)
}

// Goal: no generated books, however odd, stop the kinds or an offer, or make
// them say what is no number; and the same books say the same.
func TestKindsOfGeneratedBooks(t *testing.T) {
	for seed := uint64(1); seed <= 25; seed++ {
		c := cli{Books: generated(t, seed)}
		b, err := c.open(0)
		require.NoError(t, err)
		in, err := b.input()
		require.NoError(t, err)
		r := kinds.Of(b.ledger, kinds.Scope{})
		words := text.Render(report.KindsDoc(in, r))
		assert.Equal(t, words, text.Render(report.KindsDoc(in, kinds.Of(b.ledger, kinds.Scope{}))))
		for _, k := range append(r.Kinds, kinds.Kind{Name: "never seen"}) {
			o := offer.Make(b.ledger, offer.Ask{Kind: k.Name})
			words += text.Render(report.OfferDoc(in, o))
			_, err := report.OfferJSON(o)
			require.NoError(t, err)
		}
		assert.NotRegexp(t, `NaN|Inf|%!`, words, "seed %d", seed)
		assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, words)
	}
}
