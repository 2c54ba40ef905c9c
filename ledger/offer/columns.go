package offer

import (
	"math"

	"piecebook/ledger/kinds"
	"piecebook/ledger/statistics"
)

// What is known of the piece in view.
const (
	Time      = "time" // a trend and a season
	Area      = "area"
	Condition = "condition"
	Channel   = "channel"
	SellsFor  = "sells for"
	Hours     = "hours"
	Parts     = "parts"
)

// Known is something known of the piece in view and what it moves.
type Known struct {
	What  string
	Moves float64 // the top offer, cents
	On    int     // pieces or sales on record that show it; of guesses: earlier ones
	// Of the owner's guesses, in cents or hours: what such pieces usually have,
	// what is counted on (between the two), and how far such a guess is usually
	// off, as a share of it.
	Usual, Taken, Off float64
}

// The priors of what may move a piece's worth, chosen by what the simulator
// shows, not by a source: the chance that it moves nothing, and how far one
// step of it moves where it does, in usual differences between pieces.
const (
	someNone   = 0.5
	areaEffect = 0.7 // for one usual difference of area
	restEffect = 1.0 // for a condition or a channel
	farArea    = 3.0 // no area counts as further off than so many usual differences
)

// columns are what moves the worth of pieces beside their kind.
type columns struct {
	sizes kinds.Sizes // of the kinds, the asked one first
	list  []column
	here  []float64 // of the piece in view, as the list is
}

type column struct {
	statistics.Column
	what string
	on   int     // pieces or sales that show it
	here float64 // where the piece in view stands
	own  float64 // the mean of the asked kind's
}

func (h History) columns(ask Ask, from [][]outcome) *columns {
	c := &columns{sizes: h.sizesFor(ask.Kind)}
	if h.sizedByHours(ask) {
		hours, _ := ask.Hours.Float64()
		c.sizes.Hours[0] = hours / c.sizes.Usual
	}
	for _, t := range kinds.Times {
		c.add(column{what: Time, here: c.sizes.Scatter[0] * t.Of(h.wait), Column: t.Column()}, from,
			func(i int, o outcome) float64 { return c.sizes.Scatter[i] * t.Of(o.years) })
	}
	if ask.Area != nil {
		area, _ := ask.Area.Float64()
		c.area(area, from)
	}
	c.named(Condition, fold(ask.Condition), from, func(o outcome) string { return o.condition })
	c.named(Channel, fold(ask.Channel), from, func(o outcome) string { return o.channel })
	return c
}

// prior is a column's chance to move nothing, and how far it moves else.
func prior(none, effect float64) statistics.Column {
	return statistics.Column{None: none, Effect: effect}
}

// add fills a column with what stands in it for each outcome.
func (c *columns) add(x column, from [][]outcome, of func(kind int, o outcome) float64) {
	x.X = make([][]float64, len(from))
	for i, group := range from {
		for _, o := range group {
			x.X[i] = append(x.X[i], of(i, o))
		}
	}
	if len(from[0]) > 0 {
		x.own = statistics.Mean(x.X[0])
	}
	c.list, c.here = append(c.list, x), append(c.here, x.here)
}

// area counts in usual differences from the kind's usual area, by the kind's
// own pieces alone; under two with different areas nothing shows what it does.
func (c *columns) area(area float64, from [][]outcome) {
	var areas []float64
	for _, o := range from[0] {
		if !math.IsNaN(o.area) {
			areas = append(areas, o.area)
		}
	}
	usual, step := statistics.Mean(areas), statistics.Deviation(areas)
	if !(step > 0) {
		return
	}
	far := func(a float64) float64 { return math.Max(-farArea, math.Min(farArea, (a-usual)/step)) }
	x := column{what: Area, here: far(area), on: len(areas), Column: prior(someNone, areaEffect)}
	c.add(x, from, func(kind int, o outcome) float64 {
		if kind > 0 || math.IsNaN(o.area) {
			return 0
		}
		return far(o.area)
	})
}

// named is a condition or channel: the pieces that had it against the others
// on record, over all kinds.
func (c *columns) named(what, name string, from [][]outcome, of func(outcome) string) {
	if name == "" {
		return
	}
	var with, all float64
	for _, group := range from {
		for _, o := range group {
			switch of(o) {
			case "":
			case name:
				with++
				fallthrough
			default:
				all++
			}
		}
	}
	if with == 0 || with == all {
		return
	}
	share := with / all
	x := column{what: what, here: 1 - share, on: int(with), Column: prior(someNone, restEffect)}
	c.add(x, from, func(_ int, o outcome) float64 {
		switch of(o) {
		case "":
			return 0
		case name:
			return 1 - share
		}
		return -share
	})
}

// fitted is the readings drawn together, by the hour: readings over their
// kind's usual hours, so that kinds of long and short work are alike.
type fitted struct {
	*statistics.Hierarchy
	columns *columns
}

// fit draws readings with the columns. How far pieces usually differ by it is
// held beforehand; zero where nothing is.
func (c *columns) fit(readings [][]float64, usual float64) (fitted, bool) {
	list := make([]statistics.Column, len(c.list))
	for i, x := range c.list {
		list[i] = x.Column
	}
	byHour := make([][]float64, len(readings))
	for i, group := range readings {
		for _, y := range group {
			byHour[i] = append(byHour[i], y/c.sizes.Hours[i])
		}
	}
	m := statistics.Model{Groups: byHour, Scatter: c.sizes.Scatter, Columns: list}
	if usual > 0 {
		m.Usual, m.UsualReadings = usual, usualReadings
	}
	h, ok := m.Draw()
	return fitted{h, c}, ok
}

// next is what is believed of the asked kind's next reading.
func (f fitted) next(at []float64) statistics.Belief {
	return f.Next(0, 1, at...).Times(f.columns.sizes.Hours[0])
}

// usual is where the asked kind's pieces stood.
func (c *columns) usual() []float64 {
	out := make([]float64, len(c.list))
	for i, x := range c.list {
		out[i] = x.own
	}
	return out
}

// moved is what one column makes of the difference between the piece in view
// and its kind's usual.
func (f fitted) moved(i int) float64 {
	by, _ := f.Effect(i)
	return by * (f.columns.here[i] - f.columns.list[i].own) * f.columns.sizes.Hours[0]
}

// inTime is what the time of the sale moves.
func (f fitted) inTime() (sum float64) {
	for i, x := range f.columns.list {
		if x.what == Time {
			sum += f.moved(i)
		}
	}
	return sum
}

// known is what the columns but time move.
func (f fitted) known() []Known {
	var out []Known
	for i, x := range f.columns.list {
		if x.what != Time {
			out = append(out, Known{What: x.what, Moves: f.moved(i), On: x.on})
		}
	}
	return out
}
