package costing

import (
	"cmp"
	"maps"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// run is one month's work in progress.
type run struct {
	*index
	m        calendar.Month
	state    State
	postings []ledger.Posting
	problems fault.List
	into     map[string]money.Cents // what the month put into each piece
	basis    map[string]ledger.Basis
	movedOut map[string]ledger.Move // the last part moved from a piece this month
	late     []lateCost             // what counts and buying again moved on pieces
	work     work
}

// month costs one month from the closing of the one before. It changes
// neither the opening nor the books.
func (ix *index) month(opening State, m calendar.Month) (MonthResult, fault.List) {
	r := &run{index: ix, m: m, state: opening.next(m), postings: ix.room, into: map[string]money.Cents{},
		basis: map[string]ledger.Basis{}, movedOut: map[string]ledger.Move{}}
	r.acquire()
	r.partsAndMoves()
	r.work = r.gatherWork()
	r.shelves()
	r.salesMoney()
	r.standings()
	r.tellLate()
	r.postTrips()
	r.postExpenses()
	r.postOtherIncome()
	r.postOverheads()
	ix.room = r.postings[:0]
	return MonthResult{Month: m, Postings: byDay(r.postings), Closing: r.state, Basis: r.basis}, r.problems
}

// byDay is a copy of postings by date. Their places are sorted: each posting is
// large, and is moved once.
func byDay(postings []ledger.Posting) []ledger.Posting {
	order := make([]int, len(postings))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(postings[a].Date.Compare(postings[b].Date), a-b) })
	out := make([]ledger.Posting, len(postings))
	for to, from := range order {
		out[to] = postings[from]
	}
	return out
}

// post adds a posting of the month; what goes into a piece is remembered.
func (r *run) post(p ledger.Posting) {
	p.Month = r.m
	if p.Cents == 0 && p.Reason != ledger.ReasonAcquired {
		return
	}
	if p.To == ledger.Pieces {
		r.into[p.Piece] += p.Cents
	}
	r.postings = append(r.postings, p)
}

// sharing is a total as it was shared over lines, for the postings to point
// to. Where all weights are zero the
// lines were taken as equal, so equal weights stand.
func (r *run) sharing(s *ledger.Shared, ids []string, weights []*big.Rat, parts []money.Part) *ledger.Shared {
	if sum(weights).Sign() == 0 {
		weights, s.By, s.Unit = ledger.EqualWeights(len(weights)), ledger.Equally, ""
	}
	cents := s.By == ledger.ByAsking || s.By == ledger.ByWorth
	s.Month, s.Lines = r.m, make([]ledger.SharedLine, 0, len(weights))
	for i, w := range weights {
		if cents {
			w = quo(w, big.NewRat(100, 1)) // shown in the currency's units
		}
		line := ledger.SharedLine{Month: r.m, Weight: w, Cents: parts[i].Cents, Off: parts[i].Off}
		if i < len(ids) {
			line.Piece = ids[i]
		}
		s.Lines = append(s.Lines, line)
	}
	return s
}

func (r *run) note(code fault.Code, at fault.Place, cents money.Cents, why, fix string) {
	r.problems.Add(fault.Problem{Code: code, Note: true, Place: at, Why: why, Fix: fix,
		MoneyCents: int64(cents.Abs()), Month: r.m})
}

// noteLate reports a late cost, for which nothing is to be typed.
func (r *run) noteLate(at fault.Place, cents money.Cents, why, fix string) {
	r.problems.Add(fault.Problem{Code: fault.LateCost, Note: true, AsksNothing: true, Place: at, Why: why, Fix: fix,
		MoneyCents: int64(cents.Abs()), Month: r.m})
}

func (r *run) fail(code fault.Code, at fault.Place, found, why, fix string) {
	r.problems.Add(fault.Problem{Code: code, Place: at, Found: found, Why: why, Fix: fix})
}

// openingShelf is the shelf before the first month: the Openings table, as
// the closing of the month before it.
func openingShelf(b *ledger.Books, before calendar.Month) MonthResult {
	openings := slices.Clone(b.Openings)
	slices.SortStableFunc(openings, func(a, c ledger.Opening) int {
		return cmp.Or(a.On.Compare(c.On), cmp.Compare(a.Supply, c.Supply),
			compareLayers(openingLine(a), openingLine(c)))
	})
	result := MonthResult{Month: before, Closing: State{Month: before, Shelf: map[string]Shelf{}}}
	for _, o := range openings {
		line := openingLine(o)
		shelf := result.Closing.Shelf[o.Supply]
		if shelf.Opened == 0 {
			shelf = newShelf(before + 1)
		}
		layer := &Layer{Amount: o.Amount, Cents: line.Cost, Drawn: zero, On: o.On, At: o.At}
		shelf.Layers = append(shelf.Layers, layer)
		shelf.Base = append(shelf.Base, layer)
		result.Closing.Shelf[o.Supply] = shelf
		how := ledger.Derivation{Method: ledger.StockedBefore}
		if o.Deducted {
			how.Amounts = []ledger.Amount{{Name: ledger.AmountDeducted, Cents: o.Cost}}
		}
		result.Postings = append(result.Postings, ledger.Posting{Date: o.On, Month: before, Cents: line.Cost,
			From: ledger.Paid, To: ledger.Shelf, Supply: o.Supply, Reason: ledger.ReasonOpening,
			Source: []fault.Place{o.At}, How: how})
	}
	return result
}

// openingLine is an opening as the purchase it stands for.
func openingLine(o ledger.Opening) ledger.Purchase {
	p := ledger.Purchase{On: o.On, Amount: o.Amount, Cost: o.Cost}
	if o.Deducted {
		p.Cost = 0
	}
	return p
}

func newShelf(opened calendar.Month) Shelf {
	return Shelf{PoolWeight: zero, PoolRest: zero, Opened: opened}
}

// split parts an exact amount over weights; all zero count as equal.
func split(total *big.Rat, weights []*big.Rat) []*big.Rat {
	if len(weights) == 1 {
		return []*big.Rat{total}
	}
	all := sum(weights)
	if all.Sign() == 0 {
		weights, all = ledger.EqualWeights(len(weights)), big.NewRat(int64(len(weights)), 1)
	}
	out := make([]*big.Rat, len(weights))
	for i, w := range weights {
		out[i] = quo(mul(total, w), all)
	}
	return out
}

// keys is a map's keys in order.
func keys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }

// union holds the keys of both maps.
func union[K cmp.Ordered, V any](a, b map[K]V) map[K]V {
	out := make(map[K]V, len(a)+len(b))
	maps.Copy(out, a)
	maps.Copy(out, b)
	return out
}
