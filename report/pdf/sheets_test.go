package pdf

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/testkit"
)

// laidOut is a document's pages.
func laidOut(t *testing.T, d page.Document) []placed {
	t.Helper()
	l := layoutOf(t)
	l.sheet = sheetOf(d.Paper)
	return paginate(l.document(d), l.sheet.bodyHeight())
}

// used is the part of a page's height that is used.
func used(p placed, d page.Document) float64 {
	low := 0.0
	for _, o := range p.ops {
		low = max(low, o.y, o.y+o.rise)
	}
	return low / sheetOf(d.Paper).bodyHeight()
}

// TestSheetsOnOnePage: in every month of the sample, in a shop with one sale, in
// an empty month and in one with forty sales, on both papers, each sheet is one page, the document two more at
// most; no page but the last has less
// than a quarter used, and no type is under 8.5 point but references in 7.5.
func TestSheetsOnOnePage(t *testing.T) {
	sheets := 0
	one := testkit.OneSale(t)
	for _, in := range slices.Concat(testkit.SampleInputs(t), one, testkit.ManySales(t)) {
		for _, paper := range []string{"letter", "a4"} {
			in.Books.Settings.Paper = paper
			d := piece.PeriodSheets(in)
			pages := laidOut(t, d)
			pieces := 0
			for _, p := range in.Month.Pieces {
				if in.SoldIn(p) || in.Within(p.Record.FinishedOn) {
					pieces++
				}
			}
			sheets += pieces
			index := pieces / 40 // so many more take another page of the index
			assert.LessOrEqual(t, len(pages), pieces+2+index, "%s, %s", in.Month.To, paper)
			for i, p := range pages {
				if i < pieces {
					assert.Equal(t, d.Sections[i].Head, p.section, "%s, %s, page %d", in.Month.To, paper, i+1)
				}
				if i < len(pages)-1 {
					assert.Greater(t, used(p, d), 0.25, "%s, %s, page %d", in.Month.To, paper, i+1)
				}
				typeSizes(t, p)
			}
			noneStranded(t, pages, fmt.Sprintf("%s, %s", in.Month.To, paper))
		}
	}
	assert.Greater(t, sheets, 100)
}

// typeSizes holds a page's words to the sizes of the page.
func typeSizes(t *testing.T, p placed) {
	t.Helper()
	for _, o := range p.ops {
		if o.text != "" && o.thick == 0 && o.shape == noShape {
			assert.Contains(t, []float64{refSize, noteSize, bodySize, leadSize, headSize, headSize + 2, titleSize,
				keyFigureSize},
				o.size, o.text)
		}
	}
}

// manySupplies is the small shop with so many supplies on its first piece.
func manySupplies(t *testing.T, n int) report.Input {
	t.Helper()
	in := testkit.SmallShop(t)
	in.Books.Uses, in.Postings = nil, slices.DeleteFunc(in.Postings, func(p ledger.Posting) bool { return p.Supply != "" })
	a := &in.Month.Pieces[0]
	a.Shares, a.Supplies = nil, 0
	for i := range n {
		name := fmt.Sprintf("Masking tape and paper %d", i)
		weights := []*big.Rat{big.NewRat(6300, 2), big.NewRat(7350, 1)}
		parts := money.Share(money.Cents(1000+i), weights)
		cost := parts[0].Cents
		of := &ledger.Shared{Month: testkit.March, Reason: ledger.ReasonSupply, Supply: name, Total: money.Cents(1000 + i),
			By: ledger.ByBench, Unit: "sq ft", Lines: []ledger.SharedLine{{Piece: "A", Weight: weights[0], Cents: cost},
				{Piece: "B", Weight: weights[1], Cents: parts[1].Cents}}}
		a.Shares = append(a.Shares, figures.Share{Supply: name, Month: testkit.March, Cost: cost, Basis: ledger.Stated})
		a.Supplies += cost
		in.Postings = append(in.Postings, ledger.Posting{Date: testkit.On(3), Month: testkit.March, Cents: cost,
			From: ledger.Shelf, To: ledger.Pieces, Piece: "A",
			Supply: name, Reason: ledger.ReasonSupply, Basis: ledger.Stated, Of: of,
			How: ledger.Derivation{Method: ledger.UsedSupply, Quantity: big.NewRat(1, 2), Weight: big.NewRat(6300, 2)}})
	}
	return in
}

// TestManySupplies: up to 25 supplies a sheet is one page; above that it is
// two, the second with all the supplies and filled.
func TestManySupplies(t *testing.T) {
	for _, c := range []struct{ supplies, pages int }{{25, 1}, {26, 2}, {40, 2}} {
		in := manySupplies(t, c.supplies)
		for _, paper := range []string{"letter", "a4"} {
			in.Books.Settings.Paper = paper
			d := piece.Sheets(in, []string{"A"})
			pages := laidOut(t, d)
			require.Len(t, pages, c.pages+1, "%d supplies, %s; and the cautions", c.supplies, paper)
			for _, p := range pages[:c.pages] {
				assert.Greater(t, used(p, d), 0.4)
			}
			rendered(t, d)
			kept(t, fmt.Sprintf("supplies %d %s", c.supplies, paper), d)
		}
	}
}
