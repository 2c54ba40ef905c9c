package checks

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// LastMonth is the last month that has dated records of two tables: the
// default month of the pack. A single slip of the year is then no month of its
// own. Sales and hours that stand on pieces' own rows are a table beside
// Pieces, so that a book of one sheet has months too; a lot's pieces count as
// Lots, and a count as of the month it closes; terms of a channel and the
// Through of a payout are not events and do not count. Where no month has two
// tables it is the last with any record, and 0 without records.
func LastMonth(b *ledger.Books) calendar.Month {
	tables := map[calendar.Month]string{}
	var two, any calendar.Month
	for _, r := range (&look{books: b}).rows(b) {
		if r.on.IsZero() {
			continue
		}
		any = max(any, r.month)
		if first, seen := tables[r.month]; seen && first != r.table {
			two = max(two, r.month)
		} else {
			tables[r.month] = r.table
		}
	}
	if two == 0 {
		return any
	}
	return two
}

// upTo is the Books without the records dated after the month through; 0 is
// no limit. Pieces and lots that come later stay: other records may name them.
func upTo(b *ledger.Books, through calendar.Month) *ledger.Books {
	past := *b
	if through == 0 {
		return &past
	}
	in := func(d calendar.Date) bool { return d.InMonth() <= through }
	past.Purchases = keep(b.Purchases, func(r *ledger.Purchase) bool { return in(r.On) })
	past.Openings = keep(b.Openings, func(r *ledger.Opening) bool { return in(r.On) })
	past.Uses = keep(b.Uses, func(r *ledger.Use) bool { return in(r.On) })
	past.Parts = keep(b.Parts, func(r *ledger.Part) bool { return in(r.On) })
	past.Hours = keep(b.Hours, func(r *ledger.Hours) bool { return in(r.On) })
	past.Trips = keep(b.Trips, func(r *ledger.Trip) bool { return in(r.On) })
	past.Expenses = keep(b.Expenses, func(r *ledger.Expense) bool { return in(r.On) })
	past.Equipment = keep(b.Equipment, func(r *ledger.Equipment) bool { return in(r.On) })
	past.Sales = keep(b.Sales, func(r *ledger.Sale) bool { return in(r.On) })
	past.Counts = keep(b.Counts, func(r *ledger.Count) bool { return r.Closes() <= through })
	past.Moves = keep(b.Moves, func(r *ledger.Move) bool { return in(r.On) })
	past.Removals = keep(b.Removals, func(r *ledger.Removal) bool { return in(r.On) })
	past.OtherIncome = keep(b.OtherIncome, func(r *ledger.OtherIncome) bool { return in(r.On) })
	past.TaxPaid = keep(b.TaxPaid, func(r *ledger.TaxPaid) bool { return in(r.On) })
	past.Payouts = keep(b.Payouts, func(r *ledger.Payout) bool { return in(r.On) })
	return &past
}

// keep is the rows that pass, in a slice of their own.
func keep[R any](rows []R, pass func(*R) bool) []R {
	return slices.DeleteFunc(slices.Clone(rows), func(r R) bool { return !pass(&r) })
}
