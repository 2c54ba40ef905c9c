package figures_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report/figuresjson"
)

// Goal: every cent on every purchase line is in a piece, in stock, on the
// shelf or in a loss; stock and shelf roll forward; net profit ties to the
// pieces. Method: every reconciliation of every month, and every opening
// against the closing before it.
func TestLawsOnGeneratedBooks(t *testing.T) {
	testkit.EveryBook(t, testkit.Seeds(), func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		testkit.Tied(t, l)
		var before *figures.Figures
		index := figures.NewIndex(l)
		for _, r := range l.Months {
			f := index.For(r.Month, r.Month)
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
		year := index.For(l.Months[0].Month, l.Months[len(l.Months)-1].Month)
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

// Goal: splitting, reordering or reformatting the files changes no figure.
func TestShapeOfTheFilesChangesNoFigure(t *testing.T) {
	testkit.EveryBook(t, min(testkit.Seeds(), 60), func(t *testing.T, seed uint64, files map[string][]byte,
		l *costing.Ledger) {
		for variant := uint64(0); variant < 3; variant++ {
			b := testkit.Read(t, bookgen.Reshape(files, seed*7+variant))
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
