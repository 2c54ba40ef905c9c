// Package figures sums postings into what is printed. It holds no money of
// its own: each figure is a sum over the costed ledger's postings, so that any
// of them can be asked why.
package figures

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Figures are those of one period (a month, or several that follow each
// other), as they stand at its end.
type Figures struct {
	From, To  calendar.Month
	Currency  string
	Pieces    []Piece // by piece
	Shelf     []ShelfLine
	Statement Statement
	Stock     Stock
	TieOut    []Tie
}

// Share is what one supply cost one piece in one month.
type Share struct {
	Supply string
	Month  calendar.Month
	Coated *big.Rat // sq ft (sq m) that month; nil where shared by hours or pieces
	Cost   money.Cents
	Basis  ledger.Basis // as it stands now: counted where a later count closed the span
}

// Piece is a piece's figures over its whole life up to the period's end.
// Nil is 'no value'.
type Piece struct {
	Record              *ledger.Piece
	Status              string // in stock, client, sold, kept, donated, scrapped, stolen, returned to seller, given back
	SoldOn              calendar.Date
	Hours               *big.Rat
	Receipts            money.Cents
	Held                money.Cents // part payments while it has not left
	Acquisition         money.Cents
	Parts               money.Cents
	OutsideWork         money.Cents
	Supplies            money.Cents
	SuppliesStaying     money.Cents
	BookCost            money.Cents
	SellingCosts        money.Cents
	Trips               money.Cents
	Overhead            money.Cents
	Profit              *money.Cents
	ProfitAfterOverhead *money.Cents
	ProfitPerHour       *money.Cents
	// ProfitPerHourAfterOverhead is ProfitAfterOverhead ÷ Hours, rounded half to
	// even; nil where ProfitPerHour is.
	ProfitPerHourAfterOverhead *money.Cents
	Margin                     *big.Rat
	ReturnOnCost               *big.Rat
	ReturnAYear                *big.Rat
	DaysHeld                   *int
	SoldLessBought             *money.Cents
	ReceivedWhenLost           money.Cents
	Shares                     []Share
}

// ShelfLine is one supply over the period.
type ShelfLine struct {
	Supply  *ledger.Supply
	Opening money.Cents
	Bought  money.Cents
	Used    money.Cents
	Lost    money.Cents
	Closing money.Cents
	Left    *big.Rat     // containers
	Basis   ledger.Basis // of the period's last month
	// Own is the supply's own pooled coverage a container, from counts up to
	// the period's end; nil where there is none yet.
	Own *big.Rat
	// Again is the coverage that buying again tells of the months since the last
	// count; nil where it tells none, or own or stated coverage goes before it.
	Again *big.Rat
}

// Amount is a line of the shelf's roll-forward.
func (l ShelfLine) Amount(id ID) money.Cents {
	return map[ID]money.Cents{LineOpening: l.Opening, LineBought: l.Bought, LineUsed: l.Used, LineLost: l.Lost,
		LineClosing: l.Closing}[id]
}

// Statement is the period's income statement.
type Statement struct {
	GrossReceipts          money.Cents
	Refunds                money.Cents
	NetReceipts            money.Cents
	CostOfPiecesSold       money.Cents
	GrossProfit            money.Cents
	SellingCosts           money.Cents
	Trips                  money.Cents
	Expenses               map[string]money.Cents // by group
	Equipment              money.Cents
	ShelfLosses            money.Cents
	PiecesLost             money.Cents
	OtherIncome            money.Cents
	NetProfit              money.Cents
	PartPaymentsUnfinished money.Cents
	KeptOrDonated          money.Cents
	SalesTaxOwed           money.Cents // at the period's end, over all time
}

// Stock is the roll-forward of pieces at book cost.
type Stock struct {
	Opening     money.Cents
	Acquired    money.Cents
	Parts       money.Cents
	OutsideWork money.Cents
	Supplies    money.Cents
	Returned    money.Cents
	Sold        money.Cents
	Removed     money.Cents
	Closing     money.Cents
}

// Term is one amount of a reconciliation: a figure or a difference by its id,
// which reports have words for, of a month or a channel where it names one.
type Term struct {
	ID      ID
	Of      string
	Cents   money.Cents
	Entries []Entry // the records' amounts it adds up, where it is of a list of the tax year
}

// Entry is one record's amount in a term.
type Entry struct {
	On    calendar.Date
	What  string // a piece, a tool; may be blank
	Cents money.Cents
	At    fault.Place
}

// Tie is a reconciliation: the terms on the way, the two totals, and their
// difference, which is 0.00 or a defect.
type Tie struct {
	Name       string
	Terms      []Term
	Reached    money.Cents // the terms' total
	Against    money.Cents // the same thing reached another way
	Line       string      // of a country's form, that it is compared with; blank: it is compared with something else
	Parts      []Term      // what Against is the sum of, where it is one
	Difference money.Cents // Reached - Against
}
