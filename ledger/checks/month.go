package checks

import (
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
	for r := range b.Records() {
		if r.Month == 0 {
			continue
		}
		any = max(any, r.Month)
		if first, seen := tables[r.Month]; seen && first != r.CountsAs {
			two = max(two, r.Month)
		} else {
			tables[r.Month] = r.CountsAs
		}
	}
	if two == 0 {
		return any
	}
	return two
}

// upTo is the Books without the records that count in a month after through; 0
// is no limit. Pieces and lots that come later stay: other records may name them.
func upTo(b *ledger.Books, through calendar.Month) *ledger.Books {
	return b.Where(func(r ledger.Record) bool {
		return through == 0 || r.Month <= through || r.Table == "pieces" || r.Table == "lots"
	})
}
