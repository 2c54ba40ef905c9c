package values

import (
	"math/big"
	"strings"
	"unicode"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
)

// Amount reads an amount of a supply by the grammar of measure.ReadAmount: 8 fl
// oz, 1/2 qt, or a bare number, which counts containers.
func Amount(c sheets.Cell, s ledger.Settings) (measure.Amount, *measure.Refusal) {
	return reading(c, s, measure.ReadAmount)
}

// Containers reads an amount above 0 as a number of containers of a size; of 0
// too where zero is true.
func Containers(c sheets.Cell, s ledger.Settings, size *big.Rat, unit measure.Unit, zero bool) (*big.Rat,
	*measure.Refusal) {
	a, refusal := Amount(c, s)
	if refusal != nil {
		return nil, refusal
	}
	x, refusal := a.InContainers(size, unit)
	switch {
	case refusal != nil:
		return nil, refusal
	case x.Sign() > 0, zero && x.Sign() == 0:
		return x, nil
	case zero:
		return nil, &measure.Refusal{Code: fault.CodeAmountRange, Why: "An amount below 0 makes no sense here.",
			Fix: "Type what there is, 0 for nothing."}
	}
	return nil, &measure.Refusal{Code: fault.CodeAmountRange, Why: "An amount of 0 or less makes no sense here.",
		Fix: "Type the amount, such as 8 fl oz."}
}

// Container reads what one container holds, whose unit is needed.
func Container(c sheets.Cell, s ledger.Settings) (measure.Amount, *measure.Refusal) {
	a, refusal := Amount(c, s)
	switch {
	case refusal != nil:
		return measure.Amount{}, refusal
	case a.Bare:
		return measure.Amount{}, &measure.Refusal{Code: fault.CodeUnitMissing, Why: "What a container holds needs a unit.",
			Fix: "Type the number and its unit, such as 1 qt, 12 oz or 50 sheets."}
	case a.Value.Sign() <= 0:
		return measure.Amount{}, &measure.Refusal{Code: fault.CodeAmountRange, Why: "A container of 0 or less " +
			"makes no sense.",
			Fix: "Type what one container holds, such as 1 qt."}
	}
	return a, nil
}

// WithUnit is a number with the unit that stands in a cell beside it; one that has a
// unit already, or none beside it, stays as it is.
func WithUnit(number, unit string) string {
	if number == "" || unit == "" || strings.ContainsFunc(number, unicode.IsLetter) {
		return number
	}
	return number + " " + unit
}
