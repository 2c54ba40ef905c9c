package words

import (
	"cmp"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// Line is a line of a profit sheet's money column.
type Line int

// The lines, in the order of the sheet.
const (
	NoLine Line = iota
	ReceiptsLine
	AcquisitionLine
	PartsLine
	OutsideLine
	SuppliesLine
	SellingLine
	TripsLine
	OverheadLine
	ReceivedLine // for a piece lost: other income, outside its profit
)

// Name is the line as printed.
func (l Line) Name() string {
	return [...]string{"", "Receipts", "Acquisition", "Parts", "Outside work", "Supplies", "Selling costs", "Trips", "Overhead, its share", "Received for it, other income"}[l]
}

// LineOf is the line of its piece's sheet that a posting counts in, and its
// amount with the line's sign. What only moves a piece's cost between
// accounts (sold, returned, removed, late) counts in none: the cost itself
// is in its own line already.
func LineOf(p ledger.Posting) (Line, money.Cents) {
	switch p.Reason {
	case ledger.ReasonSale, ledger.ReasonPartPayment:
		return ReceiptsLine, p.Cents
	case ledger.ReasonRefund, ledger.ReasonReturn:
		return ReceiptsLine, -p.Cents
	case ledger.ReasonAcquired:
		return AcquisitionLine, p.Cents
	case ledger.ReasonPart, ledger.ReasonMove:
		return PartsLine, p.Cents
	case ledger.ReasonOutsideWork:
		return OutsideLine, p.Cents
	case ledger.ReasonSupply, ledger.ReasonRecount, ledger.ReasonBoughtAgain:
		return SuppliesLine, p.Cents
	case ledger.ReasonFee, ledger.ReasonCardFee, ledger.ReasonDelivery, ledger.ReasonExpense:
		return SellingLine, p.Cents
	case ledger.ReasonTrip:
		return TripsLine, p.Cents
	case ledger.ReasonOverhead:
		return OverheadLine, p.Cents
	case ledger.ReasonReceived:
		return ReceivedLine, p.Cents
	}
	return NoLine, 0
}

// What says in words what a posting is for.
func What(p ledger.Posting) string {
	text := How(p)
	switch p.Reason {
	case ledger.ReasonSale, ledger.ReasonPartPayment, ledger.ReasonRefund, ledger.ReasonReturn:
		out := Capital(string(p.Reason))
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
	return Capital(cmp.Or(text, string(p.Reason)))
}
