package figures_test

import (
	"encoding/json"
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
	"piecebook/ledger/money"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report/figuresjson"
	"piecebook/templates"
)

var seeds = flag.Int("seeds", 200, "how many generated books the laws are tested on")

// read takes generated files through intake and the checks; generated books
// have no errors.
func read(t *testing.T, files map[string][]byte) *ledger.Books {
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

// everyMonth runs f over generated books, costed to the end.
func everyBook(t *testing.T, n int, f func(t *testing.T, seed uint64, files map[string][]byte, l *costing.Ledger)) {
	for seed := uint64(1); seed <= uint64(n); seed++ {
		t.Run(fmt.Sprintf("seed=%d", seed), func(t *testing.T) {
			t.Parallel()
			files := bookgen.Files(seed)
			b := read(t, files)
			l := costing.Run(b, checks.LastMonth(b)+2)
			require.Empty(t, l.Problems.Errors())
			f(t, seed, files, l)
		})
	}
}

// Goal: every cent on every purchase line is in a piece, in stock, on the
// shelf or in a loss; stock and shelf roll forward; net profit ties to the
// pieces. Method: every reconciliation of every month, and every opening
// against the closing before it.
func TestLawsOnGeneratedBooks(t *testing.T) {
	everyBook(t, *seeds, func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		tied(t, l)
		var before *figures.Figures
		for _, r := range l.Months {
			f := figures.For(l, r.Month, r.Month)
			if before != nil {
				require.Equal(t, before.Stock.Closing, f.Stock.Opening, r.Month)
				closing := map[string]money.Cents{}
				for _, s := range before.Shelf {
					closing[s.Supply.Name] = s.Closing
				}
				for _, s := range f.Shelf {
					require.Equal(t, closing[s.Supply.Name], s.Opening, "%s in %s", s.Supply.Name, r.Month)
				}
			}
			conserves(t, l, r.Month)
			before = &f
		}
		year := figures.For(l, l.Months[0].Month, l.Months[len(l.Months)-1].Month)
		for _, tie := range year.TieOut {
			require.Zerof(t, tie.Difference, "%s over all months", tie.Name)
		}
	})
}

// conserves follows each purchase line's supply: what the records say was
// paid for it is what the postings put into pieces and losses plus its layers.
func conserves(t *testing.T, l *costing.Ledger, m calendar.Month) {
	paid, went := map[string]money.Cents{}, map[string]money.Cents{}
	for _, p := range l.Books.Purchases {
		if p.On.InMonth() <= m {
			paid[p.Supply] += p.Total()
		}
	}
	for _, o := range l.Books.Openings {
		if !o.Deducted {
			paid[o.Supply] += o.Cost
		}
	}
	for _, p := range l.Postings() {
		if p.Month <= m && p.From == ledger.Shelf {
			went[p.Supply] += p.Cents
		}
	}
	for name, shelf := range l.At(m).Shelf {
		require.Equal(t, paid[name], went[name]+shelf.Cents(), "%s at the end of %s", name, m)
		require.GreaterOrEqual(t, shelf.Left().Sign(), 0, name)
	}
}

// Goal: the fold restarted from any month's closing gives the same. Method:
// each closing is written as JSON, read back, and costed on to the end.
func TestFoldRestartsFromAnyClosing(t *testing.T) {
	everyBook(t, min(*seeds, 60), func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
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

// Goal: splitting, reordering or reformatting the files changes no figure.
func TestShapeOfTheFilesChangesNoFigure(t *testing.T) {
	everyBook(t, min(*seeds, 60), func(t *testing.T, seed uint64, files map[string][]byte, l *costing.Ledger) {
		for variant := uint64(0); variant < 3; variant++ {
			b := read(t, bookgen.Reshape(files, seed*7+variant))
			again := costing.Run(b, l.Months[len(l.Months)-1].Month)
			for _, r := range l.Months {
				require.Equal(t, figuresText(t, l, r.Month), figuresText(t, again, r.Month), "%s, variant %d", r.Month, variant)
			}
		}
	})
}

func figuresText(t *testing.T, l *costing.Ledger, m calendar.Month) string {
	out, err := figuresjson.Month(figures.For(l, m, m))
	require.NoError(t, err)
	return string(out)
}
