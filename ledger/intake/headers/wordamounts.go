package headers

import (
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// noteWordAmounts notes columns of remarks whose words name money that is in no column of
// their row: none of it is in a figure. It could move all of it.
func (r *Reader) noteWordAmounts(b *Block) {
	remarks := slices.Clone(b.unknown)
	for _, c := range b.inOrder() {
		if c.Field.Cell == templates.Text && !c.Field.Constraints.Required && c.Field.Name != "receipt" {
			remarks = append(remarks, c)
		}
	}
	for _, c := range remarks {
		if b.count != c.Index+1 {
			r.noteAmountsOf(b, c)
		}
	}
}

// remarksMost is how many remarks of a column are listed.
const remarksMost = 12

// noteAmountsOf notes the money that the remarks of one column name.
func (r *Reader) noteAmountsOf(b *Block, c Column) {
	var sum money.Cents
	var lines []string
	var words []any
	more := ""
	at := b.at(c.Header)
	for _, l := range b.Records {
		text, named := l.Text(c.Index), money.Cents(0)
		for _, x := range columns.AmountsIn(text, values.StyleOf(r.settings)) {
			if !r.hasAmount(b, l, x) {
				named += x
			}
		}
		if named == 0 {
			continue
		}
		if sum == 0 {
			at.Row = l.Number
		}
		if sum += named; len(lines) == remarksMost {
			more = ", and more"
			continue
		}
		lines = append(lines, "%s %s")
		words = append(words, fault.Row(l.Number), fault.Quoted(text))
	}
	if sum == 0 || columns.LooksMoney(b.sheet, c.Header, c.Index, b.Records, r.settings) {
		return
	}
	p := fault.Problem{Code: fault.CodeAmountInWords, Note: true, Place: at, MoneyCents: int64(sum),
		Fix: "If the money in these remarks changed hands, enter it: a deposit as a line of Sales of the type " +
			"part payment, " +
			"what went back as " +
			"one of the type refund, what a buyer paid for delivery under Delivery charged, what was bought in Parts or " +
			"Expenses. If not, it may stay; to skip this column, " + b.put(c.Header, settings.NoTable) + "."}
	words = append(words, sum.Grouped())
	r.problems.Add(p.Naming("These remarks name money, and nothing is read out of remarks: "+
		strings.Join(lines, "; ")+more+". Together %s, in no figure.", words...))
}

// hasAmount says that a row has an amount in a column of money of its own.
func (r *Reader) hasAmount(b *Block, l sheets.Line, x money.Cents) bool {
	for _, c := range b.Columns {
		if is, ok := r.cellMoney(b.sheet, c, l); ok && is.Abs() == x {
			return true
		}
	}
	return false
}
