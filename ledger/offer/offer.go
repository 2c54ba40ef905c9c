package offer

import (
	"math"
	"math/big"
	"slices"

	"piecebook/ledger/costing"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/ledger/statistics"
)

// Level is the chance that the ranges hold.
const Level = kinds.Level

// Ask is the piece in view. What is nil or blank is not known of it.
type Ask struct {
	Kind      string
	Area      *big.Rat // sq ft (sq m)
	Condition string
	Channel   string
	Hours     *big.Rat     // the owner's guesses
	Parts     *money.Cents // with outside work
	SellsFor  *money.Cents
	Asked     *money.Cents // what the seller wants, in all
}

// Offer is the answer. Amounts are cents.
type Offer struct {
	Kind   string // as the books spell it
	Target money.Cents
	Costs  kinds.ShopCosts
	Past   []Past // the kind's pieces, by the day they left
	Sales  int    // of the kind: sales and losses it rests on
	Others int    // of other kinds
	// Lines go from what such pieces brought down to the top offer, which is the
	// last one: each is whole cents, and the sums are sums of what stands above.
	Lines []Line
	Known []Known // what is known of this one, and what each moves
	// Unshown were asked about, and nothing on record shows what they do.
	Unshown []string
	Top     Price // at the target, after usual shop costs
	// Idle is the expected worth at the target before shop costs, for an hour
	// that would else bring nothing; Even that of working for nothing.
	Idle, Even float64
	Asked      *Asked
	// NoHours: no hours are written down for any piece and none were given, so
	// only Even can be given.
	NoHours bool
}

// Price is a most to pay, and where the worth of the one next piece lies.
// Where Known is false there was too little to tell how sure it is.
type Price struct {
	At        float64 // the expected worth
	Known     bool
	Low, High float64 // with a chance of Level
	// Cautious is what leaves three chances in four that the piece is worth it.
	Cautious float64
}

// Asked is the answer to what the seller wants.
type Asked struct {
	Price  money.Cents
	Buy    bool    // no more than the top offer
	Chance float64 // that the piece is worth it; NaN where not known
}

// WalkAway says that not even a free piece would reach the target.
func (o Offer) WalkAway() bool { return o.Top.At <= 0 }

// New says that no piece of the kind has been sold yet.
func (o Offer) New() bool {
	for _, p := range o.Past {
		if p.Life.Sold() {
			return false
		}
	}
	return true
}

// Past is a piece of the kind and what it would have been right to pay.
type Past struct {
	Life  kinds.Life
	Timed bool    // counts by the hour
	Worth float64 // at the target after usual shop costs; only where Timed
}

// Make works the offer out from all the ledger's pieces that have left.
func Make(l *costing.Ledger, ask Ask) Offer { return HistoryOf(l).Offer(ask) }

// Offer works out the most to pay for a piece.
func (h History) Offer(ask Ask) Offer {
	o := Offer{Kind: ask.Kind, Target: h.Target, Costs: h.Costs}
	for i, group := range h.groups {
		if i == h.group(ask.Kind) {
			o.Kind, o.Sales = h.names[i], len(group)
		} else {
			o.Others += len(group)
		}
	}
	anHour := float64(h.Target + h.Costs.AnHour)
	for _, x := range h.pieces[o.Kind] {
		p := Past{Life: x, Timed: x.ByHour()}
		if p.Timed {
			hours, _ := x.Hours.Float64()
			p.Worth = float64(x.Result+x.Acquisition) - anHour*hours
		}
		o.Past = append(o.Past, p)
	}
	o.NoHours = ask.Hours == nil && !h.timed()
	guesses := h.guesses(ask)
	top := h.valueOf(ask, guesses, anHour)
	o.Top = top.price()
	o.Idle = h.valueOf(ask, guesses, float64(h.Target)).at
	o.Even = h.valueOf(ask, guesses, 0).at
	o.Known, o.Unshown = top.known, ask.unshown(top.known)
	o.lines(top)
	if ask.Asked != nil {
		o.Asked = &Asked{*ask.Asked, float64(*ask.Asked) <= o.Top.At, math.NaN()}
		if o.Top.Known {
			o.Asked.Chance = top.belief.Above(float64(*ask.Asked))
		}
	}
	return o
}

// unshown are what was asked about that moves nothing.
func (a Ask) unshown(known []Known) []string {
	var out []string
	for _, x := range []struct {
		what  string
		given bool
	}{{Area, a.Area != nil}, {Condition, a.Condition != ""}, {Channel, a.Channel != ""}} {
		if x.given && !slices.ContainsFunc(known, func(k Known) bool { return k.What == x.what }) {
			out = append(out, x.what)
		}
	}
	return out
}

// timed says that hours are written down for something sold.
func (h History) timed() bool {
	for _, group := range h.groups {
		for _, o := range group {
			if o.sold && o.timed {
				return true
			}
		}
	}
	return false
}

// How far pieces of one kind usually differ in what they were worth, as a
// share of the shop's usual receipts for one, and how many readings that
// counts for beside the shop's own: common practice, no source.
const (
	usualScatter  = 0.30
	usualReadings = 4
)

// value is the worth of the piece in view at so much an hour, and how it came about.
type value struct {
	anHour  float64
	from    []outcome // whose average it starts at: the kind's, or where it has none the shop's
	average float64   // their worth
	drawn   float64   // after drawing toward the shop's
	today   float64   // after the trend and the season of the day it may be sold
	at      float64   // after what is known of this one
	known   []Known
	fitted  bool // there was scatter to judge by
	belief  statistics.Belief
}

// valueOf draws the worth of the piece in view.
func (h History) valueOf(ask Ask, all guesses, anHour float64) value {
	has := byHour
	if anHour == 0 || !h.timed() {
		has = any
	}
	g := all.at(anHour, h.sellingShare())
	v := value{anHour: anHour}
	readings, from := h.readings(ask.Kind, has, func(o outcome) float64 { return o.worth(anHour) })
	rest := g.without(readings, from)
	v.from = from[0]
	if len(v.from) == 0 {
		for _, group := range from {
			v.from = append(v.from, group...)
		}
	}
	v.average = mean(v.from, func(o outcome) float64 { return o.worth(anHour) })
	if len(v.from) == 0 {
		v.average = 0
	}
	columns := h.columns(ask, from)
	usual := usualScatter * columns.sizes.Receipts * columns.sizes.Usual
	if len(g) > 0 {
		usual = 0 // the guesses take the most of it away
	}
	fit, ok := columns.fit(rest, usual)
	ordinary, moved, variance := g.total()
	if !ok {
		v.drawn, v.today, v.at, v.known = v.average, v.average, v.average+moved, g.known()
		return v
	}
	v.fitted = true
	v.drawn = fit.next(columns.usual()).Centre() + ordinary
	v.belief = fit.next(columns.here).Moved(ordinary+moved, variance)
	v.at = v.belief.Centre()
	v.known = append(fit.known(), g.known()...)
	if h.sizedByHours(ask) {
		size := columns.sizes.Hours[0]
		k := Known{What: Hours, Moves: v.drawn - v.drawn/size, Usual: columns.sizes.Usual,
			Taken: size * columns.sizes.Usual, Off: usualHoursOff}
		v.drawn -= k.Moves
		v.known = append(v.known, k)
	}
	v.today = v.drawn + fit.inTime()
	return v
}

// price is the value as a most to pay.
func (v value) price() Price {
	p := Price{At: v.at, Known: v.fitted, Low: math.NaN(), High: math.NaN(), Cautious: math.NaN()}
	if v.fitted {
		in := v.belief.Within(Level)
		p.Low, p.High, p.Cautious = in.Low, in.High, v.belief.Quantile(0.25)
	}
	return p
}
