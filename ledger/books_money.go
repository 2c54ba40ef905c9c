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
	On      calendar.Date `col:"paid_on"`
	What    string        `col:"what"`
	Group   string        `col:"group"`
	Amount  money.Cents   `col:"amount"` // negative: money back
	To      string        `col:"to"`     // who was paid
	Channel string        `col:"channel"`
	Pieces  []string      `col:"pieces"`
	Receipt string        `col:"receipt"`
}

// Life of a tool for its write-off.
const (
	LifeAtOnce    = "at once"
	LifeFirstYear = "first year" // the whole cost as the year's special first-year allowance
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
	On      calendar.Date `col:"bought_on"`
	What    string        `col:"what"`
	Cost    money.Cents   `col:"cost"`
	TaxPaid money.Cents   `col:"tax_paid"`
	Life    string        `col:"life"`
	// Above says that it cost more, tax included, than an item bought that day may
	// cost to be written off at once without being asked about.
	Above   bool
	SoldOn  calendar.Date `col:"sold_on"` // zero: not sold
	SoldFor money.Cents   `col:"sold_for,optional"`
	Receipt string        `col:"receipt"`
}

// Channel is a place pieces are sold, with the terms from a date on. Percents
// are as typed (12.5); blanks are zero.
type Channel struct {
	At          fault.Place
	Name        string        `col:"channel"`
	FromDate    calendar.Date `col:"from_date"` // zero: always
	FeePercent  *big.Rat      `col:"fee_percent"`
	FeeFixed    money.Cents   `col:"fee_fixed"`
	FeeLeast    money.Cents   `col:"fee_least"`
	CardPercent *big.Rat      `col:"card_percent"`
	CardFixed   money.Cents   `col:"card_fixed"`
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
	On              calendar.Date `col:"sold_on"`
	Pieces          []string      `col:"pieces"`
	Channel         string        `col:"channel"`
	Type            SaleType      `col:"type"`
	Price           money.Cents   `col:"price"`
	DeliveryCharged money.Cents   `col:"delivery_charged"`
	SalesTax        money.Cents   `col:"sales_tax"`
	MarketplaceTax  money.Cents   `col:"marketplace_tax"`
	Fee             *money.Cents  `col:"fee"`
	CardFee         *money.Cents  `col:"card_fee"`
	DeliveryCost    money.Cents   `col:"delivery_cost"`
	Receipt         string        `col:"receipt"`
	OwnRow          bool          // on the piece's own row of Pieces
}

// OtherIncome is income other than from sales.
type OtherIncome struct {
	At      fault.Place
	On      calendar.Date `col:"got_on"`
	What    string        `col:"what"`
	Group   string        `col:"group"`
	Amount  money.Cents   `col:"amount"`
	Receipt string        `col:"receipt"`
}

// TaxPaid is sales tax sent in.
type TaxPaid struct {
	At      fault.Place
	On      calendar.Date `col:"paid_on"`
	Period  string        `col:"period"`
	Amount  money.Cents   `col:"amount"`
	Kept    money.Cents   `col:"kept"` // the state's collection allowance
	Receipt string        `col:"receipt"`
}

// Payout is money that reached the bank from a channel. It covers the channel's
// sales after the last payout's Through up to its own (its day where that is
// blank): price, delivery and the shop's sales tax, less fees, rent and what
// else was withheld.
type Payout struct {
	At      fault.Place
	On      calendar.Date `col:"paid_on"`
	Channel string        `col:"channel"`
	Amount  money.Cents   `col:"amount"`
	Through calendar.Date `col:"through"`
	Rent    money.Cents   `col:"rent"`
	Other   money.Cents   `col:"other"`
	Receipt string        `col:"receipt"`
}

// Statement is a channel's yearly total as reported to the owner.
type Statement struct {
	At      fault.Place
	Year    int         `col:"year"`
	Channel string      `col:"channel"`
	Gross   money.Cents `col:"gross"`
	Receipt string      `col:"receipt"`
}
