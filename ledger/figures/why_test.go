package figures_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
	for _, r := range l.Months {
		f := figures.For(l, r.Month, r.Month)
		same := func(want money.Cents, name string, got figures.Behind, ok bool) {
			t.Helper()
			require.True(t, ok, name)
			assert.Equal(t, want, got.Total, "%s in %s", name, r.Month)
			for _, p := range got.Postings {
				assert.True(t, len(p.Source) > 0 || p.Piece == "", "%s in %s rests on no record: %s", name, r.Month, p.Arithmetic)
			}
		}
		st, k := f.Statement, f.Stock
		for name, want := range map[string]money.Cents{"gross_receipts": st.GrossReceipts, "refunds": st.Refunds, "net_receipts": st.NetReceipts,
			"cost_of_pieces_sold": st.CostOfPiecesSold, "gross_profit": st.GrossProfit, "selling_costs": st.SellingCosts, "trips": st.Trips,
			"equipment": st.Equipment, "shelf_losses": st.ShelfLosses, "pieces_lost": st.PiecesLost, "other_income": st.OtherIncome,
			"net_profit": st.NetProfit, "kept_or_donated": st.KeptOrDonated, "sales_tax_owed": st.SalesTaxOwed} {
			got, ok := figures.BehindStatement(l, name, r.Month)
			same(want, name, got, ok)
		}
		for group, want := range st.Expenses {
			got, ok := figures.BehindStatement(l, group, r.Month)
			same(want, group, got, ok)
		}
		for name, want := range map[string]money.Cents{"acquired": k.Acquired, "parts": k.Parts, "outside_work": k.OutsideWork,
			"supplies": k.Supplies, "returned": k.Returned, "sold": k.Sold, "removed": k.Removed, "closing": k.Closing} {
			got, ok := figures.BehindStock(l, name, r.Month)
			same(want, name, got, ok)
		}
		for _, p := range f.Pieces {
			for name, want := range map[string]money.Cents{"receipts": p.Receipts, "acquisition": p.Acquisition, "parts": p.Parts,
				"outside_work": p.OutsideWork, "supplies": p.Supplies, "book_cost": p.BookCost, "selling_costs": p.SellingCosts,
				"trips": p.Trips, "overhead": p.Overhead} {
				got, ok := figures.BehindPiece(l, p.Record.ID, name, r.Month)
				same(want, p.Record.ID+" "+name, got, ok)
			}
			if p.Profit != nil {
				got, ok := figures.BehindPiece(l, p.Record.ID, "after everything", r.Month)
				same(*p.Profit, p.Record.ID+" profit", got, ok)
			}
		}
		for _, s := range f.Shelf {
			got, ok := figures.BehindSupply(l, s.Supply.Name, "closing", r.Month)
			same(s.Closing, s.Supply.Name, got, ok)
		}
	}
}
