package offer

import (
	"math"
	"slices"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/ledger/statistics"
	"piecebook/templates"
)

// History is what offers rest on: how the ledger's pieces that were sold,
// scrapped or stolen turned out.
type History struct {
	Target money.Cents // an hour
	Costs  kinds.ShopCosts
	end    calendar.Month
	wait   float64 // years from buying a piece to selling it, at the middle
	names  []string
	groups [][]outcome // by kind, as names are
	sizes  kinds.Sizes
	guess  guessing
	pieces map[string][]kinds.Life // by kind
}

// outcome is what came of a sale, or of a piece lost: averages over the
// pieces sold on one line, which share its price. Amounts are cents.
type outcome struct {
	sold                                             bool
	timed                                            bool    // counts by the hour
	years                                            float64 // when, from the ledger's end: below zero
	receipts, selling, parts, supplies, trips, hours float64
	area                                             float64 // NaN where none has one
	condition, channel                               string  // as words are compared
}

// worth is what it would have been right to pay, at so much an hour.
func (o outcome) worth(anHour float64) float64 {
	return o.receipts - o.selling - o.parts - o.supplies - o.trips - anHour*o.hours
}

// HistoryOf gathers the pieces of a ledger.
func HistoryOf(l *costing.Ledger) History {
	h := History{Target: l.Books.Settings.TargetHourly, Costs: kinds.CostsOf(l), pieces: map[string][]kinds.Life{}}
	if len(l.Months) > 0 {
		h.end = l.Months[len(l.Months)-1].Month
	}
	var held []float64
	for _, x := range kinds.Lives(l) {
		if !x.Judged {
			continue
		}
		if h.pieces[x.Kind] == nil {
			h.names = append(h.names, x.Kind)
		}
		h.pieces[x.Kind] = append(h.pieces[x.Kind], x)
		if x.DaysHeld != nil {
			held = append(held, float64(*x.DaysHeld)/365.25)
		}
	}
	if len(held) > 0 {
		h.wait = statistics.Quantile(held, 0.5)
	}
	slices.Sort(h.names)
	judged := make([][]kinds.Life, len(h.names))
	for i, name := range h.names {
		slices.SortFunc(h.pieces[name], kinds.ByLeaving)
		judged[i] = h.pieces[name]
		h.groups = append(h.groups, outcomesOf(h.pieces[name], h.end))
	}
	h.sizes = kinds.SizesOf(judged)
	h.guess = guessesOf(h.pieces, h.names)
	return h
}

// fold is how conditions and channels are compared.
func fold(name string) string { return strings.ToLower(strings.TrimSpace(name)) }

// outcomesOf makes one outcome of each sale line and of each piece lost.
func outcomesOf(pieces []kinds.Life, end calendar.Month) []outcome {
	var order [][]kinds.Life
	at := map[fault.Place]int{}
	for _, x := range pieces {
		i, together := at[x.Sale]
		if !together || !x.Sold() {
			i = len(order)
			at[x.Sale] = i
			order = append(order, nil)
		}
		order[i] = append(order[i], x)
	}
	out := make([]outcome, len(order))
	for i, together := range order {
		out[i] = outcomeOf(together, end)
	}
	return out
}

func outcomeOf(together []kinds.Life, end calendar.Month) outcome {
	first := together[0]
	o := outcome{sold: first.Sold(), timed: true, years: kinds.Years(first.Left, end),
		condition: fold(first.Record.Condition), channel: fold(first.Channel)}
	n := float64(len(together))
	var areas []float64
	for _, x := range together {
		o.timed = o.timed && x.ByHour()
		o.receipts += float64(x.Receipts+x.ReceivedWhenLost) / n
		o.selling += float64(x.SellingCosts) / n
		o.parts += float64(x.Parts+x.OutsideWork) / n
		o.supplies += float64(x.Supplies) / n
		o.trips += float64(x.Trips) / n
		hours, _ := x.Hours.Float64()
		o.hours += hours / n
		if x.Record.Area != nil {
			area, _ := x.Record.Area.Float64()
			areas = append(areas, area)
		}
	}
	o.area = statistics.Mean(areas)
	return o
}

// group is the place of a kind among the groups, or -1.
func (h History) group(kind string) int {
	key := templates.KindKey(kind)
	return slices.IndexFunc(h.names, func(name string) bool { return templates.KindKey(name) == key })
}

// unseen says that no piece of the kind has been sold with hours, so that its
// size is not known.
func (h History) unseen(kind string) bool {
	return !slices.ContainsFunc(h.pieces[h.spelt(kind)], func(x kinds.Life) bool { return x.Sold() && x.Timed() })
}

// spelt is a kind as the books spell it; as asked where they do not know it.
func (h History) spelt(kind string) string {
	if i := h.group(kind); i >= 0 {
		return h.names[i]
	}
	return kind
}

// sizesFor are the kinds' sizes, the asked kind's first.
func (h History) sizesFor(kind string) kinds.Sizes {
	out, mine := h.sizes, h.group(kind)
	out.Scatter, out.Hours = []float64{1}, []float64{1}
	for i := range h.names {
		if i == mine {
			out.Scatter[0], out.Hours[0] = h.sizes.Scatter[i], h.sizes.Hours[i]
			continue
		}
		out.Scatter, out.Hours = append(out.Scatter, h.sizes.Scatter[i]), append(out.Hours, h.sizes.Hours[i])
	}
	return out
}

// readings are a figure of the outcomes that have it, the asked kind's first,
// and those outcomes.
func (h History) readings(kind string, has func(outcome) bool, of figure) (readings [][]float64, from [][]outcome) {
	mine := h.group(kind)
	readings, from = make([][]float64, 1), make([][]outcome, 1)
	for i, group := range h.groups {
		at := 0
		if i != mine {
			at = len(readings)
			readings, from = append(readings, nil), append(from, nil)
		}
		for _, o := range group {
			if has(o) {
				readings[at], from[at] = append(readings[at], of(o)), append(from[at], o)
			}
		}
	}
	return readings, from
}

// figure is one figure of an outcome.
type figure func(outcome) float64

func byHour(o outcome) bool { return o.timed }
func sold(o outcome) bool   { return o.sold }
func any(outcome) bool      { return true }

// mean of a figure over some outcomes; NaN of none.
func mean(from []outcome, of func(outcome) float64) float64 {
	x := make([]float64, len(from))
	for i, o := range from {
		x[i] = of(o)
	}
	return statistics.Mean(x)
}

// usualOff is how far guesses are usually off, as a share of the guess, where
// too few earlier ones are on record: common practice, no source.
const (
	usualPriceOff = 0.20
	usualHoursOff = 0.25
	usualPartsOff = 0.35
)

// guessing is how far the shop's own price guesses have been off.
type guessing struct {
	Off float64 // deviation of sale ÷ guess round its usual, as a share
	On  int     // guesses on record
}

// guessWeight: the usual figure counts as so many guesses beside those on record.
const guessWeight = 4

// guessesOf holds asking prices and worths on record to what the pieces
// brought. What an asking price is usually above the sale by is meant so, and
// no error: the scatter counts.
func guessesOf(pieces map[string][]kinds.Life, names []string) guessing {
	var off [2][]float64
	for _, name := range names {
		for _, x := range pieces[name] {
			for i, guess := range []*money.Cents{x.Record.Asking, x.Record.Worth} {
				if x.Sold() && guess != nil && *guess > 0 && x.Receipts > 0 {
					off[i] = append(off[i], math.Log(float64(x.Receipts)/float64(*guess)))
				}
			}
		}
	}
	squares, freedom, on := guessWeight*usualPriceOff*usualPriceOff, float64(guessWeight), 0
	for _, x := range off {
		if on += len(x); len(x) > 1 {
			d := statistics.Deviation(x)
			squares, freedom = squares+d*d*float64(len(x)-1), freedom+float64(len(x)-1)
		}
	}
	return guessing{math.Sqrt(squares / freedom), on}
}
