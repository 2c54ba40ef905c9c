package checks

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// change is one thing that adds to or takes from what a piece cost.
type change struct {
	on    calendar.Date
	cents money.Cents
	out   *ledger.Move // taken from the piece
}

// movesWithinCost holds what Moves take from a piece, by date, against what it
// had cost by then without supplies, whose shares only costing knows.
func (l *look) movesWithinCost() {
	if len(l.books.Moves) == 0 {
		return
	}
	changes := map[string][]change{}
	for id, cents := range l.acquisitions() {
		changes[id] = append(changes[id], change{on: l.pieces[id].GotOn, cents: cents})
	}
	for i := range l.books.Parts {
		part := &l.books.Parts[i]
		pieces := distinct(part.Pieces)
		for j, share := range money.Share(part.Cost+part.TaxPaid, l.areaWeights(pieces)) {
			changes[pieces[j]] = append(changes[pieces[j]], change{on: part.On, cents: share.Cents})
		}
	}
	for i := range l.books.Moves {
		m := &l.books.Moves[i]
		changes[m.To] = append(changes[m.To], change{on: m.On, cents: m.Value})
		changes[m.From] = append(changes[m.From], change{on: m.On, cents: m.Value, out: m})
	}
	for id, of := range changes {
		l.spend(id, of)
	}
}

// spend goes through one piece's changes by date, what comes before what goes.
func (l *look) spend(id string, changes []change) {
	slices.SortStableFunc(changes, func(a, b change) int {
		if byDay := a.on.Compare(b.on); byDay != 0 || (a.out == nil && b.out == nil) {
			return byDay
		}
		if a.out == nil || b.out == nil {
			return cmp.Compare(outward(a), outward(b))
		}
		return a.out.At.Compare(b.out.At)
	})
	var cost money.Cents
	for _, c := range changes {
		if c.out == nil {
			cost += c.cents
			continue
		}
		if c.cents <= cost {
			cost -= c.cents
			continue
		}
		// Not taken off, so that the next move is judged by itself.
		fix := fmt.Sprintf("Type at most %s in value, or correct from_piece or moved_on.", l.typed(cost))
		if cost <= 0 {
			fix = "Correct from_piece or moved_on, or delete the line."
		}
		l.fail(fault.CodeMovedAboveCost, c.out.At.At("value"), l.typed(c.cents),
			fmt.Sprintf("By %s %s holds %s (price, parts and outside work, less what was moved from it), so %s cannot go from it.",
				c.on, id, l.amount(cost), l.amount(c.cents)),
			fix)
	}
}

// outward is 1 for what goes from the piece.
func outward(c change) int {
	if c.out != nil {
		return 1
	}
	return 0
}

// acquisitions is what each piece cost to get: its own price, tax and pickup,
// and its share of its lot.
func (l *look) acquisitions() map[string]money.Cents {
	out := map[string]money.Cents{}
	ofLot := map[string][]string{}
	for id, p := range l.pieces {
		out[id] = p.Price + p.TaxPaid + p.Pickup
		if p.Lot != "" {
			ofLot[p.Lot] = append(ofLot[p.Lot], id)
		}
	}
	for lot, pieces := range ofLot {
		record := l.lots[lot]
		if record == nil {
			continue
		}
		pieces = distinct(pieces)
		weights := l.weights(pieces, func(p *ledger.Piece) *money.Cents { return p.Worth })
		if weights == nil || record.ShareBy == "equal" {
			weights = equal(len(pieces))
		}
		for i, share := range money.Share(record.Total(), weights) {
			out[pieces[i]] += share.Cents
		}
	}
	return out
}

// areaWeights are the pieces' areas where all have one, else equal.
func (l *look) areaWeights(pieces []string) []*big.Rat {
	out := make([]*big.Rat, len(pieces))
	for i, id := range pieces {
		p := l.pieces[id]
		if p == nil || p.Area == nil {
			return equal(len(pieces))
		}
		out[i] = p.Area
	}
	return out
}
