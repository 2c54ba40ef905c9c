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
	said, refusal := MoneySaid(c, s)
	return said.Cents, refusal
}

// MoneySaid is Money with how the amount was said, where it is more than a number.
func MoneySaid(c sheets.Cell, s ledger.Settings) (measure.SaidMoney, *measure.Refusal) {
	cents, refusal := reading(c, s, measure.Money)
	switch {
	case c.IsTick():
		return measure.SaidMoney{}, &measure.Refusal{Code: fault.CodeMoneyNotRead,
			Why: "This is a tick box, and a tick is no amount of money.",
			Fix: "Type the amount, or put the ticks into a column of their own."}
	case c.IsPercent():
		// What is stored is a hundredth of what is shown: 0.13 for 13 %.
		return measure.SaidMoney{}, &measure.Refusal{Code: fault.CodeMoneyNotRead, WholeColumn: true,
			Why: "This cell is shown as a percentage, and a percentage is no amount of money.",
			Fix: "Type the amount that it makes, or format the cell as a plain number if that is what it is."}
	case refusal == nil:
		return measure.SaidMoney{Cents: cents}, nil
	case refusal.Code == fault.CodeMoneyDecimals && c.IsFormula():
		return measure.SaidMoney{}, &measure.Refusal{Code: refusal.Code, WholeColumn: true,
			Why: "Money has at most two decimals, and this formula gives more.",
			Fix: "Put ROUND around the formula, as in =ROUND(A2*B2,2), and save the workbook."}
	case refusal.Code == fault.CodeMoneyNotRead:
		if said, ok := measure.MoneyAsSaid(c.Text, StyleOf(s)); ok {
			return said, nil
		}
	}
	return measure.SaidMoney{}, refusal
}
