package ledger

import (
	"math/big"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Account is where money stands. The list is closed.
type Account string

// The accounts. Paid and Bank are the world outside: what was paid out and
// what came in. The last two are memoranda: overheads allotted to pieces are
// already in the accounts they came from.
const (
	Paid          Account = "paid"
	Bank          Account = "bank"
	Receipts      Account = "receipts"
	Shelf         Account = "shelf"
	Pieces        Account = "pieces"
	CostOfSales   Account = "cost of sales"
	Lost          Account = "pieces lost"
	Owner         Account = "owner" // kept or donated
	ShelfLosses   Account = "shelf losses"
	SellingCosts  Account = "selling costs"
	Trips         Account = "trips"
	Expenses      Account = "expenses"
	EquipmentCost Account = "equipment"
	Other         Account = "other income"
	TaxOwed       Account = "tax owed"
	Overheads     Account = "overheads (memo)"
	Borne         Account = "overheads borne (memo)"
	// Written off over years; a tax year's alone, no month knows it.
	WrittenOff Account = "equipment over years"
)

// Why says what a posting is, within its accounts. The list is closed.
type Why string

// The reasons for a posting.
const (
	WhyOpening      Why = "opening"
	WhyPurchase     Why = "purchase"
	WhyTakenBack    Why = "taken back" // what the layers held, out of the shelf
	WhyTakeBackGain Why = "gain on taking back"
	WhyAcquired     Why = "acquired"
	WhyPart         Why = "part"
	WhyMove         Why = "move"
	WhyOutsideWork  Why = "outside work"
	WhySupply       Why = "supply"
	WhyRecount      Why = "count correction"
	WhyDiscarded    Why = "discarded or unexplained"
	WhySurplus      Why = "count above the records"
	WhySold         Why = "sold"
	WhyReturned     Why = "returned"
	WhyRemoved      Why = "removed"
	WhyLate         Why = "late cost"
	WhySale         Why = "sale"
	WhyPartPayment  Why = "part payment"
	WhyRefund       Why = "refund"
	WhyReturn       Why = "return"
	WhyFee          Why = "fee"
	WhyCardFee      Why = "card fee"
	WhyDelivery     Why = "delivery cost"
	WhyTrip         Why = "trip"
	WhyExpense      Why = "expense"
	WhyEquipment    Why = "equipment"
	WhyOtherIncome  Why = "other income"
	WhyReceived     Why = "received for a piece"
	WhyAllowance    Why = "tax allowance kept"
	WhyTaxCollected Why = "tax collected"
	WhyTaxRefunded  Why = "tax refunded"
	WhyTaxPaid      Why = "tax paid over"
	WhyOverhead     Why = "overhead"
	WhyWrittenOff   Why = "write-off of the year"
)

// Basis says how sure a supply share is.
type Basis string

// The bases, surest first.
const (
	Counted  Basis = "counted"
	Measured Basis = "measured"
	FromOwn  Basis = "own"      // the shop's own pooled coverage
	Stated   Basis = "stated"   // as the Supplies row says
	Starting Basis = "starting" // the group's usual figure
	UsedUp   Basis = "all"      // coverage `all`
	NoBasis  Basis = "none"     // nothing was drawn
)

// Posting moves Cents from one account to another for a reason. Every figure
// printed is a sum of postings; nothing else holds money. Cents may be
// negative where a line goes against its usual direction.
type Posting struct {
	Date       calendar.Date
	Month      calendar.Month // the month it is posted in
	Cents      money.Cents
	From, To   Account
	Piece      string // blank: no piece
	Supply     string // blank: no supply
	Group      string // of an expense; why a piece was removed
	Why        Why
	Basis      Basis         // of a supply share
	Coated     *big.Rat      // of a supply share: the piece's coated area that month; nil by hours or pieces
	Source     []fault.Place // the records it rests on
	Arithmetic string        // how it was reached, for a pocket calculator
	// Of is the shared total that this is a part of, Line its line there; nil
	// where it is none. A count correction (Line -1) has the span's.
	Of   *Shared
	Line int
}
