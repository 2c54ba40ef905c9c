package values

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"

	"piecebook/ledger"
	"piecebook/ledger/fault"
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
	x, refusal := reading(c, s, measure.ReadHours)
	if refusal != nil && refusal.Code == fault.CodeHoursNotRead {
		if said, _, ok := measure.HoursAsSaid(c.Text, StyleOf(s)); ok {
			return said, nil
		}
	}
	if refusal == nil && isClock {
		seconds := money.RoundHalfEven(x.Mul(x, big.NewRat(24*60*60, 1)))
		x.SetFrac(seconds, big.NewInt(60*60))
	}
	return x, refusal
}

// partOfDay is a number below 1 with four decimals at least.
var partOfDay = regexp.MustCompile(`^0?[.,](\d{4,20})$`)

// roundMinutes is of how many minutes a time as people write it is a multiple.
const roundMinutes = 5

// PartOfDay is the time, such as 2:30, that a number of hours most likely is
// where it was saved as a part of a day: 0.104166. doubtful says that it may be
// hours too, of whole minutes: 0.083333 is 2:00, or 5 minutes. Blank: it is none.
func PartOfDay(c sheets.Cell) (time string, doubtful bool) {
	m := partOfDay.FindStringSubmatch(c.Text)
	if m == nil || c.IsDate() {
		return "", false
	}
	decimals := min(len(m[1]), 15)
	x, _ := new(big.Rat).SetString("0." + m[1])
	// As near as a number cut off or rounded at its last digit can be.
	off := new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(decimals)), nil))
	near := func(perUnit, step int64) (int64, bool) {
		scaled := new(big.Rat).Mul(x, big.NewRat(perUnit, step))
		n := money.RoundHalfEven(scaled).Int64()
		gap := scaled.Sub(scaled, big.NewRat(n, 1))
		return n * step, gap.Abs(gap).Cmp(new(big.Rat).Mul(off, big.NewRat(perUnit, step))) <= 0
	}
	minutes, is := near(24*60, roundMinutes)
	if !is || minutes == 0 {
		return "", false
	}
	_, doubtful = near(60, 1)
	if doubtful && decimals < 5 {
		return "", false // so people write hours
	}
	return fmt.Sprintf("%d:%02d", minutes/60, minutes%60), doubtful
}
