package costing_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/testkit"
)

// Goal: the fold restarted from any month's closing gives the same. Method:
// each closing is written as JSON, read back, and costed on to the end.
func TestFoldRestartsFromAnyClosing(t *testing.T) {
	testkit.EveryBook(t, min(testkit.Seeds(), 60), func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		last := l.Months[len(l.Months)-1].Month
		for i, r := range l.Months[:len(l.Months)-1] {
			text, err := json.Marshal(r.Closing)
			require.NoError(t, err)
			var closing costing.State
			require.NoError(t, json.Unmarshal(text, &closing))
			again := &costing.Ledger{Books: l.Books}
			again.Resume(closing, last)
			require.Equal(t, len(l.Months)-i-1, len(again.Months))
			for k, m := range again.Months {
				want := l.Months[i+1+k]
				require.Equal(t, postingText(want.Postings), postingText(m.Postings), "%s restarted after %s", m.Month, r.Month)
			}
		}
	})
}

func postingText(ps []ledger.Posting) []string {
	out := make([]string, len(ps))
	for i, p := range ps {
		out[i] = fmt.Sprint(p.Date, p.Cents, p.From, p.To, p.Piece, p.Supply, p.Reason, p.Basis, p.How)
	}
	return out
}
