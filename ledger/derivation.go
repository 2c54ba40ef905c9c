package ledger

import (
	"math/big"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// Derivation says how the cents of a posting, or of a total that is shared,
// came about. It holds no sentence: the report makes the words. What is a
// share stands in the posting's Of and Line, not here.
type Derivation struct {
	Method Method `json:"method"`
	// the owner's own, whole and untouched: what was bought, a trip's purpose, a tax period, a lot
	Words   string   `json:"words,omitempty"`
	Field   Field    `json:"field,omitempty"`   // which amount of its record it is; blank where Method tells
	Amounts []Amount `json:"amounts,omitempty"` // named amounts, in the order they are shown
	// Quantity is how much, in Unit: containers bought, miles driven, the
	// containers of a supply share, the year of a write-off; nil where none.
	Quantity *big.Rat `json:"quantity,omitempty"`
	Unit     string   `json:"unit,omitempty"`   // a container as typed; miles or km; the life of equipment in years
	Whole    *big.Rat `json:"whole,omitempty"`  // of how many: the years of a write-off
	Rate     *big.Rat `json:"rate,omitempty"`   // per unit: a mileage rate in currency units; else percent
	Weight   *big.Rat `json:"weight,omitempty"` // of a supply share, what its use counts in the Draw's By; nil: measured
	Other    string   `json:"other,omitempty"`  // the other piece of a move
	Table    string   `json:"table,omitempty"`  // of a write-off, whose percentages
	// of a write-off, the percent of its year that counts in the year of a sale; nil: all
	Part *big.Rat `json:"part,omitempty"`
	Came How      `json:"came,omitempty"` // of a piece, how it came
}

// Method is how an amount was reached. The list is closed.
type Method string

// The methods. The fields that each uses besides Words are named with it.
const (
	Typed        Method = "typed"               // as the record says; Words or Field
	PaidBack     Method = "given back"          // as a refund or return says; Field
	FeeWorkedOut Method = "fee worked out"      // Field; AmountBase × Rate % + AmountFixed, rounded half to even
	FeeLeast     Method = "least fee"           // Field; AmountLeast, which is above what the percentage gives
	OwnPrice     Method = "own price"           // a piece's; Amounts, Came
	LotPrice     Method = "lot"                 // a lot's whole cost; Words is the lot
	MovedTo      Method = "moved to"            // Other
	MovedFrom    Method = "moved from"          // Other
	Driven       Method = "driven"              // Quantity in Unit × Rate + AmountTolls
	AtOnce       Method = "written off at once" // equipment
	// equipment: AmountCost × Rate % (× Part %), in year Quantity of Whole, life Unit, Table
	OfTable        Method = "of a table"
	RestOfTable    Method = "rest of a table"     // the same in its last year: what is left of AmountCost
	FirstYear      Method = "first year"          // equipment: AmountCost, all of it in the year bought
	StockedBefore  Method = "there at the start"  // AmountDeducted where it was deducted before
	BoughtSupply   Method = "supply bought"       // Quantity of Unit; AmountCost, AmountTax
	SentBack       Method = "supply taken back"   // Quantity of Unit; AmountRefund, AmountHeld
	SentBackLoss   Method = "loss on taking back" // AmountRefund
	UsedSupply     Method = "supply used"         // Quantity containers; Weight
	LostSupply     Method = "supply lost"         // Quantity containers
	Recounted      Method = "counted anew"        // AmountCounted less AmountBefore
	Reestimated    Method = "estimated afresh"    // AmountReestimated less AmountBefore
	CountedAbove   Method = "counted above"       // Quantity of Unit
	BookCost       Method = "book cost"           // at the end of the posting's month
	BookCostBefore Method = "book cost before"    // at the end of the month before it
	CostAfter      Method = "cost after"          // of the month, on a piece that has left
	Overhead       Method = "overheads"           // of the posting's month
	// Corrected is what the records now give for closed months less what was
	// closed for them; Quantity is the calendar year of those months. Of what a
	// piece left or came back at, AmountNotStaying.
	Corrected Method = "corrections to closed months"
)

// Field is which amount of a record a Derivation is about.
type Field string

// The amounts of a Sales line, a removal and a TaxPaid line.
const (
	FieldPrice        Field = "price"
	FieldDelivery     Field = "delivery charged"
	FieldSalesTax     Field = "sales tax"
	FieldFee          Field = "fee"
	FieldCardFee      Field = "card fee"
	FieldDeliveryCost Field = "delivery cost"
	FieldReceived     Field = "received"
	FieldTaxPaid      Field = "tax paid"
	FieldAllowance    Field = "allowance"
)

// Amount is a named amount within a Derivation.
type Amount struct {
	Name  AmountName  `json:"name,omitempty"`
	Cents money.Cents `json:"amount"`
}

// AmountName is what an Amount is. The list is closed.
type AmountName string

// The names of amounts.
const (
	AmountPrice       AmountName = "price"
	AmountTax         AmountName = "tax"
	AmountPickup      AmountName = "pickup"
	AmountCost        AmountName = "cost"
	AmountTolls       AmountName = "tolls"
	AmountBase        AmountName = "base"    // what a fee's percentage is taken of
	AmountFixed       AmountName = "fixed"   // a fee's fixed part
	AmountLeast       AmountName = "least"   // a channel's least fee
	AmountRefund      AmountName = "refund"  // what came for a supply taken back
	AmountHeld        AmountName = "held"    // what the shelf held that at
	AmountBefore      AmountName = "before"  // posted in earlier months
	AmountCounted     AmountName = "counted" // what earlier uses cost by the count
	AmountReestimated AmountName = "afresh"  // what earlier uses cost by the fresh estimate
	AmountDeducted    AmountName = "deducted"
	// AmountNotStaying is the part of it that is supplies that do not stay on
	// the piece.
	AmountNotStaying AmountName = "supplies that do not stay"
)

// Amount is the named amount, 0 where there is none.
func (d Derivation) Amount(name AmountName) money.Cents {
	for _, p := range d.Amounts {
		if p.Name == name {
			return p.Cents
		}
	}
	return 0
}

// Draw is what a shared supply total was drawn as.
type Draw struct {
	Container  string   `json:"container,omitempty"`  // as the Supplies row says: 1 qt
	Size       *big.Rat `json:"size,omitempty"`       // units of a container; nil where it says none
	Containers *big.Rat `json:"containers,omitempty"` // drawn in all
	Rest       *big.Rat `json:"rest,omitempty"`       // of them, what the weights share: neither measured nor lost
	By         ShareBy  `json:"by,omitempty"`         // what the weights are
	Unit       string   `json:"unit,omitempty"`       // of areas
	Weight     *big.Rat `json:"weight,omitempty"`     // Σ of the weights
}

// Span is the months that a shared total covers; the same month twice where it
// is one.
func (s *Shared) Span() (first, last calendar.Month) {
	if s.Opened == 0 || s.Opened >= s.Month {
		return s.Month, s.Month
	}
	return s.Opened, s.Month
}
