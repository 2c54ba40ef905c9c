package headers

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

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

// slipAbove is what the lines of one day and store right above the line with what a slip
// comes to are together; none of other rows.
func (r *Reader) slipAbove(b *Block, c Column, l sheets.Line) (sum []*big.Rat) {
	on, dated := b.Columns["bought_on"]
	from, named := b.Columns["from"]
	if !dated || !named || b.saysOther(l) != columns.SaysPayment {
		return nil
	}
	var last sheets.Line
	for _, line := range slices.Backward(b.sheet.Lines[1:]) {
		switch x, _ := r.figureOf(b.sheet, c, line); {
		case line.Number >= l.Number || b.holdsNothing(line):
		case b.saysOther(line) != columns.MayBeRecord || isAmong(b.sums, line) || x == nil || last.Number > 0 &&
			(line.Text(on.Index) != last.Text(on.Index) || line.Text(from.Index) != last.Text(from.Index)):
			return sum
		case sum == nil:
			sum, last = []*big.Rat{x}, line
		default:
			sum = []*big.Rat{new(big.Rat).Add(sum[0], x)}
		}
	}
	return sum
}

// isRemark says that a row has nothing but words in one column that no record needs, and
// nothing of it is crossed out.
func (b *Block) isRemark(l sheets.Line) bool {
	if sheets.Filled(l.Cells) != 1 || len(columns.Needed(b.Table)) < 2 || b.IsStruck(l.Number) {
		return false
	}
	for _, c := range b.Columns {
		if text := l.Text(c.Index); text != "" {
			return c.Field.Cell == templates.Text && !c.Field.Constraints.Required && strings.Contains(text, " ")
		}
	}
	return false
}

// IsStruck says that a row or cells of it are crossed out.
func (b *Block) IsStruck(row int) bool {
	return slices.ContainsFunc(b.struck, func(l sheets.Line) bool { return l.Number == row })
}
