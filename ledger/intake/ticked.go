package intake

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
)

// ticked says that a tick stands in a column of ticks.
func (rec *record) ticked(name string) bool {
	text, ok := rec.Text(name)
	if !ok {
		return false
	}
	yes, known := values.Ticked(text)
	if !known {
		rec.Fail(name, fault.CodeYesNoNotRead, "This is no tick.", "Type x or yes where it is sold, or leave the cell blank.")
	}
	return yes
}

// tickedPrice is what a ticked piece sold for: its sold price, else its asking
// price. Its day is asked for where it is blank.
func (rec *record) tickedPrice(price money.Cents, priced bool, p *ledger.Piece) (money.Cents, bool) {
	if !rec.Filled("sold_on") {
		rec.Fail("sold_on", fault.CodeSaleIncomplete, "The piece is ticked as sold but has no day of sale.",
			"Type the day it was sold"+rec.inColumn("sold_on")+".")
	}
	if !priced && p.Asking != nil {
		rec.atAsking = p.Asking.Abs()
		return *p.Asking, true
	}
	return price, priced
}

// inColumn says which column has to be added where there is none.
func (rec *record) inColumn(field string) string {
	if _, there := rec.Block.Columns[field]; there {
		return ""
	}
	return fmt.Sprintf(", in a column %s", rec.Field(field).Title)
}
