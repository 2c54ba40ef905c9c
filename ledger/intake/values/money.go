package values

import (
	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// Money reads an amount in cents by the grammar of measure.Money; whether a
// negative makes sense is the caller's. More decimals than two out of a formula
// are most likely a whole column's.
func Money(c sheets.Cell, s ledger.Settings) (money.Cents, *measure.Refusal) {
	cents, refusal := reading(c, s, measure.Money)
	if refusal != nil && refusal.Code == fault.CodeMoneyDecimals && c.IsFormula() {
		return 0, &measure.Refusal{Code: refusal.Code, WholeColumn: true, Why: "Money has at most two decimals, and this " +
			"formula gives more.",
			Fix: "Put ROUND around the formula, as in =ROUND(A2*B2,2), and save the workbook."}
	}
	return cents, refusal
}
