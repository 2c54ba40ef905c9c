package kinds_test

import (
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/kinds"
	"piecebook/ledger/offer"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	kindpages "piecebook/report/kinds"
	"piecebook/report/pdf"
	"piecebook/report/testkit"
	"piecebook/report/text"
)

// allKinds is all that is said of a folder's kinds and of an offer for each.
func allKinds(t *testing.T, dir string) string {
	b, in := testkit.Opened(t, dir, 0), testkit.Input(t, dir, 0)
	in.Fingerprint = "" // of the files, which may differ
	r := kinds.Of(b.Ledger, kinds.Scope{})
	doc := kindpages.Doc(in, r)
	require.NoError(t, pdf.Write(io.Discard, doc))
	words := text.Render(doc, text.Width)
	js, err := kindpages.JSON(r, "USD")
	require.NoError(t, err)
	words += string(js) + "\n"
	for _, k := range append(r.Kinds, kinds.Kind{Name: "never seen"}) {
		o := offer.Make(b.Ledger, offer.Ask{Kind: k.Name})
		words += text.Render(kindpages.OfferDoc(in, o), text.Width)
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
