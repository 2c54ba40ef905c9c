package checks

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// touch is a record as far as one of its pieces goes.
type touch struct {
	at     fault.Place
	column string // of the date
	on     calendar.Date
	piece  string
	what   string      // the record in a sentence: use
	cents  money.Cents // the piece's part of what the line could move, shared equally
	// late says what the line does to a piece that has left; %s is where the
	// piece's cost went.
	late string
}

const (
	lateCost   = "its cost goes to %s, in a month after the piece was reckoned up"
	lateProfit = "it changes the piece's profit in a month after it was reckoned up"
	lateHours  = "they change the piece's profit per hour after it was reckoned up"
)

// touches is what Uses, Parts, Moves, Expenses, Trips and Hours do to pieces.
func (l *look) touches(b *ledger.Books) []touch {
	var out []touch
	each := func(pieces []string, t touch) {
		all := distinct(pieces)
		t.cents = part(t.cents, len(all))
		for _, t.piece = range all {
			out = append(out, t)
		}
	}
	for i := range b.Uses {
		r := &b.Uses[i]
		each(r.Pieces, touch{at: r.At, column: "used_on", on: r.On, what: "use", cents: l.useCents(r), late: lateCost})
	}
	for i := range b.Parts {
		r := &b.Parts[i]
		what := "part"
		if r.Outside {
			what = "outside work"
		}
		each(r.Pieces, touch{at: r.At, column: "bought_on", on: r.On, what: what, cents: r.Cost + r.TaxPaid, late: lateCost})
	}
	for i := range b.Moves {
		r := &b.Moves[i]
		for _, id := range distinct([]string{r.From, r.To}) {
			each([]string{id}, touch{at: r.At, column: "moved_on", on: r.On, what: "move", cents: r.Value, late: lateCost})
		}
	}
	for i := range b.Expenses {
		r := &b.Expenses[i]
		each(r.Pieces, touch{at: r.At, column: "paid_on", on: r.On, what: "expense", cents: r.Amount, late: lateProfit})
	}
	for i := range b.Trips {
		r := &b.Trips[i]
		each(r.Pieces, touch{at: r.At, column: "on", on: r.On, what: "trip", cents: l.tripCents(r), late: lateProfit})
	}
	for i := range b.Hours {
		r := &b.Hours[i]
		each(r.Pieces, touch{at: r.At, column: "worked_on", on: r.On, what: "hours", cents: l.hoursCents(r), late: lateHours})
	}
	return out
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

// once is a record as far as one piece goes: a schedule's line is told once.
type once struct {
	at    fault.Place
	piece string
}

// afterItLeft notes what is dated in a later month than the piece left in, and
// work and parts dated after the day it left in the same month. As costing has
// it, a piece stands where it stands at a month's end. It could move the
// line's own money (of several pieces, an equal part); a schedule's line once,
// with all its supplies.
func (l *look) afterItLeft() {
	var order []once
	notes := map[once]touch{}
	for _, t := range l.touches(l.past) {
		if l.leftBefore(t) == (stand{}) {
			continue
		}
		k := once{t.at, t.piece}
		if first, seen := notes[k]; seen {
			t.cents += first.cents
		} else {
			order = append(order, k)
		}
		notes[k] = t
	}
	for _, k := range order {
		t := notes[k]
		left := l.leftBefore(t)
		why := fmt.Sprintf("and %s of a later month: %s", thisIs(t.what), t.late)
		switch {
		case left.on.InMonth() == t.on.InMonth():
			why = fmt.Sprintf("and %s of %s, after it had left, counted like any other of the month", thisIs(t.what), t.on)
		case t.late == lateCost:
			why = fmt.Sprintf("and %s of a later month: "+lateCost, thisIs(t.what), went(left.how))
		}
		l.note(fault.CodeAfterItLeft, l.touchCell(t), t.on.String(),
			fmt.Sprintf("%s %s on %s (%s), %s.", t.piece, left.left(), left.on, left.at.Short(), why),
			"Correct the date or the piece if one is wrong; otherwise leave it.", t.cents)
	}
}

// leftBefore is how a piece left before it was touched; the zero stand where it
// had not, or only by a line whose day is refused. Trips and expenses in the month of the sale are often what brought
// the piece to its buyer, so they are not told.
func (l *look) leftBefore(t touch) stand {
	m := t.on.InMonth()
	before, then := l.standAt(t.piece, m-1), l.standAt(t.piece, m)
	switch {
	case then.how == "", l.early[refusal{then.at, t.piece}], l.early[refusal{before.at, t.piece}]:
		return stand{}
	case before.how != "":
		return before
	case t.what != "trip" && t.what != "expense" && t.on.After(then.on):
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

// touchCell is the date's cell; hours on a piece's own row stand under hours.
func (l *look) touchCell(t touch) fault.Place {
	if ownRow(l.pieces[t.piece], t.at) {
		return t.at.At("hours")
	}
	return t.at.At(t.column)
}

// daysAhead is how long before a piece comes something for it is still usual.
const daysAhead = 60

// longBefore notes part payments, parts, trips and hours over 60 days before
// the piece came. It could move the line's own money, of several pieces an
// equal part.
func (l *look) longBefore() {
	touches := l.touches(l.past)
	for i := range l.past.Sales {
		s := &l.past.Sales[i]
		if s.Type != ledger.PartPayment {
			continue
		}
		pieces := distinct(s.Pieces)
		for _, id := range pieces {
			touches = append(touches, touch{at: s.At, column: "sold_on", on: s.On, piece: id, what: "part payment",
				cents: part(s.Price+s.DeliveryCharged, len(pieces))})
		}
	}
	for _, t := range touches {
		switch t.what {
		case "use", "move", "expense":
			continue
		}
		p := l.pieces[t.piece]
		if p == nil || p.GotOn.IsZero() || p.GotOn.DaysSince(t.on) <= daysAhead {
			continue
		}
		l.note(fault.CodeLongBeforeItCame, l.touchCell(t), t.on.String(),
			fmt.Sprintf("%s came on %s, and %s of %d days before.", t.piece, p.GotOn, thisIs(t.what), p.GotOn.DaysSince(t.on)),
			fmt.Sprintf("Correct the date here or Got on of %s if one is wrong; otherwise leave it.", l.cameFrom(p)), t.cents)
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
		l.early[refusal{cell.At(""), piece}] = true
		l.fail(fault.CodeBeforeItCame, cell, on.String(),
			fmt.Sprintf("%s came on %s (%s), after this %s.", piece, p.GotOn, l.cameAt(p).Short(), what),
			fmt.Sprintf("Type %s or a later day here, or correct Got on of %s.", p.GotOn, l.cameFrom(p)))
	}
	for i := range l.books.Uses {
		u := &l.books.Uses[i]
		for _, id := range distinct(u.Pieces) {
			refuse(id, u.On, "use", u.At.At("used_on"))
		}
	}
	for i := range l.books.Sales {
		s := &l.books.Sales[i]
		if s.Type == ledger.PartPayment {
			continue
		}
		for _, id := range distinct(s.Pieces) {
			refuse(id, s.On, string(s.Type), s.At.At("sold_on"))
		}
	}
	for i := range l.books.Removals {
		r := &l.books.Removals[i]
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
