package values

import (
	"math/big"
	"strconv"

	"piecebook/ledger"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// Hours reads hours by the grammar of measure.ReadHours. A workbook keeps `2:30`
// as a part of a day shown as a time; it is brought back to whole seconds, half
// to even. Whole days shown as a date are no time: `1/2` typed for a half became one.
func Hours(c sheets.Cell, s ledger.Settings) (*big.Rat, *measure.Refusal) {
	isClock := c.InBook && IsRaw(c.Text) && c.IsDate()
	if days, err := strconv.ParseFloat(c.Text, 64); isClock && err == nil && (days >= turnedLeast ||
		c.IsDay() && days >= 1) {
		return nil, numberIsDate()
	}
	x, refusal := measure.ReadHours(figure(c, s))
	if refusal == nil && isClock {
		seconds := money.RoundHalfEven(x.Mul(x, big.NewRat(24*60*60, 1)))
		x.SetFrac(seconds, big.NewInt(60*60))
	}
	return x, refusal
}
