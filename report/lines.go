package report

import (
	"cmp"

	"piecebook/ledger"
	"piecebook/ledger/money"
	"piecebook/report/words"
)

// line is a line of a profit sheet's money column.
type line int

// The lines, in the order of the sheet.
const (
	noLine line = iota
	receiptsLine
	acquisitionLine
	partsLine
	outsideLine
	suppliesLine
	sellingLine
	tripsLine
	overheadLine
	receivedLine // for a piece lost: other income, outside its profit
)

// name is the line as printed.
func (l line) name() string {
	return [...]string{"", "Receipts", "Acquisition", "Parts", "Outside work", "Supplies", "Selling costs", "Trips", "Overhead, its share", "Received for it, other income"}[l]
}

// lineOf is the line of its piece's sheet that a posting counts in, and its
// amount with the line's sign. What only moves a piece's cost between
// accounts (sold, returned, removed, late) counts in none: the cost itself
// is in its own line already.
func lineOf(p ledger.Posting) (line, money.Cents) {
	switch p.Reason {
	case ledger.ReasonSale, ledger.ReasonPartPayment:
		return receiptsLine, p.Cents
	case ledger.ReasonRefund, ledger.ReasonReturn:
		return receiptsLine, -p.Cents
	case ledger.ReasonAcquired:
		return acquisitionLine, p.Cents
	case ledger.ReasonPart, ledger.ReasonMove:
		return partsLine, p.Cents
	case ledger.ReasonOutsideWork:
		return outsideLine, p.Cents
	case ledger.ReasonSupply, ledger.ReasonRecount:
		return suppliesLine, p.Cents
	case ledger.ReasonFee, ledger.ReasonCardFee, ledger.ReasonDelivery, ledger.ReasonExpense:
		return sellingLine, p.Cents
	case ledger.ReasonTrip:
		return tripsLine, p.Cents
	case ledger.ReasonOverhead:
		return overheadLine, p.Cents
	case ledger.ReasonReceived:
		return receivedLine, p.Cents
	}
	return noLine, 0
}

// what says in words what a posting is for.
func what(p ledger.Posting) string {
	text := words.How(p)
	switch p.Reason {
	case ledger.ReasonSale, ledger.ReasonPartPayment, ledger.ReasonRefund, ledger.ReasonReturn:
		out := capital(string(p.Reason))
		if p.Group != "" {
			out += ", " + p.Group
		}
		if text != "" {
			out += ": " + text
		}
		return out
	case ledger.ReasonExpense:
		if p.Group != "" {
			text += " (" + p.Group + ")"
		}
	}
	return capital(cmp.Or(text, string(p.Reason)))
}
