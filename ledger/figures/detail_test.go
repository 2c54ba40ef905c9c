package figures_test

import (
	"math/big"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Goal: what `why` shows under a figure adds up to the figure, and rests on
// records. Method: every figure of the sample that is a sum of postings, in
// each of its months.
func TestWhyAddsUpToTheFigure(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(os.DirFS(filepath.Join("..", "..", "sample")), set)
	l := costing.Run(&read.Books, checks.LastMonth(&read.Books))
	index := figures.NewIndex(l)
	for _, r := range l.Months {
		f := index.For(r.Month, r.Month)
		same := func(want money.Cents, name string, got figures.Detail, ok bool) {
			t.Helper()
			require.True(t, ok, name)
			assert.Equal(t, want, got.Total, "%s in %s", name, r.Month)
			for _, p := range got.Postings {
				assert.True(t, len(p.Source) > 0 || p.Piece == "", "%s in %s rests on no record: %s", name, r.Month, p.How.Words)
			}
		}
		st, k := f.Statement, f.Stock
		for name, want := range map[figures.ID]money.Cents{"gross_receipts": st.GrossReceipts, "refunds": st.Refunds,
			"net_receipts":        st.NetReceipts,
			"cost_of_pieces_sold": st.CostOfPiecesSold, "gross_profit": st.GrossProfit, "selling_costs": st.SellingCosts,
			"trips":     st.Trips,
			"equipment": st.Equipment, "shelf_losses": st.ShelfLosses, "pieces_lost": st.PiecesLost,
			"other_income": st.OtherIncome,
			"net_profit":   st.NetProfit, "kept_or_donated": st.KeptOrDonated, "sales_tax_owed": st.SalesTaxOwed} {
			got, ok := figures.DetailOf(l, figures.OfStatement, "", name, r.Month)
			same(want, string(name), got, ok)
		}
		for group, want := range st.Expenses {
			got, ok := figures.GroupDetail(l, group, r.Month, r.Month)
			same(want, group, got, ok)
		}
		for name, want := range map[figures.ID]money.Cents{"acquired": k.Acquired, "parts": k.Parts,
			"outside_work": k.OutsideWork,
			"supplies":     k.Supplies, "returned": k.Returned, "sold": k.Sold, "removed": k.Removed, "closing": k.Closing} {
			got, ok := figures.DetailOf(l, figures.OfStock, "", name, r.Month)
			same(want, string(name), got, ok)
		}
		for _, p := range f.Pieces {
			for name, want := range map[figures.ID]money.Cents{"receipts": p.Receipts, "acquisition": p.Acquisition,
				"parts":        p.Parts,
				"outside_work": p.OutsideWork, "supplies": p.Supplies, "book_cost": p.BookCost, "selling_costs": p.SellingCosts,
				"trips": p.Trips, "overhead": p.Overhead} {
				got, ok := figures.DetailOf(l, figures.OfPiece, p.Record.ID, name, r.Month)
				same(want, p.Record.ID+" "+string(name), got, ok)
			}
			if p.Profit != nil {
				got, ok := figures.DetailOf(l, figures.OfPiece, p.Record.ID, figures.LineProfit, r.Month)
				same(*p.Profit, p.Record.ID+" profit", got, ok)
			}
		}
		for _, s := range f.Shelf {
			got, ok := figures.DetailOf(l, figures.OfShelf, s.Supply.Name, "closing", r.Month)
			same(s.Closing, s.Supply.Name, got, ok)
		}
	}
}

// Goal: what a ratio is worked out of is what the piece's figures say, its hours
// add up to the piece's, and what a supply's cost was drawn from adds up to what
// was shared. Method: every piece and every shared cost of the sample.
func TestWhyPartsAddUp(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(os.DirFS(filepath.Join("..", "..", "sample")), set)
	end := checks.LastMonth(&read.Books)
	l := costing.Run(&read.Books, end)
	timed := 0
	for _, p := range figures.All(l) {
		parts, ok := figures.RatioOf(l, p.Record.ID, "profit_per_hour", end)
		require.True(t, ok)
		assert.Equal(t, p.ProfitPerHour, parts.Piece.ProfitPerHour)
		sum := new(big.Rat)
		for _, h := range parts.Hours {
			sum.Add(sum, h.Hours)
		}
		assert.Zero(t, sum.Cmp(p.Hours), p.Record.ID)
		timed += len(parts.Hours)
	}
	assert.Greater(t, timed, 100)
	seen := map[*ledger.Shared]bool{}
	for _, p := range l.Postings() {
		if p.Of == nil || p.Of.Supply == "" || seen[p.Of] || len(p.Of.Lines) == 0 {
			continue
		}
		seen[p.Of] = true
		var cost money.Cents
		for _, d := range p.Of.Drawn {
			assert.True(t, d.Amount.Sign() > 0 && d.Amount.Cmp(d.Of) <= 0 && d.At.File != "")
			cost += d.Cents
		}
		assert.Equal(t, p.Of.Total, cost, p.Of.Supply)
	}
	assert.Greater(t, len(seen), 100)
	held, ok := figures.DetailOf(l, figures.OfStatement, "", figures.LineTiedUp, end)
	require.True(t, ok)
	f := figures.For(l, end, end)
	want := f.Stock.Closing
	for _, s := range f.Shelf {
		want += s.Closing
	}
	assert.Equal(t, want, held.Total)
}
