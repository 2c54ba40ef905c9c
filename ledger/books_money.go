package ledger

import (
	"math/big"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Expense is an expense of the shop; one that names pieces is among their
// selling costs too.
type Expense struct {
	At      fault.Place
	On      calendar.Date
	What    string
	Group   string
	Amount  money.Cents // negative: money back
	To      string      // who was paid
	Channel string
	Pieces  []string
	Receipt string
}

// Life of a tool for its write-off.
const (
	LifeAtOnce    = "at once"
	LifeFirstYear = "first year" // the whole cost as the year's special first-year allowance
	LifeFive      = "5"
	LifeSeven     = "7"
)

// GroupAboveLimit is the group of what is posted for equipment written off at once
// that cost more than the limit per item. It is decided item by item, by the limit
// of the day it was bought, so a tax year counts each item in its line; and as
// corrections to closed months are summed by group, one that takes an item over the
// limit takes all of it out of the one line and puts all of it into the other.
const GroupAboveLimit = "above the limit per item"

// Equipment is a lasting tool. A blank life has been resolved.
type Equipment struct {
	At      fault.Place
	On      calendar.Date
	What    string
	Cost    money.Cents
	TaxPaid money.Cents
	Life    string
	// Above says that it cost more, tax included, than an item bought that day may
	// cost to be written off at once without being asked about.
	Above   bool
	SoldOn  calendar.Date // zero: not sold
	SoldFor money.Cents
	Receipt string
}

// Channel is a place pieces are sold, with the terms from a date on. Percents
// are as typed (12.5); blanks are zero.
type Channel struct {
	At          fault.Place
	Name        string
	FromDate    calendar.Date // zero: always
	FeePercent  *big.Rat
	FeeFixed    money.Cents
	FeeLeast    money.Cents
	CardPercent *big.Rat
	CardFixed   money.Cents
}

// SaleType is what a Sales line records.
type SaleType string

// The kinds of Sales line.
const (
	SaleLine    SaleType = "sale"
	PartPayment SaleType = "part payment"
	Refund      SaleType = "refund"
	Return      SaleType = "return"
)

// Sale is money for pieces, all amounts positive as typed. Fee and CardFee
// are nil where left blank.
type Sale struct {
	At              fault.Place
	On              calendar.Date
	Pieces          []string
	Channel         string
	Type            SaleType
	Price           money.Cents
	DeliveryCharged money.Cents
	SalesTax        money.Cents
	MarketplaceTax  money.Cents
	Fee             *money.Cents
	CardFee         *money.Cents
	DeliveryCost    money.Cents
	Receipt         string
	OwnRow          bool // on the piece's own row of Pieces
}

// OtherIncome is income that is no sale.
type OtherIncome struct {
	At      fault.Place
	On      calendar.Date
	What    string
	Group   string
	Amount  money.Cents
	Receipt string
}

// TaxPaid is sales tax sent in.
type TaxPaid struct {
	At      fault.Place
	On      calendar.Date
	Period  string
	Amount  money.Cents
	Kept    money.Cents // the state's collection allowance
	Receipt string
}

// Payout is money that reached the bank from a channel. It covers the channel's
// sales after the last payout's Through up to its own (its day where that is
// blank): price, delivery and the shop's sales tax, less fees, rent and what
// else was withheld.
type Payout struct {
	At      fault.Place
	On      calendar.Date
	Channel string
	Amount  money.Cents
	Through calendar.Date
	Rent    money.Cents
	Other   money.Cents
	Receipt string
}

// Statement is a channel's yearly total as reported to the owner.
type Statement struct {
	At      fault.Place
	Year    int
	Channel string
	Gross   money.Cents
	Receipt string
}
