package figures_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
)

// Goal: a posting counts once. Method: on generated books, each posting counts
// in at most one line of a scope that is not marked Again, and a name stands
// once in a scope.
func TestAPostingCountsOnce(t *testing.T) {
	scopes := []figures.Scope{figures.OfPiece, figures.OfStatement, figures.OfStock, figures.OfShelf, figures.OfChannel,
		figures.OfPayout}
	for _, of := range append(scopes, figures.OfTaxYear, figures.OfReconciliation) {
		seen := map[figures.ID]bool{}
		for _, l := range figures.LinesOf(of) {
			assert.False(t, seen[l.ID], "%s stands twice", l.ID)
			seen[l.ID] = true
			assert.NotEqual(t, l.Rules == nil, l.Sum == nil, "%s has either rules or a sum", l.ID)
		}
	}
	testkit.EveryBook(t, 8, func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		for _, p := range l.Postings() {
			for _, of := range scopes {
				var found []figures.ID
				for _, l := range figures.LinesOf(of) {
					if !l.Again && l.Sum == nil && l.Sign(&p) != 0 {
						found = append(found, l.ID)
					}
				}
				require.LessOrEqual(t, len(found), 1, "%s to %s, %s: %s", p.From, p.To, p.Reason, found)
			}
		}
	})
}

// Goal: net profit is what the accounts of profit lost and gained, whatever the
// lines say. Method: the statement's net profit on generated books against the
// accounts' own balance.
func TestLinesOfNetProfitAreTheAccounts(t *testing.T) {
	profit := map[ledger.Account]bool{ledger.Receipts: true, ledger.Other: true, ledger.CostOfSales: true,
		ledger.SellingCosts: true, ledger.Trips: true,
		ledger.Expenses: true, ledger.EquipmentCost: true, ledger.ShelfLosses: true, ledger.Lost: true}
	testkit.EveryBook(t, 8, func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		var want money.Cents
		for _, p := range l.Postings() {
			if profit[p.From] {
				want += p.Cents
			}
			if profit[p.To] {
				want -= p.Cents
			}
		}
		f := figures.For(l, l.Before.Month, l.Months[len(l.Months)-1].Month)
		assert.Equal(t, want, f.Statement.NetProfit)
		for _, line := range figures.LinesOf(figures.OfStatement) {
			if line.Sum == nil {
				continue
			}
			var sum money.Cents
			for _, leaf := range figures.Leaves(figures.OfStatement, line.ID) {
				sum += money.Cents(leaf.Sign) * f.Statement.Amount(leaf.ID)
			}
			assert.Equal(t, sum, f.Statement.Amount(line.ID), line.ID)
		}
	})
}

// Goal: a piece's book cost by its postings is what costing's own state keeps.
// Method: every piece of generated books at every month's end.
func TestBookCostIsTheStates(t *testing.T) {
	testkit.EveryBook(t, 8, func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		index := figures.NewIndex(l)
		for _, m := range l.Months {
			for _, p := range index.For(m.Month, m.Month).Pieces {
				assert.Equal(t, m.Closing.Pieces.Of(p.Record.ID).Book, p.BookCost, p.Record.ID)
			}
		}
	})
}
