package offer

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"piecebook/ledger/statistics"
)

// guessed is one of the owner's guesses: what it is of, what the past says of
// that, and what is counted on.
type guessed struct {
	of    func(outcome) float64
	books float64 // by how much one more of it moves the worth, by plain accounting
	moves float64 // by how much it does, as the pieces show
	Known
	variance float64 // of what is counted on
}

// guesses are the owner's guesses of the piece in view.
type guesses []*guessed

func (h History) guesses(ask Ask) guesses {
	var out guesses
	add := func(what string, guess, off float64, on int, has func(outcome) bool, of func(outcome) float64) {
		g := &guessed{of: of, Known: Known{What: what, Off: off, On: on}}
		g.take(h, ask, guess, has)
		out = append(out, g)
	}
	if ask.SellsFor != nil {
		add(SellsFor, float64(*ask.SellsFor), h.guess.Off, h.guess.On, sold, func(o outcome) float64 { return o.receipts })
	}
	if ask.Hours != nil && !h.sizedByHours(ask) {
		hours, _ := ask.Hours.Float64()
		add(Hours, hours, usualHoursOff, 0, func(o outcome) bool { return o.sold && o.timed && o.hours > 0 },
			func(o outcome) float64 { return o.hours })
	}
	if ask.Parts != nil {
		add(Parts, float64(*ask.Parts), usualPartsOff, 0, sold, func(o outcome) float64 { return o.parts })
	}
	return out
}

// sizedByHours says that the owner's hours tell how large a piece of an unseen
// kind is: all that is believed of it is by the hour, so the hours are no guess
// beside it.
func (h History) sizedByHours(ask Ask) bool {
	return ask.Hours != nil && ask.Hours.Sign() > 0 && h.unseen(ask.Kind) && h.timed()
}

// at are the guesses that count at so much an hour, each with what one more of
// it moves the worth by plain accounting.
func (g guesses) at(anHour, sellingShare float64) guesses {
	var out guesses
	for _, x := range g {
		y := *x
		y.books = map[string]float64{SellsFor: 1 - sellingShare, Hours: -anHour, Parts: -1}[x.What]
		if y.books != 0 {
			out = append(out, &y)
		}
	}
	return out
}

// sellingShare is what selling takes of receipts, over everything sold.
func (h History) sellingShare() float64 {
	var costs, receipts float64
	for _, group := range h.groups {
		for _, o := range group {
			costs, receipts = costs+o.selling, receipts+o.receipts
		}
	}
	if receipts <= 0 {
		return 0
	}
	return costs / receipts
}

// take is what is counted on: the guess and what such pieces usually have,
// each by how sure it is (the product of two normal densities).
func (g *guessed) take(h History, ask Ask, guess float64, has func(outcome) bool) {
	error := g.Off * guess
	g.Taken, g.variance = guess, error*error
	readings, from := h.readings(ask.Kind, has, g.of)
	columns := h.columns(ask, from)
	fit, ok := columns.fit(readings, 0)
	if !ok {
		if g.Usual = statistics.Mean(slices.Concat(readings...)); math.IsNaN(g.Usual) {
			g.Usual = 0 // none on record, and none in the average
		}
		return
	}
	before := fit.next(columns.here)
	g.Usual = before.Centre()
	spread := before.Variance()
	if spread <= 0 {
		return
	}
	// How far off a guess is goes with what turns out, not with the guess, so
	// the second time round it is a share of what is counted on.
	for range 2 {
		off := g.Off * g.Taken
		weight := spread / (spread + off*off)
		g.Taken = g.Usual + weight*(guess-g.Usual)
		g.variance = off * off * weight
	}
}

// doubt: plain accounting says by how much a guessed figure moves the worth;
// the shop's own pieces may show another slope, whose prior deviation from
// plain accounting is this share of it.
const doubt = 0.5

// without is the readings less what the guessed figures make of them, so that
// what is left is near independent of the guesses. It finds by how much each
// moves the worth: by regression over the sold outcomes within their kinds,
// drawn toward plain accounting.
func (g guesses) without(readings [][]float64, from [][]outcome) [][]float64 {
	if len(g) == 0 {
		return readings
	}
	g.regress(readings, from)
	out := make([][]float64, len(readings))
	for i, group := range from {
		usual := make([]float64, len(g))
		for j, x := range g {
			usual[j] = x.usualOf(group)
		}
		for k, o := range group {
			y := readings[i][k]
			for j, x := range g {
				if o.sold {
					y -= x.moves * x.of(o)
				} else {
					y -= x.moves * usual[j] // what was lost is lost from what it would have been
				}
			}
			out[i] = append(out[i], y)
		}
	}
	return out
}

// usualOf is a figure's mean over the sold outcomes of a kind, or what the
// past says of the asked one where none was sold.
func (g *guessed) usualOf(group []outcome) float64 {
	var x []float64
	for _, o := range group {
		if o.sold {
			x = append(x, g.of(o))
		}
	}
	if len(x) == 0 {
		return g.Usual
	}
	return statistics.Mean(x)
}

func (g guesses) regress(readings [][]float64, from [][]outcome) {
	n := len(g)
	squares, right := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	var left, count float64 // what plain accounting leaves, squared
	for i, group := range from {
		x, y := g.within(readings[i], group)
		count += float64(len(y))
		for k := range y {
			rest := y[k]
			for a := range n {
				rest -= g[a].books * x[k][a]
			}
			for a := range n {
				for b := range a + 1 {
					squares.SetSym(a, b, squares.At(a, b)+x[k][a]*x[k][b])
				}
				right.SetVec(a, right.AtVec(a)+x[k][a]*rest)
			}
			left += rest * rest
		}
	}
	for a, x := range g {
		x.moves = x.books
		if left > 0 {
			squares.SetSym(a, a, squares.At(a, a)+left/count/(doubt*x.books*doubt*x.books))
		}
	}
	var factor mat.Cholesky
	var more mat.VecDense
	if left > 0 && factor.Factorize(squares) && factor.SolveVecTo(&more, right) == nil {
		for a, x := range g {
			x.moves += more.AtVec(a)
		}
	}
}

// within are the guessed figures and the worths of a kind's sold outcomes, off
// their means.
func (g guesses) within(readings []float64, group []outcome) (x [][]float64, y []float64) {
	sums, total := make([]float64, len(g)), 0.0
	for k, o := range group {
		if !o.sold {
			continue
		}
		row := make([]float64, len(g))
		for j, a := range g {
			row[j] = a.of(o)
			sums[j] += row[j]
		}
		x, y = append(x, row), append(y, readings[k])
		total += readings[k]
	}
	for k := range y {
		for j := range g {
			x[k][j] -= sums[j] / float64(len(y))
		}
		y[k] -= total / float64(len(y))
	}
	return x, y
}

// total is what the guessed figures would come to unguessed, by how much the
// guesses move that, and the variance of what is counted on.
func (g guesses) total() (usual, moved, variance float64) {
	for _, x := range g {
		usual += x.moves * x.Usual
		moved += x.moves * (x.Taken - x.Usual)
		variance += x.moves * x.moves * x.variance
	}
	return usual, moved, variance
}

func (g guesses) known() []Known {
	var out []Known
	for _, x := range g {
		k := x.Known
		k.Moves = x.moves * (x.Taken - x.Usual)
		out = append(out, k)
	}
	return out
}
