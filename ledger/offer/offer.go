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

// Level is the chance that the intervals hold.
const Level = kinds.Level

// Ask is the piece in view. What is nil is taken from the past.
type Ask struct {
	Kind  string
	Area  *big.Rat // sq ft (sq m)
	Usual *big.Rat // the area used where Area is nil and the kind has no past
	Hours *big.Rat
	Price *money.Cents // what it is expected to sell for
}

// Offer is the answer. Amounts are cents.
type Offer struct {
	Kind     string
	Target   money.Cents // an hour
	Past     []Past      // the kind's pieces it rests on, by the day they left
	Others   int         // pieces of other kinds that steadied it
	Inputs   []Input
	Coated   float64 // its area × all coats of all supplies
	Supplies []Supply
	// Lines go from receipts down to the top offer, which is the last one: each
	// amount is whole cents, and the two most to pay are the sums of what stands
	// above them.
	Lines  []Line
	Top    Answer  // at the target
	Even   Answer  // at break-even: working for nothing
	Swings []Swing // largest first
	// NoHours: no hours are written down for any piece and none were given, so
	// the hours count for nothing and only break-even can be told.
	NoHours bool
}

// Answer is a most to pay and where, for a single piece, it would turn out to
// have been. Where Known is false there was too little to tell how sure it is.
type Answer struct {
	At        float64
	Known     bool
	Low, High float64 // with a chance of Level
	// Cautious is what leaves three chances in four of doing at least so well.
	Cautious float64
}

// WalkAway says that not even a free piece would pay the target.
func (o Offer) WalkAway() bool { return o.Top.At <= 0 }

// New says that no piece of the kind has been sold yet.
func (o Offer) New() bool {
	return !slices.ContainsFunc(o.Past, func(p Past) bool { return p.Life.Sold() })
}

// Past is a piece of the kind and what it would have been worth paying.
type Past struct {
	Life  kinds.Life
	Timed bool
	Worth float64 // at the target, known afterwards; only where Timed
}

// Line is one step from what it brings to what it is worth.
type Line struct {
	Label string
	Cents money.Cents
	How   string
}

// Swing is what one usual difference of an input does to the top offer.
type Swing struct {
	What   string
	By     float64 // the usual difference: the scatter of past pieces
	Unit   string  // of By: money, hours, area
	Change float64 // of the top offer, either way
}

// The labels of inputs.
const (
	Receipts = "what it sells for"
	Selling  = "selling costs"
	Parts    = "parts and outside work"
	Trips    = "trips"
	Lost     = "never sold"
	Hours    = "hours of work"
	Area     = "area"
	Supplies = "supplies"
)

// Make works the offer out from all the ledger's pieces that have left.
func Make(l *costing.Ledger, ask Ask) Offer {
	p := gather(l, ask.Kind)
	o := Offer{Kind: p.name, Target: l.Books.Settings.TargetHourly, Others: len(p.all) - len(p.mine)}
	in := p.inputs(ask)
	o.Inputs = in.list()
	target := float64(o.Target)
	o.Supplies, o.Coated = p.supplies(l, in.area.Used, in.hours.Used)
	var supplies money.Cents
	for _, s := range o.Supplies {
		supplies += s.Cents
	}
	o.NoHours = in.hours.N == 0 && math.IsNaN(in.hours.Shop) && !in.hours.Given
	o.lines(in, supplies, p)
	for _, x := range p.mine {
		past := Past{Life: x, Timed: x.Timed()}
		if past.Timed {
			past.Worth = worth(x, target)
		}
		o.Past = append(o.Past, past)
	}
	p.sure(&o.Top, target)
	p.sure(&o.Even, 0)
	o.swing(in, float64(supplies))
	return o
}

// worth is what it would have been right to pay for a piece that has left.
func worth(x kinds.Life, target float64) float64 {
	h, _ := x.Hours.Float64()
	return float64(x.Result+x.Acquisition) - target*h
}

// past is the pieces an offer rests on.
type past struct {
	name   string       // of the kind, as the books spell it
	all    []kinds.Life // that count for kinds, of every kind
	mine   []kinds.Life
	groups [][]kinds.Life // all by kind, by name; mine first
}

func gather(l *costing.Ledger, kind string) past {
	p := past{name: kind, groups: [][]kinds.Life{nil}}
	var names []string
	byName := map[string][]kinds.Life{}
	for _, x := range kinds.Lives(l) {
		if kinds.SameKind(x.Kind, kind) {
			p.name = x.Kind
		}
		if !x.Judged {
			continue
		}
		p.all = append(p.all, x)
		if kinds.SameKind(x.Kind, kind) {
			p.mine = append(p.mine, x)
			continue
		}
		if byName[x.Kind] == nil {
			names = append(names, x.Kind)
		}
		byName[x.Kind] = append(byName[x.Kind], x)
	}
	slices.SortFunc(p.mine, kinds.ByLeaving)
	p.groups[0] = p.mine
	slices.Sort(names)
	for _, n := range names {
		p.groups = append(p.groups, byName[n])
	}
	return p
}

// readings are a figure of each kind's pieces, where it has one.
func (p past) readings(of func(kinds.Life) (float64, bool)) [][]float64 {
	out := make([][]float64, len(p.groups))
	for i, pieces := range p.groups {
		for _, x := range pieces {
			if v, ok := of(x); ok {
				out[i] = append(out[i], v)
			}
		}
	}
	return out
}

// sure puts an interval round an answer: as wide as one more piece of the
// kind scatters by what its pieces were worth, known afterwards.
func (p past) sure(a *Answer, target float64) {
	h, ok := statistics.Draw(p.readings(func(x kinds.Life) (float64, bool) { return worth(x, target), x.Timed() || target == 0 }))
	if !ok {
		return
	}
	next := h.Next(0)
	middle := next.Centre()
	in := next.Within(Level)
	a.Known = true
	a.Low, a.High = a.At+in.Low-middle, a.At+in.High-middle
	a.Cautious = a.At + next.Quantile(0.25) - middle
}
