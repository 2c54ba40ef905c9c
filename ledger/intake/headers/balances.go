package headers

import (
	"fmt"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// saysOther says what a row is by the words that its table needs, if no record.
func (b *Block) saysOther(l sheets.Line) columns.NoRecord {
	for _, c := range b.Columns {
		if f := c.Field; f.Constraints.Required && f.Cell != templates.Date && !holdsNumber(f.Cell) {
			if is := columns.OtherThanRecord(l.Text(c.Index), b.Table.Name == "purchases"); is != columns.MayBeRecord {
				return is
			}
		}
	}
	return columns.MayBeRecord
}

// noteOther notes a row that is no record by its words: a balance, or on a slip what was
// owed and what paid it.
func (r *Reader) noteOther(b *Block, l sheets.Line, at fault.Place, says columns.NoRecord) {
	p := fault.Problem{Code: fault.CodeTotalsRow, Note: true, AsksNothing: true, Place: at,
		Found: sheets.Shortened(l.Shown()),
		Why:   "This row says how much was owed or how it was paid, and is no record, so it was skipped.",
		Fix:   "It may stay. If it was bought, say what it is."}
	switch says {
	case columns.SaysPayment:
		b.sums = append(b.sums, l)
	case columns.SaysTender:
		b.tender = append(b.tender, l)
	default:
		b.carried = append(b.carried, l)
		cents := r.moneyIn(b, l)
		p.Why = fmt.Sprintf("This row carries a balance of %s from elsewhere and is no record, so it was skipped.",
			money.Cents(cents).Grouped())
		p.Fix = "It may stay. If it is money that came in or went out here, say for what."
	}
	r.problems.Add(p)
}
