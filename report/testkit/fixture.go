// Package testkit holds what the tests of several of report's rooms share: a
// small shop made by hand, the sample shop's months, golden files. Only tests
// import it.
package testkit

import (
	"flag"
	"math/big"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/templates"
)

// March is the small shop's month.
var March = calendar.MonthOf(2026, 3)

// On is a day of March.
func On(day int) calendar.Date { return calendar.Date{Year: 2026, Month: 3, Day: day} }

func at(file string, row int) []fault.Place {
	return []fault.Place{{File: "records/" + file, Row: row}}
}

func cents(c money.Cents) *money.Cents { return &c }

// SmallShop is a month made by hand: A sold at a profit, B at a loss, C in
// stock with a part payment, D a client's. One can of primer, 18.99 + 1.20 tax,
// over A and B as in COSTING.md 'Worked by hand': A 6.36, B 8.08.
func SmallShop(t *testing.T) report.Input {
	t.Helper()
	cautions, err := templates.Cautions()
	require.NoError(t, err)
	b := smallBooks()
	m := figures.Figures{From: March, To: March, Currency: "USD",
		Pieces: smallPieces(b),
		Shelf: []figures.ShelfLine{{Supply: &b.Supplies[0], Bought: 2019, Used: 1444, Closing: 575,
			Left: big.NewRat(285, 1000), Basis: ledger.Stated},
			{Supply: &b.Supplies[1], Opening: 800, Used: 300, Lost: 100, Closing: 400, Left: big.NewRat(1, 2), Basis: ledger.Counted, Own: big.NewRat(150, 1)}},
		Statement: figures.Statement{GrossReceipts: 37000, Refunds: 1000, NetReceipts: 36000, CostOfPiecesSold: 14744,
			GrossProfit: 21256, SellingCosts: 2000, Trips: 725,
			Expenses: map[string]money.Cents{"booth rent": 5000, "office": -300}, ShelfLosses: 100, OtherIncome: 50,
			NetProfit: 13781, PartPaymentsUnfinished: 5000, SalesTaxOwed: 1234},
		Stock: figures.Stock{Opening: 6000, Acquired: 15000, Supplies: 1744, Sold: 14744, Closing: 8000},
		TieOut: []figures.Tie{{Name: "pieces roll forward", Terms: []figures.Term{{ID: figures.LineOpening, Cents: 6000},
			{ID: figures.LineParts}, {ID: figures.LineSold, Cents: -14744}}, Reached: 8000, Against: 8000}},
	}
	before := figures.Figures{From: March - 1, To: March - 1, Currency: "USD",
		Statement: figures.Statement{NetProfit: -4000, Expenses: map[string]money.Cents{"storage": 4000}},
		Stock:     figures.Stock{Closing: 6000}}
	year := m
	year.From = March - 2
	year.Statement.NetProfit = 9781
	return report.Input{Books: b, Postings: smallPostings(), Month: m, Before: &before, Year: year,
		Last: []figures.Figures{before, m}, All: m.Pieces,
		HoursByPiece: [][]costing.PieceHours{{{Piece: "A", Hours: big.NewRat(5, 2)}},
			{{Piece: "A", Hours: big.NewRat(1, 2)}, {Piece: "B", Hours: big.NewRat(1, 1)}}},
		Cautions: cautions,
		Tally:    "12 rows read = 11 used + 1 example", Absent: []string{"No Counts: what is left on the shelf " +
			"is an estimate."},
		Notes: []fault.Problem{{Code: fault.CodeAfterItLeft, Note: true, Place: fault.Place{File: "records/uses.csv", Row: 4,
			Column: "area"}, Found: "x", Why: "It was used after it was sold.", Fix: "Correct the date.", MoneyCents: 250}},
		Photos: fstest.MapFS{}, Fingerprint: "0123456789ab"}
}

func smallBooks() *ledger.Books {
	return &ledger.Books{
		Settings: ledger.Settings{Shop: "Drawer & Door", Currency: "USD", Units: "us", Paper: "letter"},
		Pieces: []ledger.Piece{
			{ID: "A", Kind: "dresser", Description: "painted pine", How: ledger.Bought, GotOn: calendar.Date{Year: 2026, Month: 2, Day: 20}, From: "yard sale", Area: big.NewRat(63, 2), AreaFrom: ledger.AreaTyped, StartedOn: On(1), FinishedOn: On(9), ListedOn: On(9), OldFinish: "painted", Asking: cents(30000), PhotoBefore: "photos/a.jpg"},
			{ID: "B", Kind: "dresser", How: ledger.Bought, GotOn: On(2), Area: big.NewRat(20, 1), AreaFrom: ledger.AreaTypical},
			{ID: "C", Kind: "desk", How: ledger.Free, GotOn: calendar.Date{Year: 2025, Month: 6, Day: 1}},
			{ID: "D", Kind: "stool", How: ledger.Client, GotOn: On(5)},
		},
		Supplies: []ledger.Supply{{Name: "Primer, oil", Group: "primer", Container: "1 qt", Unit: "qt",
			Coverage: big.NewRat(100, 1), Stays: true},
			{Name: "Stripper", Group: "stripper", Container: "1 gal", Unit: "gal", Coverage: big.NewRat(200, 1)}},
		Uses: []ledger.Use{{On: On(3), Pieces: []string{"A"}, Supply: "Stripper"}},
		Hours: []ledger.Hours{{On: On(3), Pieces: []string{"A"}, Hours: big.NewRat(5, 2), Task: "sand"},
			{On: On(4), Pieces: []string{"A", "B"}, Hours: big.NewRat(3, 2)}},
		Trips: []ledger.Trip{{At: at("trips.csv", 2)[0], On: On(9), Miles: big.NewRat(10, 1), Purpose: "deliver", To: "buyer",
			Pieces: []string{"A"}}},
		// 300.00 less the fee of 20.00 and 50.00 of rent; 5.00 short.
		Payouts: []ledger.Payout{{At: at("payouts.csv", 2)[0], On: On(20), Channel: "booth", Amount: 22500, Through: On(15),
			Rent: 5000}},
	}
}

func smallPieces(b *ledger.Books) []figures.Piece {
	days := 17
	a := figures.Piece{Record: &b.Pieces[0], Status: "sold", SoldOn: On(9), Hours: big.NewRat(3, 1), Receipts: 30000,
		Acquisition: 5000, Supplies: 936, SuppliesStaying: 636, BookCost: 5936, SellingCosts: 2000, Trips: 725,
		Overhead: 3600,
		Profit:   cents(21339), ProfitAfterOverhead: cents(17739), ProfitPerHour: cents(7113),
		ProfitPerHourAfterOverhead: cents(5913), Margin: big.NewRat(21339, 30000), ReturnOnCost: big.NewRat(21339, 5936),
		ReturnAYear: big.NewRat(21339*365, 5936*17), DaysHeld: &days, SoldLessBought: cents(25000),
		Shares: []figures.Share{{Supply: "Primer, oil", Month: March, Coated: big.NewRat(63, 2), Cost: 636,
			Basis: ledger.Stated}, {Supply: "Stripper", Month: March, Coated: big.NewRat(63, 2), Cost: 300,
			Basis: ledger.Counted}}}
	short := 7
	bad := figures.Piece{Record: &b.Pieces[1], Status: "sold", SoldOn: On(9), Hours: big.NewRat(1, 1), Receipts: 6000,
		Acquisition: 8000, Supplies: 808, SuppliesStaying: 808, BookCost: 8808,
		Profit: cents(-2808), ProfitAfterOverhead: cents(-2808), ProfitPerHour: cents(-2808),
		ProfitPerHourAfterOverhead: cents(-2808), Margin: big.NewRat(-2808, 6000), DaysHeld: &short,
		SoldLessBought: cents(-2000),
		Shares: []figures.Share{{Supply: "Primer, oil", Month: March, Coated: big.NewRat(40, 1), Cost: 808,
			Basis: ledger.Stated}}}
	return []figures.Piece{a, bad, {Record: &b.Pieces[2], Status: "in stock", Hours: new(big.Rat), BookCost: 7000,
		Held: 5000, Receipts: 5000}, {Record: &b.Pieces[3], Status: "client", BookCost: 1000}}
}

func smallPostings() []ledger.Posting {
	p := func(day int, c money.Cents, from, to ledger.Account, piece string, reason ledger.Reason, source []fault.Place,
		how ledger.Derivation) ledger.Posting {
		return ledger.Posting{Date: On(day), Month: March, Cents: c, From: from, To: to, Piece: piece, Reason: reason,
			Source: source, How: how}
	}
	used := func(x ledger.Posting, of *ledger.Shared, line int) ledger.Posting {
		x.Of, x.Line = of, line
		x.How = ledger.Derivation{Method: ledger.UsedSupply, Quantity: of.Lines[line].Weight, Weight: of.Lines[line].Weight}
		return x
	}
	drawn := func(name, container string, total money.Cents, lines ...ledger.SharedLine) *ledger.Shared {
		s := &ledger.Shared{Month: March, Reason: ledger.ReasonSupply, Supply: name, Total: total, By: ledger.ByArea,
			Unit: "sq ft", Lines: lines}
		s.Draw = ledger.Draw{Container: container, Containers: s.Weight(), Rest: s.Weight(), By: s.By, Unit: s.Unit,
			Weight: s.Weight()}
		return s
	}
	primer := drawn("Primer, oil", "1 qt", 1444, ledger.SharedLine{Piece: "A", Weight: big.NewRat(63, 2), Cents: 636},
		ledger.SharedLine{Piece: "B", Weight: big.NewRat(40, 1), Cents: 808, Off: 1})
	stripper := drawn("Stripper", "1 gal", 340, ledger.SharedLine{Piece: "A", Weight: big.NewRat(63, 2), Cents: 340})
	overheads := &ledger.Shared{Month: March, Reason: ledger.ReasonOverhead,
		How: ledger.Derivation{Method: ledger.Overhead}, Total: 4800, By: ledger.ByHours,
		Lines: []ledger.SharedLine{{Piece: "A", Weight: big.NewRat(3, 1), Cents: 3600}, {Piece: "B", Weight: big.NewRat(1, 1),
			Cents: 1200}}}
	overhead := func(x ledger.Posting, of *ledger.Shared) ledger.Posting {
		x.How, x.Of = of.How, of
		return x
	}
	none := ledger.Derivation{}
	typed := func(f ledger.Field) ledger.Derivation { return ledger.Derivation{Method: ledger.Typed, Field: f} }
	supply := func(x ledger.Posting, name string, basis ledger.Basis, coated int64) ledger.Posting {
		x.Supply, x.Basis, x.Coated = name, basis, big.NewRat(coated, 2)
		return x
	}
	booth := func(x ledger.Posting) ledger.Posting {
		x.Group = "booth"
		return x
	}
	return []ledger.Posting{
		p(1, 5000, ledger.Paid, ledger.Pieces, "A", ledger.ReasonAcquired, at("pieces.csv", 2),
			ledger.Derivation{Method: ledger.OwnPrice, Amounts: []ledger.Amount{{Name: ledger.AmountPrice, Cents: 5000}}}),
		supply(used(p(3, 636, ledger.Shelf, ledger.Pieces, "A", ledger.ReasonSupply, at("uses.csv", 2), none), primer, 0),
			"Primer, oil", ledger.Stated, 63),
		supply(used(p(3, 808, ledger.Shelf, ledger.Pieces, "B", ledger.ReasonSupply, at("uses.csv", 3), none), primer, 1),
			"Primer, oil", ledger.Stated, 80),
		supply(used(p(3, 340, ledger.Shelf, ledger.Pieces, "A", ledger.ReasonSupply, at("uses.csv", 4), none), stripper, 0),
			"Stripper", ledger.Stated, 63),
		supply(p(31, -40, ledger.Shelf, ledger.Pieces, "A", ledger.ReasonRecount, at("counts.csv", 2),
			ledger.Derivation{Method: ledger.Recounted, Amounts: []ledger.Amount{{Name: ledger.AmountCounted, Cents: 300},
				{Name: ledger.AmountBefore, Cents: 340}}}), "Stripper", ledger.Counted, 0),
		booth(p(9, 30000, ledger.Receipts, ledger.Bank, "A", ledger.ReasonSale, at("sales.csv", 2),
			typed(ledger.FieldPrice))),
		booth(p(9, 2000, ledger.Paid, ledger.SellingCosts, "A", ledger.ReasonFee, at("sales.csv", 2),
			typed(ledger.FieldFee))),
		p(9, 725, ledger.Paid, ledger.Trips, "A", ledger.ReasonTrip, at("trips.csv", 2),
			ledger.Derivation{Method: ledger.Driven, Words: "deliver", Quantity: big.NewRat(10, 1), Unit: "miles",
				Rate: big.NewRat(725, 1000)}),
		overhead(p(31, 3600, ledger.Overheads, ledger.Allotted, "A", ledger.ReasonOverhead, append(at("hours.csv", 2),
			at("hours.csv", 3)[0]), none), overheads),
		p(9, 5936, ledger.Pieces, ledger.CostOfSales, "A", ledger.ReasonSold, at("sales.csv", 2),
			ledger.Derivation{Method: ledger.BookCost}),
	}
}

var update = flag.Bool("update", false, "write the golden files again")

// Golden holds a document, as text, to its golden file.
func Golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run go test with -update, and look at what changed")
	assert.Equal(t, string(want), got)
}
