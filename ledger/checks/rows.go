package checks

import (
	"encoding/binary"
	"hash/maphash"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// moves is what a record could move, in cents: the money that changed hands by
// it, else an estimate of its size (see value.go). A payout and a channel's
// statement are never income or expense, so they move nothing.
func (l *look) moves(r ledger.Record) money.Cents {
	switch x := r.Row.(type) {
	case *ledger.Use:
		return l.useCents(x)
	case *ledger.Hours:
		return l.hoursCents(x)
	case *ledger.Trip:
		return l.tripCents(x)
	case *ledger.Opening:
		return x.Cost
	case *ledger.Count:
		return l.countCents(x)
	case *ledger.Move:
		return x.Value
	case *ledger.TaxPaid:
		return x.Amount + x.Kept
	case *ledger.Payout, *ledger.Statement:
		return 0
	}
	return r.Cents
}

// content writes what a record says, without its place, so that two lines of
// one table have the same bytes where all their cells are the same. Cells and
// bytes are room to write in.
type content struct {
	cells []ledger.Cell
	bytes []byte
}

func (c *content) of(r ledger.Record) []byte {
	c.cells = r.Cells(c.cells[:0])
	c.bytes = append(c.bytes[:0], r.CountsAs...)
	for _, cell := range c.cells {
		text := cell.String()
		// The length keeps two cells from being taken for one.
		c.bytes = binary.AppendUvarint(c.bytes, uint64(len(text)))
		c.bytes = append(c.bytes, text...)
	}
	return c.bytes
}

// line is a record with its content.
type line struct {
	ledger.Record
	says string
}

// saidAgain is the records of some tables whose content stands at least twice
// in their table. Most records are not among them, so contents are first
// counted by a hash of 64 bits; two contents of one hash do no harm, since
// the lines still carry what they say.
func saidAgain(b *ledger.Books, look func(ledger.Record) bool) []line {
	var c content
	seed := maphash.MakeSeed()
	var hashes []uint64
	count := map[uint64]int{}
	for r := range b.Records() {
		if look(r) {
			hash := maphash.Bytes(seed, c.of(r))
			hashes = append(hashes, hash)
			count[hash]++
		}
	}
	var out []line
	for r := range b.Records() {
		if !look(r) {
			continue
		}
		if count[hashes[0]] > 1 {
			out = append(out, line{r, string(c.of(r))})
		}
		hashes = hashes[1:]
	}
	return out
}

// LastMonth is the last month that has dated records of two tables: the
// default month of the pack. A single slip of the year is then no month of its
// own. Sales and hours that stand on pieces' own rows are a table beside
// Pieces, so that a book of one sheet has months too; a lot's pieces count as
// Lots, and a count as of the month it closes; terms of a channel and the
// Through of a payout are not events and do not count. Where no month has two
// tables it is the last with any record, and 0 without records.
func LastMonth(b *ledger.Books) calendar.Month {
	two, any := monthsOfTwo(b, func(ledger.Record) bool { return true })
	if len(two) == 0 {
		return any
	}
	return slices.Max(two)
}

// monthsOfTwo are the months that two tables have records of, and the last one
// with any; only records that count are looked at.
func monthsOfTwo(b *ledger.Books, counts func(ledger.Record) bool) (two []calendar.Month, any calendar.Month) {
	tables := map[calendar.Month]string{}
	for r := range b.Records() {
		if r.Month == 0 || !counts(r) {
			continue
		}
		any = max(any, r.Month)
		if first, seen := tables[r.Month]; !seen {
			tables[r.Month] = r.CountsAs
		} else if first != r.CountsAs {
			two = append(two, r.Month)
		}
	}
	return two, any
}

// upTo is the Books without the records that count in a month after through; 0
// is no limit. Pieces and lots that come later stay: other records may name them.
func upTo(b *ledger.Books, through calendar.Month) *ledger.Books {
	return b.Where(func(r ledger.Record) bool {
		return through == 0 || r.Month <= through || r.Table == "pieces" || r.Table == "lots"
	})
}
