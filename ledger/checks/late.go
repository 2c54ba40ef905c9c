package checks

import (
	"fmt"
	"iter"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// touch is a record as far as one of its pieces goes.
type touch struct {
	ledger.Record
	piece string
	what  string // the record in a sentence: use
	// late says what the line does to a piece that has left; %s is where the
	// piece's cost went.
	late string
}

const (
	lateCost   = "its cost goes to %s, in a month after the month it left in"
	lateProfit = "it changes the piece's profit in a month after the month it left in"
	lateHours  = "they change the piece's profit an hour after the month it left in"
)

// lateWords are the tables whose lines do something to the pieces they name:
// the line in a sentence, and what it does to a piece that has left.
var lateWords = map[string][2]string{
	"uses": {"use", lateCost}, "parts": {"part", lateCost}, "moves": {"move", lateCost},
	"expenses": {"expense", lateProfit}, "trips": {"trip", lateProfit}, "hours": {"hours", lateHours},
}

// touches is what Uses, Parts, Moves, Expenses, Trips and Hours do to pieces.
func (l *look) touches() iter.Seq[touch] {
	return func(yield func(touch) bool) {
		for r := range l.past.Records() {
			words, does := lateWords[r.Table]
			if !does || len(r.Pieces) == 0 {
				continue
			}
			t := touch{Record: r, what: words[0], late: words[1]}
			if p, isPart := r.Row.(*ledger.Part); isPart && p.Outside {
				t.what = "outside work"
			}
			for _, t.piece = range ledger.Distinct(r.Pieces) {
				if !yield(t) {
					return
				}
			}
		}
	}
}

// partOf is the piece's part of what the line could move, shared equally.
func (l *look) partOf(t touch) money.Cents {
	cents := l.moves(t.Record)
	switch x := t.Row.(type) {
	case *ledger.Move:
		return cents // it leaves the one piece and comes to the other
	case *ledger.Sale:
		cents = x.Price + x.DeliveryCharged
	}
	return part(cents, len(ledger.Distinct(t.Pieces)))
}

// went is where the cost of a piece went that left as given.
func went(how string) string {
	switch how {
	case sold:
		return "the cost of pieces sold"
	case ledger.Kept, ledger.Donated:
		return "what was kept or donated"
	}
	return "pieces lost"
}

// afterItLeft notes what is dated in a later month than the piece left in, and
// work and parts dated after the day it left in the same month. As costing has
// it, a piece stands where it stands at a month's end. It could move the
// line's own money (of several pieces, an equal part); a schedule's line once,
// with all its supplies.
func (l *look) afterItLeft() {
	var order []pieceLine
	notes, cents := map[pieceLine]touch{}, map[pieceLine]money.Cents{}
	for t := range l.touches() {
		if l.leftBefore(t) == (stand{}) {
			continue
		}
		k := pieceLine{t.At, t.piece}
		if _, seen := notes[k]; !seen {
			order = append(order, k)
		}
		notes[k] = t
		cents[k] += l.partOf(t)
	}
	for _, k := range order {
		t := notes[k]
		left := l.leftBefore(t)
		why := fmt.Sprintf("and %s of a later month: %s", thisIs(t.what), t.late)
		switch {
		case left.on.InMonth() == t.On.InMonth():
			why = fmt.Sprintf("and %s of %s, after it had left, counted like any other of the month", thisIs(t.what),
				l.day(t.On))
		case t.late == lateCost:
			why = fmt.Sprintf("and %s of a later month: "+lateCost, thisIs(t.what), went(left.how))
		}
		l.noteNaming(fault.CodeAfterItLeft, t.dayCell(), l.day(t.On),
			"Correct the date or the piece if one is wrong; otherwise leave it.", cents[k],
			"%s %s on %s (%s), %s.", t.piece, left.left(), l.day(left.on), left.at, why)
	}
}

// leftBefore is how a piece left before it was touched; the zero stand where it
// had not, or only by a line whose day is refused. Trips and expenses in the month of the sale are often what brought
// the piece to its buyer, so they are not reported.
func (l *look) leftBefore(t touch) stand {
	m := t.On.InMonth()
	before, then := l.standAt(t.piece, m-1), l.standAt(t.piece, m)
	switch {
	case then.how == "", l.early[pieceLine{then.at, t.piece}], l.early[pieceLine{before.at, t.piece}]:
		return stand{}
	case before.how != "":
		return before
	case t.what != "trip" && t.what != "expense" && t.On.After(then.on):
		return then
	}
	return stand{}
}

// thisIs names a record with its pronoun, verb and article.
func thisIs(what string) string {
	switch what {
	case "hours":
		return "these are hours"
	case "outside work":
		return "this is outside work"
	case "expense":
		return "this is an expense"
	}
	return "this is a " + what
}

// dayCell is the cell of the record's day; hours on a piece's own row stand
// under hours.
func (t touch) dayCell() fault.Place {
	if t.DayIn == "" {
		return t.At.At("hours")
	}
	return t.At.At(t.DayIn)
}

// daysAhead is how long before a piece comes something for it is still usual.
const daysAhead = 60

// longBefore notes part payments, parts, trips and hours over 60 days before
// the piece came. It could move the line's own money, of several pieces an
// equal part.
func (l *look) longBefore() {
	look := func(t touch) {
		p := l.pieces[t.piece]
		if p == nil || p.GotOn.IsZero() || p.GotOn.DaysSince(t.On) <= daysAhead {
			return
		}
		l.note(fault.CodeLongBeforeItCame, t.dayCell(), l.day(t.On),
			fmt.Sprintf("%s came on %s, and %s of %d days before.", t.piece, l.day(p.GotOn), thisIs(t.what),
				p.GotOn.DaysSince(t.On)),
			fmt.Sprintf("Correct the date here or Got on of %s if one is wrong; otherwise leave it.", l.cameFrom(p)),
			l.partOf(t))
	}
	for t := range l.touches() {
		switch t.what {
		case "use", "move", "expense":
		default:
			look(t)
		}
	}
	for i := range l.past.Sales {
		if s := &l.past.Sales[i]; s.Type == ledger.PartPayment {
			for _, id := range ledger.Distinct(s.Pieces) {
				look(touch{Record: ledger.RecordOf(s), piece: id, what: "part payment"})
			}
		}
	}
}

// beforeItCame refuses what cannot be done to a piece that is not there yet.
// Part payments, parts, trips and hours may come before it.
func (l *look) beforeItCame() {
	refuse := func(piece string, on calendar.Date, what string, cell fault.Place) {
		p := l.pieces[piece]
		if p == nil || p.GotOn.IsZero() || !on.Before(p.GotOn) {
			return
		}
		l.early[pieceLine{cell.At(""), piece}] = true
		l.fail(fault.CodeBeforeItCame, cell, l.day(on),
			fmt.Sprintf("%s came on %s (%s), after this %s.", piece, l.day(p.GotOn), l.cameAt(p).Short(), what),
			fmt.Sprintf("Type that day or a later one here, or correct Got on of %s.", l.cameFrom(p)))
	}
	for u := range ledger.Each(l.books.Uses) {
		for _, id := range ledger.Distinct(u.Pieces) {
			refuse(id, u.On, "use", u.At.At("used_on"))
		}
	}
	for s := range ledger.Each(l.books.Sales) {
		if s.Type == ledger.PartPayment {
			continue
		}
		for _, id := range ledger.Distinct(s.Pieces) {
			refuse(id, s.On, string(s.Type), s.At.At("sold_on"))
		}
	}
	for r := range ledger.Each(l.books.Removals) {
		refuse(r.Piece, r.On, "removal", r.At.At("removed_on"))
	}
}

// cameFrom names the record that says when a piece came: P7 in Pieces, or its
// lot in Lots.
func (l *look) cameFrom(p *ledger.Piece) string {
	if p.Lot != "" && l.lots[p.Lot] != nil {
		return p.Lot + " in Lots"
	}
	return p.ID + " in Pieces"
}

// cameAt is that record's place.
func (l *look) cameAt(p *ledger.Piece) fault.Place {
	if lot := l.lots[p.Lot]; p.Lot != "" && lot != nil {
		return lot.At
	}
	return p.At
}
