package values

import (
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
)

// rawNumber is a number as a workbook stores it: 1250.5, 4.4000000000000004, 1E-3.
var rawNumber = regexp.MustCompile(`^-?\d+(\.\d+)?(E[-+]?\d+)?$`)

// IsRaw says that a text is a number as workbooks store them.
func IsRaw(text string) bool { return rawNumber.MatchString(text) }

// The marks of numbers that can only be read one way: 7.5 and 7.1234 have a
// point for decimals, 7,5 a comma; 1.250 and 1,250 may be either.
var (
	pointOnly = regexp.MustCompile(`\d\.(\d{1,2}|\d{4,})(\D|$)`)
	commaOnly = regexp.MustCompile(`\d,(\d{1,2}|\d{4,})(\D|$)`)
)

// HasPoint says that a number as people write it has a point for its decimals
// and cannot be read otherwise; HasComma the same of a comma.
func HasPoint(c sheets.Cell) bool {
	return !(c.InBook && IsRaw(c.Text)) && pointOnly.MatchString(c.Text)
}

// HasComma says that a number can only be read with a comma for its decimals.
func HasComma(text string) bool { return commaOnly.MatchString(text) }

// StyleOf is how a shop writes numbers.
func StyleOf(s ledger.Settings) measure.Style {
	return measure.Style{DecimalComma: s.DecimalComma, Currency: s.Currency}
}

// PlainStyle is how the numbers of a whole column are written, whose cells are
// not looked at one by one: in a workbook mostly stored, with a point.
func PlainStyle(s ledger.Settings, inBook bool) measure.Style {
	return measure.Style{DecimalComma: s.DecimalComma && !inBook, Currency: s.Currency}
}

// figure is a cell's text for reading a number, with the style it is written
// in. A number cell of a workbook is stored with a point whatever the shop's
// style, and with binary residue (4.4000000000000004), which is taken off by
// rounding to the 15 digits a spreadsheet shows; the way through a binary
// number serves only that.
func figure(c sheets.Cell, s ledger.Settings) (string, measure.Style) {
	text, style := c.Text, StyleOf(s)
	if !c.InBook || !IsRaw(text) {
		return text, style
	}
	if style.DecimalComma && strings.Contains(text, ".") && c.IsText() {
		return text, style
	}
	style.DecimalComma = false
	if strings.Contains(text, ".") && !strings.Contains(text, "E") && !c.IsText() {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".") // a number, whose zeros some programs save
	}
	if len(text) <= 15 && !strings.Contains(text, "E") {
		return text, style
	}
	binary, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text, style
	}
	exact, err := decimal.NewFromString(strconv.FormatFloat(binary, 'g', 15, 64))
	if err != nil || exact.Exponent() > 20 || exact.Exponent() < -40 {
		return text, style // too large or small to be written out
	}
	return exact.String(), style
}

// Days that a spreadsheet makes of fractions and of numbers with a hyphen are
// of about these counts: October 1954 to January 2119.
const turnedLeast, turnedMost = 20000, 80000

// turnedToDate says that a number was turned into a date: `1/2` typed for a half
// becomes the 2nd of January.
func turnedToDate(c sheets.Cell) bool {
	if !c.IsDate() {
		return false
	}
	days, err := strconv.Atoi(c.Text)
	return err == nil && days >= turnedLeast && days <= turnedMost
}

// numberIsDate refuses a number that a spreadsheet turned into a date.
func numberIsDate() *measure.Refusal {
	return &measure.Refusal{Code: fault.CodeNumberIsDate, Why: "The spreadsheet turned what was typed here into a date.",
		Fix: "Format the cell as a number or text and type it again, a half as 0.5."}
}

// reading reads a figure by one of the grammars of package measure.
func reading[T any](c sheets.Cell, s ledger.Settings, read func(string, measure.Style) (T, *measure.Refusal)) (value T,
	refusal *measure.Refusal) {
	if turnedToDate(c) {
		return value, numberIsDate()
	}
	return read(figure(c, s))
}

// Number reads a number.
func Number(c sheets.Cell, s ledger.Settings) (*big.Rat, *measure.Refusal) {
	return reading(c, s, measure.Number)
}

// Unitted reads a number that may have a unit after it, by a grammar that asks
// whether the shop works in metric units.
func Unitted(c sheets.Cell, s ledger.Settings, read func(string, measure.Style, bool) (*big.Rat, *measure.Refusal)) (
	*big.Rat, *measure.Refusal) {
	return reading(c, s, func(text string, style measure.Style) (*big.Rat, *measure.Refusal) {
		return read(text, style, s.Metric())
	})
}

// Percent reads a number that may have a percent sign: 12.5 for 12.5 %. A number
// that a workbook shows as a percentage is what it shows, and stored as a
// hundredth of it. small: a bare number above 0 and below 1, which may be meant
// as a calculator has it, 0.12 for 12 %.
func Percent(c sheets.Cell, s ledger.Settings) (x *big.Rat, small bool, refusal *measure.Refusal) {
	signed := strings.HasSuffix(c.Text, "%")
	x, refusal = reading(c, s, func(text string, style measure.Style) (*big.Rat, *measure.Refusal) {
		return measure.Number(strings.TrimSpace(strings.TrimSuffix(text, "%")), style)
	})
	switch {
	case refusal != nil || signed:
	case c.IsPercent():
		x.Mul(x, big.NewRat(100, 1))
	default:
		small = x.Sign() > 0 && x.Cmp(big.NewRat(1, 1)) < 0
	}
	return x, small, refusal
}

// Shown is a cell's text, and of a number shown as a percentage what is shown: 13% of 0.13.
func Shown(c sheets.Cell) string {
	x, err := decimal.NewFromString(c.Text)
	if !c.IsPercent() || err != nil || strings.Contains(c.Text, "E") {
		return c.Text
	}
	return x.Shift(2).String() + "%"
}
