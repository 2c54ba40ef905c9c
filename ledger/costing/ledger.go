// Package costing turns Books into a costed ledger: a fold over months of
// Month(opening, the month's records, settings) -> postings and closing. Pure
// functions, records in, postings out; all arithmetic exact. Over a third of the
// room are tests: books worked out by hand, which stand beside what they check.
//
// Where the contract leaves room:
//   - How Buying again is read stands in buyagain.go.
//   - A layer that shrinks by a take-back keeps what it had drawn so far, amount
//     and cost.
//   - A piece sold, returned and sold again within one month moves no stock; sold,
//     returned and scrapped comes back at last month's book cost and leaves at
//     this month's.
//   - Openings are on the shelf before the books' first month, whatever their day.
//   - Whether more was moved from a piece than it cost is judged at the month's
//     end, supplies included.
package costing

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// Ledger is the costed books up to and with a month.
type Ledger struct {
	Books    *ledger.Books
	Before   MonthResult   // what was there before the first month: the Openings table
	Months   []MonthResult // every month from the first record's to the last asked for, in order
	Problems fault.List    // errors and notes met while costing

	postings []ledger.Posting // of Before and all Months
}

// MonthResult is one month of the fold.
type MonthResult struct {
	Month    calendar.Month
	Postings []ledger.Posting
	Closing  State
	Basis    map[string]ledger.Basis // by supply: how what it drew was known
}

// Run costs the books from their first record's month to and with through.
// The books must be free of errors, or be those an earlier step left after
// refusing rows; nothing here panics on rows that contradict each other.
func Run(b *ledger.Books, through calendar.Month) *Ledger {
	first := FirstMonth(b, through)
	l := &Ledger{Books: b}
	l.Before = openingShelf(b, first-1)
	l.Resume(l.Before.Closing, through)
	return l
}

// Resume goes on from the closing of an earlier month to and with through.
func (l *Ledger) Resume(closing State, through calendar.Month) {
	ix := newIndex(l.Books)
	closing = closing.forFold()
	for m := closing.Month + 1; m <= through; m++ {
		result, problems := ix.month(closing, m)
		l.Months = append(l.Months, result)
		l.Problems.Join(problems)
		closing = result.Closing
	}
	l.join()
}

// Of is a ledger of months that are there already, in order: of closed ones, say.
func Of(b *ledger.Books, before MonthResult, months []MonthResult, problems fault.List) *Ledger {
	l := &Ledger{Books: b, Before: before, Months: slices.Clone(months), Problems: problems}
	l.join()
	return l
}

// Postings is every posting up to and with the last month, openings first.
// They are the ledger's own, not to be changed.
func (l *Ledger) Postings() []ledger.Posting { return slices.Clip(l.postings) }

// join lays the postings of all months end to end, so that they are held once.
func (l *Ledger) join() {
	n := len(l.Before.Postings)
	for _, m := range l.Months {
		n += len(m.Postings)
	}
	l.postings = append(make([]ledger.Posting, 0, n), l.Before.Postings...)
	for m := range ledger.Each(l.Months) {
		from := len(l.postings)
		l.postings = append(l.postings, m.Postings...)
		m.Postings = slices.Clip(l.postings[from:])
	}
}

// At is the closing of a month; months before the first have the openings only.
func (l *Ledger) At(m calendar.Month) State {
	closing := l.Before.Closing
	for _, r := range l.Months {
		if r.Month <= m {
			closing = r.Closing
		}
	}
	return closing
}

// FirstMonth is the month of the earliest record that costing reads, or the
// given month where there is none earlier. Openings are on the shelf before
// the first month whatever day they say, lots count where their pieces do, and
// a payout is neither income nor expense.
func FirstMonth(b *ledger.Books, through calendar.Month) calendar.Month {
	first := through
	for r := range b.Records() {
		switch r.Table {
		case "openings", "lots", "payouts":
		default:
			if r.Month != 0 {
				first = min(first, r.Month)
			}
		}
	}
	return first
}
