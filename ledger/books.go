package ledger

import (
	"math/big"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Books is everything an owner wrote down, read and resolved: names are as
// their own table spells them, lists are the pieces they stand for, amounts
// are in containers of their supply. Rows with an error are not in it. The
// order of records is content order, never file order, where it could matter;
// costing sorts what it needs.
type Books struct {
	Settings    Settings
	Pieces      []Piece
	Lots        []Lot
	Surfaces    []Surface
	Supplies    []Supply
	Purchases   []Purchase
	Openings    []Opening
	Schedules   []ScheduleLine
	Uses        []Use
	Parts       []Part
	Hours       []Hours
	Trips       []Trip
	Expenses    []Expense
	Equipment   []Equipment
	Channels    []Channel
	Sales       []Sale
	Counts      []Count
	Moves       []Move
	Removals    []Removal
	OtherIncome []OtherIncome
	TaxPaid     []TaxPaid
	Payouts     []Payout
	Statements  []Statement
}

// How a piece came.
type How string

// The ways a piece comes.
const (
	Bought How = "bought"
	Free   How = "free"
	Traded How = "traded" // taken in part payment at the agreed value
	Own    How = "own"    // was the household's
	Client How = "client" // a customer's own, worked on for a commission
)

// AreaFrom says where a piece's finish area comes from.
type AreaFrom string

// The sources of a finish area, the first that is there wins.
const (
	AreaTyped    AreaFrom = "typed"    // the Pieces row's own area
	AreaSurfaces AreaFrom = "surfaces" // summed from the Surfaces table
	AreaTypical  AreaFrom = "typical"  // its kind's usual area (a note)
	AreaUnknown  AreaFrom = ""         // none of the three
)

// Piece is one line of Pieces. Dates left blank are zero; money left blank is
// 0.00, but for Worth and Asking, which are nil.
type Piece struct {
	At           fault.Place
	ID           string
	Kind         string
	Description  string
	Set          string // pieces meant to be sold together
	How          How
	GotOn        calendar.Date // of a lot's piece: the lot's
	From         string
	Price        money.Cents // before tax; 0.00 for one of a lot
	TaxPaid      money.Cents
	Pickup       money.Cents
	Lot          string
	Worth        *money.Cents
	Area         *big.Rat // square feet (square metres) to be finished, to 0.01; nil where unknown
	AreaFrom     AreaFrom
	Schedule     string // its finishing schedule as Schedules spells it; blank: none
	StartedOn    calendar.Date
	FinishedOn   calendar.Date
	ListedOn     calendar.Date
	Asking       *money.Cents
	Made         int    // year; 0 unknown
	OldFinish    string // clear, painted, none; blank unknown
	Condition    string // as found: good, fair, rough; blank unknown
	PhotoBefore  string
	PhotoAfter   string
	Receipt      string
	SoldOnOwnRow bool // its Sales line stood on the Pieces row
}

// Lot is several pieces bought for one price.
type Lot struct {
	At      fault.Place
	ID      string
	GotOn   calendar.Date
	From    string
	Price   money.Cents
	Fees    money.Cents // buyer's premium
	TaxPaid money.Cents
	Pickup  money.Cents
	ShareBy string // worth, equal; blank: worth where every piece has one, else equal
	Receipt string
}

// Total is what is shared over the lot's pieces.
func (l Lot) Total() money.Cents { return l.Price + l.Fees + l.TaxPaid + l.Pickup }

// Surface is one part of a piece whose area is worked out. Lengths are in
// inches (centimetres); what a shape does not use is nil.
type Surface struct {
	At     fault.Place
	Piece  string
	Part   string
	Shape  string
	Count  *big.Rat // 1 where blank
	Width  *big.Rat
	Height *big.Rat
	Top    *big.Rat
	Bottom *big.Rat
	Sides  int
	Faces  *big.Rat // 1 where blank
	Relief *big.Rat // 1 where blank
}

// ShareBy is what a total is shared over pieces by: a supply by one of the
// first four.
type ShareBy string

// The bases of sharing.
const (
	ByArea   ShareBy = "area"
	ByBench  ShareBy = "bench" // coated area of all supplies on the piece that month
	ByHours  ShareBy = "hours"
	ByPieces ShareBy = "pieces"
)

// Supply is one line of Supplies.
type Supply struct {
	At        fault.Place
	Name      string
	Group     string
	Container string // as typed: 1 qt
	Unit      string // the container's unit in the singular: qt, sheet
	Size      *big.Rat
	ShareBy   ShareBy
	Coverage  *big.Rat // stated, per container, in what it is shared by; nil where blank or all
	UseAll    bool     // coverage `all`: used up by the month's work
	Starting  *big.Rat // the group's starting coverage per container; nil where it has none
	Stays     bool     // stays on the piece
	Caution   string   // blank: the group's
}

// Purchase is a line of supplies bought, or taken back where negative.
type Purchase struct {
	At      fault.Place
	On      calendar.Date
	Supply  string
	Amount  *big.Rat // containers of the supply's usual size; negative: taken back
	Holds   *big.Rat // what one of the line's containers holds, in those of the usual size; nil: one
	Cost    money.Cents
	TaxPaid money.Cents
	From    string
	Receipt string
}

// Total is the line with its tax.
func (p Purchase) Total() money.Cents { return p.Cost + p.TaxPaid }

// Opening is a supply already there when the books began.
type Opening struct {
	At       fault.Place
	On       calendar.Date
	Supply   string
	Amount   *big.Rat // containers
	Cost     money.Cents
	Deducted bool // already an expense of an earlier year: comes in at 0.00
}

// ScheduleLine is one supply of a finishing schedule.
type ScheduleLine struct {
	At       fault.Place
	Schedule string
	Supply   string
	Coats    *big.Rat
}

// Use is a supply put on pieces. A line that names a schedule has become one
// Use for each of the schedule's lines, coats multiplied.
type Use struct {
	At       fault.Place
	On       calendar.Date
	Pieces   []string
	Supply   string
	Schedule string   // where it came from one
	Area     *big.Rat // of all its pieces together; nil: each one's own
	Coats    *big.Rat
	Amount   *big.Rat // measured, in containers; nil: shared
	Bare     bool     // Amount was written without a unit
}

// Part is hardware, wood or outside work for certain pieces.
type Part struct {
	At      fault.Place
	On      calendar.Date
	Pieces  []string
	What    string
	Cost    money.Cents // negative: money back
	TaxPaid money.Cents
	Outside bool // outside work
	From    string
	Receipt string
}

// Hours is time worked, on pieces or (no pieces) for the shop.
type Hours struct {
	At     fault.Place
	On     calendar.Date
	Pieces []string
	Hours  *big.Rat
	Task   string
	OwnRow bool // on the piece's own row of Pieces
}

// Trip is a drive, for pieces or (no pieces) for the shop.
type Trip struct {
	At      fault.Place
	On      calendar.Date
	Miles   *big.Rat // km where the shop is metric
	Purpose string
	To      string
	Tolls   money.Cents
	Pieces  []string
	Receipt string
}

// Count is what was left on the shelf.
type Count struct {
	At        fault.Place
	On        calendar.Date
	Supply    string
	Left      *big.Rat // containers
	Discarded *big.Rat // containers; nil: nothing said
	Bare      bool     // Left was written without a unit
}

// Closes is the month a count closes: one of the 1st to 5th is the month before's.
func (c Count) Closes() calendar.Month {
	if c.On.Day <= 5 {
		return c.On.InMonth() - 1
	}
	return c.On.InMonth()
}

// Move is a part taken from one piece for another.
type Move struct {
	At    fault.Place
	On    calendar.Date
	From  string
	To    string
	What  string
	Value money.Cents
}

// Why a piece went unsold.
const (
	Kept             = "kept"
	Donated          = "donated"
	Scrapped         = "scrapped"
	Stolen           = "stolen"
	ReturnedToSeller = "returned to seller"
	GivenBack        = "given back" // a client's
)

// Removal is a piece gone unsold.
type Removal struct {
	At       fault.Place
	On       calendar.Date
	Piece    string
	Why      string
	Received money.Cents
	Value    *money.Cents // fair value that day
	Receipt  string
}
