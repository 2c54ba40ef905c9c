package checks

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// sameLineTwice notes lines of a table that hold the same as an earlier one.
// It could move what the line holds. Not looked at: tables whose
// rows have names of their own, and what a check above refuses.
func (l *look) sameLineTwice() {
	lines := saidAgain(l.past, func(r ledger.Record) bool {
		switch r.Table {
		case "pieces", "lots", "supplies", "channels", "removals":
			return false
		}
		return true
	})
	slices.SortStableFunc(lines, func(a, b line) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.says, b.says))
	})
	first := map[string]fault.Place{}
	reported := map[fault.Place]bool{}
	refused := l.stockSales()
	for _, r := range lines {
		other, seen := first[r.says]
		switch {
		case refused[r.At]:
		case !seen:
			first[r.says] = r.At
		case other != r.At && !reported[r.At]:
			// A schedule's line is several records of one place: reported once.
			reported[r.At] = true
			l.noteNaming(fault.CodeSameLineTwice, r.At, "",
				"Delete one of the two if it was entered twice; otherwise leave both.", l.moves(r.Record),
				"This line of %s says the same as %s.", r.Title(), other)
		}
	}
}

// nameLeast is how many letters a piece's name needs to be found among other words.
const nameLeast = 3

// priceTwice notes lines of Expenses and Parts that name a piece and have the day and
// the amount that it was bought for: it most likely stands in Pieces already. It could
// move the amount.
func (l *look) priceTwice() {
	came := map[calendar.Date][]*ledger.Piece{}
	for i := range l.past.Pieces {
		p := &l.past.Pieces[i]
		came[p.GotOn] = append(came[p.GotOn], p)
	}
	compare := func(at fault.Place, on calendar.Date, what string, amount money.Cents) {
		for _, p := range came[on] {
			name, paid := words(p.ID), p.Price+p.TaxPaid
			if amount > 0 && len(name) >= nameLeast && strings.Contains(" "+words(what)+" ", " "+name+" ") &&
				slices.Contains([]money.Cents{p.Price, paid, paid + p.Pickup, p.Price + p.Pickup}, amount) {
				l.noteNaming(fault.CodePriceTwice, at.At("what"), what,
					"Delete this line if it is the same money; otherwise leave it.", amount,
					"This line has the day and the amount that %s was bought for (%s).", p.ID, p.At)
				return
			}
		}
	}
	for i := range l.past.Expenses {
		e := &l.past.Expenses[i]
		compare(e.At, e.On, e.What, e.Amount)
	}
	for i := range l.past.Parts {
		p := &l.past.Parts[i]
		compare(p.At, p.On, p.What, p.Cost)
	}
}

// stockSales is the places of sales and returns: a second one is an error.
func (l *look) stockSales() map[fault.Place]bool {
	out := map[fault.Place]bool{}
	for i := range l.past.Sales {
		if s := &l.past.Sales[i]; s.Type == ledger.SaleLine || s.Type == ledger.Return {
			out[s.At] = true
		}
	}
	return out
}

// datesAhead notes dates after the last month that has records of two tables:
// a year mistyped stands alone. It could move what the line holds; a piece's
// own dates move nothing but days.
func (l *look) datesAhead() {
	last := LastMonth(l.books)
	if last == 0 {
		return
	}
	type ahead struct {
		cell fault.Place
		on   calendar.Date
	}
	// Added up by cell, for a schedule's line is several records.
	cents := map[ahead]money.Cents{}
	for r := range l.books.Records() {
		if r.Month > last && r.DayIn != "" {
			cents[ahead{r.At.At(r.DayIn), r.On}] += l.moves(r)
		}
	}
	for p := range ledger.Each(l.books.Pieces) {
		for _, d := range steps(p)[1:] {
			if !d.on.IsZero() && d.on.InMonth() > last {
				cents[ahead{p.At.At(d.column), d.on}] += 0
			}
		}
	}
	for a, moves := range cents {
		l.noteIn(last, fault.CodeDateAhead, a.cell, l.day(a.on),
			fmt.Sprintf("%s is after %s, the last month with records of two tables, so the packs up to then are without it.",
				l.day(a.on), last.Name()),
			"If the day or its year is a slip, correct it; if it is right, leave it: its own month's pack will have it.", moves)
	}
}

// step is one date of a piece's way through the shop.
type step struct {
	column, was string
	did         string // with its verb
	on          calendar.Date
}

// steps are a piece's dates in the order they should come in.
func steps(p *ledger.Piece) []step {
	return []step{
		{"got_on", "came", "came", p.GotOn},
		{"started_on", "started", "was started", p.StartedOn},
		{"finished_on", "finished", "was finished", p.FinishedOn},
		{"listed_on", "listed", "was listed", p.ListedOn},
	}
}

// datesInOrder notes pieces that were started, finished or listed out of
// order, or before they came. It moves no money, only days. A piece may well
// be sold before it is finished.
func (l *look) datesInOrder() {
	for p := range ledger.Each(l.past.Pieces) {
		if l.through != 0 && p.GotOn.InMonth() > l.through {
			continue
		}
		var latest step
		for _, s := range steps(p) {
			switch {
			case s.on.IsZero():
			case s.on.Before(latest.on):
				l.note(fault.CodeDatesOutOfOrder, p.At.At(s.column), l.day(s.on),
					fmt.Sprintf("%s stands as %s on %s but %s only on %s.", p.ID, s.was, l.day(s.on), latest.was, l.day(latest.on)),
					fmt.Sprintf("Correct the day it was %s or the day it %s.", s.was, latest.did), 0)
			default:
				latest = s
			}
		}
	}
}
