// Package taxyear turns a costed ledger into a tax year's records: the lines
// of the form, each a sum of postings; cost of goods sold as a roll-forward;
// equipment over its years; the mileage log; channels against what they
// reported; lists, reconciliations, and what is missing. The form's lines are
// data (templates.Tax), so another country is another table.
//
// It prepares records. What the law makes of them is a preparer's to decide.
// Nearly half of the room are its tests: years worked out by hand and from
// publications, each beside the part it checks.
//
// Where the contract leaves room:
//   - tax_lines has every line that the books can feed, 0.00 too, in the form's
//     order, with its totals; lines that nothing feeds are left out.
//   - mileage.amount is distance at the rates without tolls; the line for trips is
//     that and the tolls. depreciation is the year's part of what is written off
//     over years; its line has it and what was written off at once above the limit
//     per item.
//   - Supplies that do not stay, 'when used': their line has all that left the
//     shelf, what was lost or discarded too; on pieces kept or donated it is not
//     taken back (a remark says so).
//   - A write-off over years starts in the year bought; each year is rounded half
//     to even, the last takes the rest. The mid-quarter table is mentioned, never
//     worked out.
//   - A year's opening is compared with the closing line of
//     reports/YEAR-1/figures.json where there is one.
//   - A channel's statement is explained by the fewest of: sales tax, marketplace
//     tax, delivery left out, refunds or fees taken off; else the remainder stands
//     with its likely causes. It is no tie-out: it may differ.
package taxyear

import (
	"math/big"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Year is one tax year's records.
type Year struct {
	Year    int
	Books   *ledger.Books
	Figures figures.Figures   // January to December
	Months  []figures.Figures // those the books reach, each on its own
	Table   templates.TaxLines
	Lines   []Line
	// WhenUsed says that supplies that do not stay on the piece count when
	// they leave the shelf.
	WhenUsed bool
	// Last is the last month of the year that has a dated record; 0 none.
	Last         calendar.Month
	Depreciation money.Cents
	Assets       []Asset
	LateBuying   *LateBuying // nil: nothing was bought to be written off over years
	Mileage      Mileage
	Channels     []Channel
	Statements   []StatementCheck
	Stock        []StockPiece // in stock at the year's end, clients' too
	Shelf        []ShelfStock
	Gone         []GonePiece
	Payees       []Payee
	Home         *Home          // nil: the settings do not say
	SalesTax     []figures.Term // owed at the start to owed at the end
	Papers       []Paper        // every money record of the year
	NoReceipt    []Paper        // costs above receipts_over without one
	SmallCosts   SmallCosts
	Ties         []figures.Tie // each difference 0.00
	Missing      []Missing
	Remarks      []Missing // for the preparer to decide; nothing the owner can find
	// FormForEquipment says that equipment was put to use which has a form of
	// its own.
	FormForEquipment bool
	Bridge           *figures.Tie // from the statement's gross profit to the form's; nil: it has none
	apart            notStaying
	methodRule       string
	source           *source
}

// Line is a line of the form: its amount and the postings under it, whose
// cents add up to it. Where it adds up other lines, Postings are theirs.
type Line struct {
	templates.TaxLine
	Cents    money.Cents
	Postings []ledger.Posting
	Parts    []Part
	Asked    []string // the questions of the line that stand this year
}

// Part is what a line takes of one amount of the books, or adds of one other
// line, with its sign there.
type Part struct {
	templates.Term            // the amount's name, or the line's number
	Line           bool       // it is a line
	Amount         figures.ID // in the table of figures; blank of a line
	Cents          money.Cents
	Postings       []ledger.Posting
}

// Plain is what the part takes, as people call it: an expense by its group.
func (p Part) Plain() string { return strings.TrimPrefix(p.Name, expenseOf) }

// Asset is an item of equipment and what is written off of it. Its cost is
// what was written off before, now and after, and what a sale left.
type Asset struct {
	Record *ledger.Equipment
	Cost   money.Cents // with its tax
	Above  bool        // written off at once above the year's limit per item
	// Table is whose percentages it is written off by; nil: at once.
	Table   *templates.WriteOffTable
	Yearly  []money.Cents // over its life, from the year bought, as far as it was kept; nil: at once
	Before  money.Cents   // written off in earlier years
	Now     money.Cents   // this year
	After   money.Cents   // still to come
	Percent *big.Rat      // this year's of the table; nil: at once, or all done
	// SoldPart is the percent of the table's year that counts in the year of a
	// sale; nil: all of it.
	SoldPart *big.Rat
	Sale     *AssetSale // by the year's end; nil: it is there
}

// AssetSale is a sold item's gain: what it was sold for, less the cost that was
// not written off. A loss is negative.
type AssetSale struct {
	WrittenOff, Left, Gain money.Cents
}

// SameYear says that an item over years was bought and sold in one year.
func (a *Asset) SameYear() bool {
	return a.Sale != nil && a.Table != nil && a.Record.SoldOn.Year == a.Record.On.Year
}

// This is what of the cost counts in a year, over years or at once.
func (a *Asset) This(year int) money.Cents {
	if a.Table == nil && a.Record.On.Year == year {
		return a.Cost
	}
	return a.Now
}

// LateBuying is how much of a year's equipment over years was bought in its
// last quarter. Where that is above the limit the tables by quarter apply.
type LateBuying struct {
	Last, All money.Cents // cost bought in the last quarter; in the year
	Percent   *big.Rat
	Limit     *big.Rat // nil: the country has none
	Applies   bool
	// What the first year's write-offs come to by the tables for all the year,
	// and by those by quarter.
	Usual, ByQuarter money.Cents
	Source           string
}

// Mileage is the year's log.
type Mileage struct {
	Trips  []Drive
	Rates  []ledger.MileageRate // those of the year's trips, by date
	Miles  *big.Rat             // kilometres in a metric shop
	Amount money.Cents          // distance at the rates, without tolls
	Tolls  money.Cents
	Total  *big.Rat // all driven that year, from settings; nil: not given
}

// Drive is one entry of the log.
type Drive struct {
	Record *ledger.Trip
	Rate   *ledger.MileageRate
	Amount money.Cents // without tolls
}

// Channel is what one channel's sales came to. Blank is direct sales.
type Channel struct {
	Name            string
	Sales           int
	CardFees        bool        // some of the fees are a card's
	Price           money.Cents // of sales and part payments
	DeliveryCharged money.Cents
	Refunds         money.Cents // price and delivery given back
	Fees            money.Cents // fees and card fees, less those given back
	DeliveryCost    money.Cents
	SalesTax        money.Cents // collected, of sales and part payments
	MarketplaceTax  money.Cents
}

// Gross is what the channel's sales add to gross receipts.
func (c Channel) Gross() money.Cents { return c.Price + c.DeliveryCharged }

// StatementCheck compares what a channel reported with the recorded sales.
type StatementCheck struct {
	Record    *ledger.Statement
	Channel   Channel
	Terms     []figures.Term // from what was reported down to Remainder
	Remainder money.Cents    // 0.00, or what no line explains
	Explained Note           // how it was
	Causes    []Note         // where it was not
}

// StockPiece is a piece in stock at the year's end.
type StockPiece struct {
	Piece  figures.Piece
	Kept   money.Cents // in line with the treatment: book cost, or less what does not stay
	Source []fault.Place
}

// ShelfStock is a supply on the shelf at the year's end.
type ShelfStock struct {
	Line    figures.ShelfLine
	Kept    money.Cents // 0.00 where the treatment leaves it out
	Layers  []Layer
	Counted bool // by a count that closes the year's last month
}

// Layer is a purchase still on the shelf.
type Layer struct {
	Left  *big.Rat // containers
	Cents money.Cents
}

// GonePiece is a piece that left unsold in the year.
type GonePiece struct {
	Piece    figures.Piece
	Removal  *ledger.Removal
	Cost     money.Cents // what left stock this year
	Received money.Cents
}

// SmallCosts are the costs without a receipt that are not above receipts_over.
type SmallCosts struct {
	Count  int
	Cents  money.Cents
	Papers []Paper
}

// Paper is a money record of the year with its receipt's reference.
type Paper struct {
	At      fault.Place
	On      calendar.Date
	Table   string
	What    string
	Cents   money.Cents
	Receipt string
	Cost    bool // money paid out, whose receipt is asked for
}

// Note is a sentence for the owner or the preparer: which one, and what stands in
// it, in order: names, amounts, numbers, days, other notes. report/words has the words.
type Note struct {
	Says Sentence
	Of   []any
}

// Missing is something for the owner to find while it can still be found, or
// a remark for the preparer. Sections are the anchors of the year's pages.
type Missing struct {
	Note
	Cents   money.Cents // what it is about; 0 where no amount
	Section string
}
