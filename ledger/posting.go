package ledger

import (
	"math/big"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Account is where money stands. The list is closed.
type Account string

// The accounts. Paid and Bank are all that is outside the shop: what was paid out and
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
	Allotted      Account = "overheads allotted (memo)"
	// Written off over years; a tax year's alone, no month knows it.
	WrittenOff Account = "equipment over years"
)

// Reason says what a posting is, within its accounts. The list is closed.
type Reason string

// The reasons for a posting.
const (
	ReasonOpening      Reason = "opening"
	ReasonPurchase     Reason = "purchase"
	ReasonTakenBack    Reason = "taken back" // what the layers held, out of the shelf
	ReasonTakeBackGain Reason = "gain on taking back"
	ReasonTakeBackLoss Reason = "loss on taking back"
	ReasonAcquired     Reason = "acquired"
	ReasonPart         Reason = "part"
	ReasonMove         Reason = "move"
	ReasonOutsideWork  Reason = "outside work"
	ReasonSupply       Reason = "supply"
	ReasonRecount      Reason = "count correction"
	ReasonBoughtAgain  Reason = "bought again" // what a fresh estimate of the open span moves
	ReasonDiscarded    Reason = "discarded or unexplained"
	ReasonSurplus      Reason = "count above the records"
	ReasonSold         Reason = "sold"
	ReasonReturned     Reason = "returned"
	ReasonRemoved      Reason = "removed"
	ReasonLate         Reason = "late cost"
	ReasonSale         Reason = "sale"
	ReasonPartPayment  Reason = "part payment"
	ReasonRefund       Reason = "refund"
	ReasonReturn       Reason = "return"
	ReasonFee          Reason = "fee"
	ReasonCardFee      Reason = "card fee"
	ReasonDelivery     Reason = "delivery cost"
	ReasonTrip         Reason = "trip"
	ReasonExpense      Reason = "expense"
	ReasonEquipment    Reason = "equipment"
	ReasonOtherIncome  Reason = "other income"
	ReasonReceived     Reason = "received for a piece"
	ReasonAllowance    Reason = "tax allowance kept"
	ReasonTaxCollected Reason = "tax collected"
	ReasonTaxRefunded  Reason = "tax refunded"
	ReasonTaxPaid      Reason = "tax paid over"
	ReasonOverhead     Reason = "overhead"
	ReasonWrittenOff   Reason = "write-off of the year"
)

// Basis says how sure a supply share is.
type Basis string

// The bases, surest first.
const (
	Counted    Basis = "counted"
	Measured   Basis = "measured"
	FromOwn    Basis = "own"      // the shop's own pooled coverage
	FromBuying Basis = "bought"   // what buying again tells of the cans before
	Stated     Basis = "stated"   // as the Supplies row says
	Starting   Basis = "starting" // the group's usual figure
	UsedUp     Basis = "all"      // coverage `all`
	NoBasis    Basis = "none"     // nothing was drawn
)

// Posting moves Cents from one account to another for a reason. Every figure
// printed is a sum of postings; nothing else holds money. Cents may be
// negative where a line goes against its usual direction.
type Posting struct {
	Date   calendar.Date  `json:"date"`
	Month  calendar.Month `json:"month"` // the month it is posted in
	Cents  money.Cents    `json:"amount"`
	From   Account        `json:"from"`
	To     Account        `json:"to"`
	Piece  string         `json:"piece,omitempty"`  // blank: no piece
	Supply string         `json:"supply,omitempty"` // blank: no supply
	Group  string         `json:"group,omitempty"`  // of an expense; why a piece was removed; GroupAboveLimit
	Reason Reason         `json:"reason"`
	Basis  Basis          `json:"basis,omitempty"` // of a supply share
	// of a supply share: the piece's coated area that month; nil by hours or pieces
	Coated *big.Rat      `json:"coated,omitempty"`
	Source []fault.Place `json:"source,omitempty"` // the records it rests on
	How    Derivation    `json:"how"`              // how its cents came about; of a share, how the total did
	// Of is the shared total that this is a part of, Line its line there; nil
	// where it is none. A count correction (Line -1) has the span's.
	Of   *Shared `json:"-"`
	Line int     `json:"line,omitempty"`
}
