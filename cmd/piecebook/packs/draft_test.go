package packs

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/cli"
	"piecebook/report/figuresjson"
)

// Goal: leaving lines out changes nothing but what rests on them. Method: the
// figures of a draft equal those of the same books without the lines, taken
// out by hand: one wrong in itself, one that refers to it, one sold twice, and
// one that takes more back than there is.
func TestDraftEqualsBooksWithoutTheLines(t *testing.T) {
	records := map[string]string{
		"pieces.csv":    "piece,kind,got_on,price,area\nA1,desk,2026-03-01,20,33\nC1,desk,2026-03-05,20,33\n",
		"supplies.csv":  "supply,group,container,coverage\nPrimer,primer,1 qt,100\n",
		"purchases.csv": "bought_on,supply,containers,cost\n2026-03-02,Primer,1,20.00\n",
		"uses.csv":      "used_on,pieces,supply\n2026-03-04,A1,Primer\n",
		"sales.csv":     "sold_on,pieces,channel,price,fee,card_fee\n2026-03-09,A1,direct,90,0,0\n",
	}
	wrong := map[string]string{
		"pieces.csv":    "B9,desk,31/31/2026,20,33\n",
		"purchases.csv": "2026-03-20,Primer,-3,-60.00\n",
		"uses.csv":      "2026-03-05,B9; C1,Primer\n",
		"sales.csv":     "2026-03-10,A1,direct,95,0,0\n",
	}
	clean, spoilt := t.TempDir(), t.TempDir()
	for name, text := range records {
		require.NoError(t, os.WriteFile(filepath.Join(clean, name), []byte(text), 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(spoilt, name), []byte(text+wrong[name]), 0o600))
	}
	want, err := (&cli.Call{Books: clean}).Open(0)
	require.NoError(t, err)
	require.Empty(t, want.Problems.Errors())
	got, err := openDraft(&cli.Call{Books: spoilt}, 0)
	require.NoError(t, err)
	require.Len(t, got.Refused.Errors(), 4)

	figures := func(b *cli.Books) string {
		in, err := b.Input()
		require.NoError(t, err)
		text, err := figuresjson.Month(in.Month)
		require.NoError(t, err)
		return string(text)
	}
	require.JSONEq(t, figures(want), figures(got))
}
