package headers

import (
	"fmt"
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

// wordPlaces are where money is read that a remark speaks of, by its words.
var wordPlaces = []struct {
	words []string
	where string
}{
	{[]string{"deposit", "down"}, "a deposit as a line of Sales of the type part payment"},
	{[]string{"back", "refund", "refunded"}, "what went back as a line of Sales of the type refund"},
	{[]string{"delivery", "deliver", "delivered", "shipping"}, "what a buyer paid for delivery under Delivery charged"},
	{[]string{"fee", "fees", "commission"}, "a fee under Fee"},
	{[]string{"tip", "tips"}, "a tip in Other income"},
}

// otherPlace is where it is read for all other words.
const otherPlace = "what was bought for a piece in Parts, or what else was paid in Expenses"

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

// noteAmountsOf notes the money that the remarks of one column name.
func (r *Reader) noteAmountsOf(b *Block, c Column) {
	var sum money.Cents
	var where, lines []string
	var words []any
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
		sum += named
		lines = append(lines, "%s %s")
		words = append(words, fault.Row(l.Number), fault.Quoted(sheets.Shortened(text)))
		if place := placeOf(text); !slices.Contains(where, place) {
			where = append(where, place)
		}
	}
	if sum == 0 || columns.LooksMoney(b.sheet, c.Header, c.Index, b.Records, r.settings) {
		return
	}
	p := fault.Problem{Code: fault.CodeAmountInWords, Note: true, Place: at, MoneyCents: int64(sum),
		Fix: fmt.Sprintf("If it changed hands, enter %s. If not, it may stay; to skip this column, %s.",
			strings.Join(where, "; "), b.put(c.Header, settings.NoTable))}
	words = append(words, sum.Grouped())
	r.problems.Add(p.Naming("These remarks name money, and nothing is read out of remarks: "+
		strings.Join(lines, "; ")+". Together %s, in no figure.", words...))
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

// placeOf is where money belongs by the words beside it.
func placeOf(text string) string {
	for _, p := range wordPlaces {
		if columns.HasWord(text, p.words) {
			return p.where
		}
	}
	return otherPlace
}
