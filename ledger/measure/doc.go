// Package measure reads what people write for numbers, amounts, lengths,
// hours and money, converts units exactly, and works out finish areas.
//
// A text is matched whole against a written grammar before anything is
// converted: `7 1/2` is seven and a half, `7 1/2x` is refused, never 7. All
// results are exact fractions; only areas of round shapes are not rational,
// and those are carried to 60 digits and more.
package measure

import (
	"strings"

	"piecebook/ledger/fault"
)

// Refusal is why a text was not taken: a code, why it stops us and what to
// type, both whole sentences. Field names the measure at fault where the text
// is not the only candidate (the width of a shape), otherwise it is empty.
type Refusal struct {
	Code        fault.Code
	Field       string
	Why         string
	Fix         string
	FixNeeded   string // in place of Fix where the cell cannot be left blank; empty: the same
	Free        bool   // the text says that it cost nothing
	WholeColumn bool   // what a program did to all cells of a column, most likely
}

// Error is the two sentences.
func (r *Refusal) Error() string { return r.Why + " " + r.Fix }

// refuse makes a Refusal without a field.
func refuse(code fault.Code, why, fix string) *Refusal {
	return &Refusal{Code: code, Why: why, Fix: fix}
}

// Style is how the shop writes numbers.
type Style struct {
	DecimalComma bool   // 1.234,50 instead of 1,234.50
	Currency     string // ISO code that may stand beside money: USD
}

// example is an example number in a message, with the shop's decimal mark.
func (s Style) example(number string) string {
	if s.DecimalComma {
		return strings.ReplaceAll(number, ".", ",")
	}
	return number
}
