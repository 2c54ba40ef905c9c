package ledger

import (
	"math/big"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// Settings are the shop's choices; every one has a default.
type Settings struct {
	Shop         string
	Currency     string // ISO 4217 code
	Units        string // us or metric
	DayFirst     bool   // dates = "dmy"
	DecimalComma bool
	Paper        string // letter or a4
	TargetHourly money.Cents
	OverheadBy   string // hours, area or pieces
	Coverage     string // own or stated
	TaxSupplies  string // with the piece, or when used
	TaxStock     string // materials or inventory
	ReceiptsOver money.Cents
	Mileage      []MileageRate // built-in and own, by date, each from its day on
	InService    calendar.Date // of the vehicle
	YearlyTotals map[string]*big.Rat
	Home         Home
	Sheets       map[string]string            // the owner's sheet or file name -> table
	Columns      map[string]map[string]string // table -> the owner's header -> column
	Year         int                          // of days written without one; 0: not set
	ReadStruck   bool                         // crossed_out = "read": what is crossed out counts too
	KindFromName bool                         // kind_from = "piece": a piece without a kind has that of its name
	Names        map[string]string            // a misspelling -> the piece, lot, set or supply meant
	Items        map[string]string            // words on a slip -> supply
}

// Home is what the shop uses of the home, in square feet whatever the units;
// nil: not given.
type Home struct {
	Shop, Whole *big.Rat
	Separate    bool // the shop is a building of its own
}

// MileageRate is money for a mile (in a metric shop: a kilometre) from a day on.
type MileageRate struct {
	From    calendar.Date
	PerMile *big.Rat // currency units, 0.725 for 72.5 cents
	Own     bool     // from settings.toml
	Source  string   // who sets a built-in one, and where
	Foreign string   // the currency that a built-in one is set in, where that is not the shop's: USD
}

// Metric says that areas are square metres and lengths centimetres.
func (s Settings) Metric() bool { return s.Units == "metric" }

// AreaUnit is the area unit as printed.
func (s Settings) AreaUnit() string {
	if s.Metric() {
		return "sq m"
	}
	return "sq ft"
}

// DistanceUnit is the distance unit as printed.
func (s Settings) DistanceUnit() string {
	if s.Metric() {
		return "km"
	}
	return "miles"
}

// Decimal is a number with the shop's decimal sign.
func (s Settings) Decimal(number string) string {
	if s.DecimalComma {
		return strings.ReplaceAll(number, ".", ",")
	}
	return number
}

// Amount is money within a sentence.
func (s Settings) Amount(c money.Cents) string {
	if s.DecimalComma {
		return strings.NewReplacer(".", ",", ",", ".").Replace(c.Grouped())
	}
	return c.Grouped()
}
