package commands

import (
	"io"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/kinds"
	"piecebook/ledger/offer"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report/accountant"
	kindpages "piecebook/report/kinds"
	"piecebook/report/pdf"
	"piecebook/report/testkit/recalc"
	"piecebook/report/text"
	"piecebook/report/workbook"
)

// Goal: the kinds' sheets add up by their own formulas to what the kinds are
// told by. Method: worked out again from the sheets alone, over the sample and
// generated books.
func TestKindsSheetsWorkOut(t *testing.T) {
	formulas := 0
	for _, dir := range []string{filepath.Join("..", "..", "..", "sample"), ledgerkit.Folder(t, bookgen.Files(3)),
		ledgerkit.Folder(t, bookgen.Files(5)), ledgerkit.Folder(t, bookgen.Files(8))} {
		c := cli{Books: dir}
		b, err := c.open(0)
		require.NoError(t, err)
		in, err := b.input()
		require.NoError(t, err)
		book := &workbook.Book{}
		sheets := accountant.KindsSheets(in, kinds.Of(b.ledger, kinds.Scope{}))
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

// allKinds is all that is said of a folder's kinds and of an offer for each.
func allKinds(t *testing.T, dir string) string {
	c := cli{Books: dir}
	b, err := c.open(0)
	require.NoError(t, err)
	in, err := b.input()
	require.NoError(t, err)
	in.Fingerprint = "" // of the files, which may differ
	r := kinds.Of(b.ledger, kinds.Scope{})
	doc := kindpages.Doc(in, r)
	require.NoError(t, pdf.Write(io.Discard, doc))
	words := text.Render(doc)
	js, err := kindpages.JSON(r, "USD")
	require.NoError(t, err)
	words += string(js) + "\n"
	for _, k := range append(r.Kinds, kinds.Kind{Name: "never seen"}) {
		o := offer.Make(b.ledger, offer.Ask{Kind: k.Name})
		words += text.Render(kindpages.OfferDoc(in, o))
		js, err := kindpages.OfferJSON(o)
		require.NoError(t, err)
		words += string(js) + "\n"
	}
	return words
}

// Goal: no generated books, however odd, stop the kinds or an offer, or make
// them say what is no number; a terminal of 80 columns holds them; and neither
// the order nor the shape of the files changes a word.
func TestKindsOfGeneratedBooks(t *testing.T) {
	for seed := uint64(1); seed <= 20; seed++ {
		words := allKinds(t, ledgerkit.Folder(t, bookgen.Files(seed)))
		assert.NotRegexp(t, `NaN|Inf|%!`, words, "seed %d", seed)
		assert.NotRegexp(t, `(?i)\b(safe|compliant)\b`, words)
		for _, line := range strings.Split(words, "\n") {
			if !strings.HasPrefix(line, "  ") && !strings.HasPrefix(line, "records/") {
				assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
			}
		}
		if seed <= 6 {
			dir := ledgerkit.Folder(t, bookgen.Reshape(bookgen.Files(seed), seed))
			assert.Equal(t, words, allKinds(t, dir), "seed %d reshaped", seed)
		}
	}
}
