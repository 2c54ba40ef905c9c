package costing

import (
	"maps"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// State is what one month hands to the next: the closing of one month is the
// opening of the following one. An empty shop, the Openings table and a closed
// month are all a State, and it survives being written as JSON and read back.
type State struct {
	Month  calendar.Month    `json:"month"` // the month closed
	Shelf  map[string]Shelf  `json:"shelf"`
	Pieces Overlay[Standing] `json:"pieces"` // by piece
}

// Standing is where a piece stands and the book cost it stands at.
type Standing struct {
	Where  string        `json:"where"` // InStock, Sold, or why it was removed
	Book   money.Cents   `json:"book"`
	SoldOn calendar.Date `json:"sold_on"` // of the sale it is out on
}

// Where a piece stands; removed ones carry their ledger.Removal why.
const (
	NotHere = ""
	InStock = "in stock"
	Sold    = "sold"
)

// Gone says that the piece is in stock no more.
func (s Standing) Gone() bool { return s.Where != NotHere && s.Where != InStock }

// Layer is one purchase line kept separate on the shelf: so many
// containers for so much, of which Drawn containers have cost DrawnCents. On and
// At say which purchase it was, for anyone who asks why; no figure depends on them.
// A layer is never changed: drawing on it puts another in its place, so that
// months share those that they do not draw on.
type Layer struct {
	Amount     *big.Rat      `json:"amount"`
	Cents      money.Cents   `json:"cents"`
	Drawn      *big.Rat      `json:"drawn"`
	DrawnCents money.Cents   `json:"drawn_cents"`
	On         calendar.Date `json:"on"`
	At         fault.Place   `json:"at"`
}

// Line is one use's claim on a supply within a span: a measured amount in
// containers, or a weight (coated area, hours, pieces) to share the rest by.
type Line struct {
	Key      Key           `json:"key"`
	Measured bool          `json:"measured"`
	Weight   *big.Rat      `json:"weight"`
	Source   []fault.Place `json:"source"`
}

// Key orders the lines of a share call: by date, then piece; a month's weight
// stands before its first day, which Day 0 says.
type Key struct {
	Month calendar.Month `json:"month"`
	Day   int            `json:"day"`
	Piece string         `json:"piece"`
}

// Shelf is one supply's shelf. Layers is how it stands by the estimates since
// the last count. Base is how it stood when the span opened, with what was
// bought and taken back since but nothing drawn: what a count, and a fresh
// estimate of the span, start from. Both have the same layers in the same order.
type Shelf struct {
	Layers     []*Layer             `json:"layers"`
	Base       []*Layer             `json:"base"`
	Lines      []Line               `json:"lines"`       // the span's uses so far
	Charged    Overlay[money.Cents] `json:"charged"`     // the span's shares so far, by piece
	PoolWeight *big.Rat             `json:"pool_weight"` // own coverage: weights of the counted spans
	PoolRest   *big.Rat             `json:"pool_rest"`   // and the containers they took
	Counted    calendar.Month       `json:"counted"`     // last counted month; 0 none
	Opened     calendar.Month       `json:"opened"`      // first month of the open span
	// Bought is the coverage a container that buying again tells of the open
	// span; nil where it tells none, or another coverage goes before it.
	Bought *big.Rat `json:"bought_coverage,omitempty"`
	// Reestimated is the last month whose purchases had the open span estimated
	// again; 0 none.
	Reestimated calendar.Month `json:"estimated_afresh,omitempty"`
}

// forFold is a state that a fold may go on from: what the fold's months add to
// lists stands in room of its own, whatever else goes on from the same state.
func (s State) forFold() State {
	s.Shelf = maps.Clone(s.Shelf)
	for name, shelf := range s.Shelf {
		shelf.Lines = slices.Clip(shelf.Lines)
		s.Shelf[name] = shelf
	}
	return s
}

// next is a state for the next month of the same fold to work on. The two share
// what they hold: a month appends lines and copies the
// lists that it changes, so that a month's closing is no larger than what happened
// in the month. Fractions are never changed in place either.
func (s State) next(m calendar.Month) State {
	out := State{Month: m, Shelf: maps.Clone(s.Shelf), Pieces: s.Pieces}
	if out.Shelf == nil {
		out.Shelf = map[string]Shelf{}
	}
	return out
}

// Left is what is on the shelf, in containers.
func (s Shelf) Left() *big.Rat { return left(s.Layers) }

// Cents is what the shelf holds at cost.
func (s Shelf) Cents() money.Cents {
	var sum money.Cents
	for _, l := range s.Layers {
		sum += l.Cents - l.DrawnCents
	}
	return sum
}

// OwnCoverage is the shop's own pooled coverage a container, or nil.
func (s Shelf) OwnCoverage() *big.Rat {
	if s.PoolRest == nil || s.PoolRest.Sign() <= 0 {
		return nil
	}
	return new(big.Rat).Quo(s.PoolWeight, s.PoolRest)
}

// Coverage is what one container of the supply is taken to do in a month
// without a count, in what it is shared by, and where that comes from: the
// shop's own counts, what buying again tells, the Supplies row, the group's
// starting figure; with the setting `coverage = "stated"` the row goes first.
// Nil with UsedUp and NoBasis.
func (s Shelf) Coverage(prefer string, supply *ledger.Supply) (*big.Rat, ledger.Basis) {
	known := func(x *big.Rat) bool { return x != nil && x.Sign() > 0 }
	own := s.OwnCoverage()
	switch {
	case supply.UseAll:
		return nil, ledger.UsedUp
	case prefer == "stated" && known(supply.Coverage):
		return supply.Coverage, ledger.Stated
	case known(own):
		return own, ledger.FromOwn
	case known(s.Bought):
		return s.Bought, ledger.FromBuying
	case known(supply.Coverage):
		return supply.Coverage, ledger.Stated
	case known(supply.Starting):
		return supply.Starting, ledger.Starting
	}
	return nil, ledger.NoBasis
}
