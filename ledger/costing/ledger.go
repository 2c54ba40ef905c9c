// Package costing turns Books into a costed ledger: a fold over months of
// Month(opening, the month's records, settings) -> postings and closing. Pure
// functions, records in, postings out; all arithmetic exact.
package costing

import (
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// Ledger is the costed books up to and with a month.
type Ledger struct {
	Books    *ledger.Books
	Months   []MonthResult // every month from the first record's to Through, in order
	Problems fault.List    // errors and notes met while costing
}

// MonthResult is one month of the fold.
type MonthResult struct {
	Month    calendar.Month
	Postings []ledger.Posting
	Closing  State
}
