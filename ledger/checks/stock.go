package checks

import (
	"cmp"
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// stand is where a piece stands from a day on.
type stand struct {
	on  calendar.Date
	at  fault.Place
	how string // sold, or a Removal's why; blank: in stock
}

// standAt is where the piece stands at the end of the month; the zero stand is
// 'in stock, or not here yet'.
func (l *look) standAt(piece string, m calendar.Month) stand {
	var last stand
	for _, s := range l.stands[piece] {
		if s.on.InMonth() <= m {
			last = s
		}
	}
	return last
}

const sold = "sold"

// left is how a piece went, in words that follow its name: was sold.
func (s stand) left() string { return "was " + s.how }

// event is a line that takes a piece out of stock or brings it back.
type event struct {
	on      calendar.Date
	at      fault.Place
	sale    *ledger.Sale    // of type sale or return
	removal *ledger.Removal // or else this
}

// allowed ranks what may happen to a piece standing as given; 0 is refused.
// Within a day the order of lines is unknown, so the walk takes any order that
// makes sense: a sale before a removal, since nothing can follow a removal.
func (e event) allowed(now stand) int {
	switch {
	case e.removal != nil && now.how == "":
		return 1
	case e.sale != nil && e.sale.Type == ledger.SaleLine && now.how == "":
		return 2
	case e.sale != nil && e.sale.Type == ledger.Return && now.how == sold:
		return 2
	}
	return 0
}

// walkStock follows each piece through its sales, returns and removals.
func (l *look) walkStock() {
	events := map[string][]event{}
	for s := range ledger.Each(l.books.Sales) {
		if s.Type != ledger.SaleLine && s.Type != ledger.Return {
			continue
		}
		for _, piece := range ledger.Distinct(s.Pieces) {
			events[piece] = append(events[piece], event{on: s.On, at: s.At, sale: s})
		}
	}
	for r := range ledger.Each(l.books.Removals) {
		events[r.Piece] = append(events[r.Piece], event{on: r.On, at: r.At, removal: r})
	}
	for piece, of := range events {
		slices.SortStableFunc(of, func(a, b event) int {
			return cmp.Or(a.on.Compare(b.on), a.at.Compare(b.at))
		})
		l.walk(piece, of)
	}
	l.paymentsAfterRemoval()
}

// walk takes one piece's events day by day. A refused line changes nothing, so
// that one slip gives one message.
func (l *look) walk(piece string, events []event) {
	var now stand
	for len(events) > 0 {
		n := 1
		for n < len(events) && events[n].on == events[0].on {
			n++
		}
		today := slices.Clone(events[:n])
		events = events[n:]
		for len(today) > 0 {
			next := 0
			for i := range today {
				if today[i].allowed(now) > today[next].allowed(now) {
					next = i
				}
			}
			e := today[next]
			today = slices.Delete(today, next, next+1)
			if e.allowed(now) == 0 {
				l.refuse(piece, e, now)
				continue
			}
			now = stand{on: e.on, at: e.at, how: e.leads()}
			l.stands[piece] = append(l.stands[piece], now)
		}
	}
}

// leads is how the piece stands after the event.
func (e event) leads() string {
	switch {
	case e.removal != nil:
		return e.removal.Why
	case e.sale.Type == ledger.SaleLine:
		return sold
	}
	return ""
}

// refuse tells why a line cannot be, the piece standing as it does.
func (l *look) refuse(piece string, e event, now stand) {
	since := fmt.Sprintf("%s %s on %s (%s)", piece, now.left(), l.day(now.on), now.at.Short())
	switch {
	case e.removal != nil && now.how == sold:
		l.fail(fault.CodeRemovedAfterSale, e.at.At("removed_on"), l.day(e.on),
			since+" and has not come back by then.",
			"Correct Piece or Removed on here, or enter the return in Sales, dated before this removal.")
	case e.removal != nil:
		l.fail(fault.CodeRemovedTwice, e.at.At("piece"), piece, since+" already.",
			"Delete one of the two lines, or correct Piece here.")
	case e.sale.Type == ledger.Return:
		l.refused[pieceLine{e.at, piece}] = true
		why := fmt.Sprintf("%s is not sold by %s, so it cannot come back then.", piece, l.day(e.on))
		if now.how != "" {
			why = since + ", so it cannot come back from a sale."
		}
		l.fail(fault.CodeReturnNotSold, saleCell(e.sale, "pieces"), list(e.sale.Pieces), why,
			"Correct Pieces or Sold on here, enter the sale it comes back from, or type refund in Type if only money went back.")
	case now.how != sold:
		l.saleOfRemoved(piece, e.sale, now)
	default:
		l.fail(fault.CodeSoldTwice, saleCell(e.sale, "pieces"), list(e.sale.Pieces),
			since+" already, and no return of it is entered in between.",
			"Delete the line that is wrong, type part payment in Type if it was one, or enter the return in Sales, dated "+
				"between the two.")
	}
}

// saleOfRemoved tells a sale or part payment after the piece was removed.
func (l *look) saleOfRemoved(piece string, s *ledger.Sale, gone stand) {
	l.fail(fault.CodeSaleOfRemoved, saleCell(s, "pieces"), list(s.Pieces),
		fmt.Sprintf("%s %s on %s (%s), before this %s.", piece, gone.left(), l.day(gone.on), gone.at.Short(), s.Type),
		"Correct Pieces or Sold on here, or delete the Removals line if the piece is still there.")
}

// paymentsAfterRemoval refuses part payments after a removal; one before it,
// or on its day, may stand.
func (l *look) paymentsAfterRemoval() {
	for s := range ledger.Each(l.books.Sales) {
		if s.Type != ledger.PartPayment {
			continue
		}
		for _, piece := range ledger.Distinct(s.Pieces) {
			of := l.stands[piece]
			if len(of) == 0 {
				continue
			}
			if last := of[len(of)-1]; last.how != "" && last.how != sold && s.On.After(last.on) {
				l.saleOfRemoved(piece, s, last)
			}
		}
	}
}

// removalsFit compares the reason of a removal with how the piece came.
func (l *look) removalsFit() {
	for r := range ledger.Each(l.books.Removals) {
		p := l.pieces[r.Piece]
		if p == nil {
			continue
		}
		client := p.How == ledger.Client
		switch {
		case r.Why == ledger.GivenBack && !client:
			l.fail(fault.CodeRemovalDoesNotFit, r.At.At("why"), r.Why,
				fmt.Sprintf("%s is not a client's piece (its How is %s), and only a client's is given back.", r.Piece,
					cmp.Or(p.How, ledger.Bought)),
				fmt.Sprintf("Type kept, donated, scrapped, stolen or returned to seller in Why, or client in How of %s in Pieces.",
					r.Piece))
		case r.Why == ledger.ReturnedToSeller && client:
			l.fail(fault.CodeRemovalDoesNotFit, r.At.At("why"), r.Why,
				fmt.Sprintf("%s is a client's piece, so it had no seller.", r.Piece),
				fmt.Sprintf("Type given back in Why, or correct How of %s in Pieces.", r.Piece))
		}
	}
}
