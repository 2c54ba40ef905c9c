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

// Stays says of each supply whether it stays on the piece.
func (b *Books) Stays() map[string]bool {
	out := map[string]bool{}
	for s := range Each(b.Supplies) {
		out[s.Name] = s.Stays
	}
	return out
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
	ID           string        `col:"piece"`
	Kind         string        `col:"kind"`
	Description  string        `col:"description"`
	Set          string        `col:"set"` // pieces meant to be sold together
	How          How           `col:"how"`
	GotOn        calendar.Date `col:"got_on"` // of a lot's piece: the lot's
	From         string        `col:"from"`
	Price        money.Cents   `col:"price"` // before tax; 0.00 for one of a lot
	TaxPaid      money.Cents   `col:"tax_paid"`
	Pickup       money.Cents   `col:"pickup"`
	Lot          string        `col:"lot"`
	Worth        *money.Cents  `col:"worth"`
	Area         *big.Rat      `col:"area,area"` // square feet (square metres) to be finished, to 0.01; nil where unknown
	AreaFrom     AreaFrom      `col:"area from"`
	Schedule     string        `col:"schedule"` // its finishing schedule as Schedules spells it; blank: none
	StartedOn    calendar.Date `col:"started_on"`
	FinishedOn   calendar.Date `col:"finished_on"`
	ListedOn     calendar.Date `col:"listed_on"`
	Asking       *money.Cents  `col:"asking"`
	Made         int           `col:"made"`       // year; 0 unknown
	OldFinish    string        `col:"old_finish"` // clear, painted, none; blank unknown
	Condition    string        `col:"condition"`  // as found: good, fair, rough; blank unknown
	PhotoBefore  string        `col:"photo_before"`
	PhotoAfter   string        `col:"photo_after"`
	Receipt      string        `col:"receipt"`
	SoldOnOwnRow bool          // its Sales line stood on the Pieces row
}

// Lot is several pieces bought for one price.
type Lot struct {
	At      fault.Place
	ID      string        `col:"lot"`
	GotOn   calendar.Date `col:"got_on"`
	From    string        `col:"from"`
	Price   money.Cents   `col:"price"`
	Fees    money.Cents   `col:"fees"` // buyer's premium
	TaxPaid money.Cents   `col:"tax_paid"`
	Pickup  money.Cents   `col:"pickup"`
	ShareBy string        `col:"share_by"` // worth, equal; blank: worth where every piece has one, else equal
	Receipt string        `col:"receipt"`
}

// Total is what is shared over the lot's pieces.
func (l Lot) Total() money.Cents { return l.Price + l.Fees + l.TaxPaid + l.Pickup }

// Surface is one part of a piece whose area is worked out. Lengths are in
// inches (centimetres); what a shape does not use is nil.
type Surface struct {
	At     fault.Place
	Piece  string   `col:"piece"`
	Part   string   `col:"part"`
	Shape  string   `col:"shape"`
	Count  *big.Rat `col:"count"` // 1 where blank
	Width  *big.Rat `col:"width"`
	Height *big.Rat `col:"height"`
	Top    *big.Rat `col:"top"`
	Bottom *big.Rat `col:"bottom"`
	Sides  int      `col:"sides"`
	Faces  *big.Rat `col:"faces"`  // 1 where blank
	Relief *big.Rat `col:"relief"` // 1 where blank
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
	Name      string `col:"supply"`
	Group     string `col:"group"`
	Container string `col:"container"` // as typed: 1 qt
	Unit      string // the container's unit in the singular: qt, sheet
	Size      *big.Rat
	ShareBy   ShareBy  `col:"share_by"`
	Coverage  *big.Rat `col:"coverage"`     // stated, per container, in what it is shared by; nil where blank or all
	UseAll    bool     `col:"coverage,all"` // used up by the month's work
	Starting  *big.Rat // the group's starting coverage per container; nil where it has none
	Stays     bool     `col:"stays"`   // stays on the piece
	Caution   string   `col:"caution"` // blank: the group's
}

// Purchase is a line of supplies bought, or taken back where negative.
type Purchase struct {
	At      fault.Place
	On      calendar.Date `col:"bought_on"`
	Supply  string        `col:"supply"`
	Amount  *big.Rat      `col:"containers"` // containers of the supply's usual size; negative: taken back
	Holds   *big.Rat      // what one of the line's containers holds, in those of the usual size; nil: one
	Cost    money.Cents   `col:"cost"`
	TaxPaid money.Cents   `col:"tax_paid"`
	From    string        `col:"from"`
	Receipt string        `col:"receipt"`
}

// Total is the line with its tax.
func (p Purchase) Total() money.Cents { return p.Cost + p.TaxPaid }

// Opening is a supply already there when the books began.
type Opening struct {
	At       fault.Place
	On       calendar.Date `col:"on"`
	Supply   string        `col:"supply"`
	Amount   *big.Rat      `col:"amount"` // containers
	Cost     money.Cents   `col:"cost"`
	Deducted bool          `col:"deducted"` // already an expense of an earlier year: comes in at 0.00
}

// ScheduleLine is one supply of a finishing schedule.
type ScheduleLine struct {
	At       fault.Place
	Schedule string   `col:"schedule"`
	Supply   string   `col:"supply"`
	Coats    *big.Rat `col:"coats"`
}

// Use is a supply put on pieces. A line that names a schedule has become one
// Use for each of the schedule's lines, coats multiplied.
type Use struct {
	At       fault.Place
	On       calendar.Date `col:"used_on"`
	Pieces   []string      `col:"pieces"`
	Supply   string        `col:"supply"`
	Schedule string        `col:"schedule"` // where it came from one
	Area     *big.Rat      `col:"area"`     // of all its pieces together; nil: each one's own
	Coats    *big.Rat      `col:"coats"`
	Amount   *big.Rat      `col:"amount"` // measured, in containers; nil: shared
	Bare     bool          // Amount was written without a unit
}

// Part is hardware, wood or outside work for certain pieces.
type Part struct {
	At      fault.Place
	On      calendar.Date `col:"bought_on"`
	Pieces  []string      `col:"pieces"`
	What    string        `col:"what"`
	Cost    money.Cents   `col:"cost"` // negative: money back
	TaxPaid money.Cents   `col:"tax_paid"`
	Outside bool          `col:"type,part|outside work"` // outside work
	From    string        `col:"from"`
	Receipt string        `col:"receipt"`
}

// Hours is time worked, on pieces or (no pieces) for the shop.
type Hours struct {
	At     fault.Place
	On     calendar.Date `col:"worked_on"`
	Pieces []string      `col:"pieces"`
	Hours  *big.Rat      `col:"hours,hours"`
	Task   string        `col:"task"`
	OwnRow bool          // on the piece's own row of Pieces
}

// Trip is a drive, for pieces or (no pieces) for the shop.
type Trip struct {
	At      fault.Place
	On      calendar.Date `col:"on"`
	Miles   *big.Rat      `col:"miles"` // km where the shop is metric
	Purpose string        `col:"purpose"`
	To      string        `col:"to"`
	Tolls   money.Cents   `col:"tolls"`
	Pieces  []string      `col:"pieces"`
	Receipt string        `col:"receipt"`
}

// Count is what was left on the shelf.
type Count struct {
	At        fault.Place
	On        calendar.Date `col:"counted_on"`
	Supply    string        `col:"supply"`
	Left      *big.Rat      `col:"left"`      // containers
	Discarded *big.Rat      `col:"discarded"` // containers; nil: nothing said
	Bare      bool          // Left was written without a unit
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
	On    calendar.Date `col:"moved_on"`
	From  string        `col:"from_piece"`
	To    string        `col:"to_piece"`
	What  string        `col:"what"`
	Value money.Cents   `col:"value"`
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
	On       calendar.Date `col:"removed_on"`
	Piece    string        `col:"piece"`
	Why      string        `col:"why"`
	Received money.Cents   `col:"received"`
	Value    *money.Cents  `col:"value"` // fair value that day
	Receipt  string        `col:"receipt"`
}
