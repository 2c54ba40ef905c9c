package rows

import (
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// belowZero refuses an amount below 0, told once for a column with the sum of them:
// an export writes every fee so.
func (row *Row) belowZero(name string, c money.Cents) {
	if row.Reported(name) {
		return
	}
	row.SetReported(name)
	row.FailForCause(name, name, fault.CodeMoneyNegative, func(s *Cause) (string, string) {
		why := "An amount below 0 makes no sense here." + s.More()
		if s.Cells > 1 {
			why += fmt.Sprintf(" Together they are %s.", money.Cents(s.Cents).Grouped())
		}
		return why, row.withoutMinus(name)
	}).Cents += int64(c)
}

// withoutMinus is what to type for an amount below 0: what went back to a
// buyer is a line of its own.
func (row *Row) withoutMinus(name string) string {
	switch table := row.Block.Table.Name; {
	case slices.Contains([]string{"fee", "card_fee", "delivery_cost"}, name):
		return "Type what it took from the sale, without the minus sign. If it was given back, type it so in a line of " +
			"Sales with refund or return in the column type."
	case table == "sales":
		return "If the money went back to the buyer, type refund in the column type (return, if the piece came " +
			"back too) and " +
			"the amount without the minus sign. If not, type it without the minus sign."
	case table == "pieces":
		return "If the money went back to a buyer, enter it as a line of Sales with refund or return in the " +
			"column type. If " +
			"not, type it without the minus sign or the brackets."
	}
	return "Type it without the minus sign or the brackets."
}
