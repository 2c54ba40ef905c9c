package measure

import (
	"math/big"
	"regexp"

	"piecebook/ledger/money"
)

// perForm is a figure for each unit: `12 m²/l`, `400 sq ft per gal`, `400/gal`.
var perForm = regexp.MustCompile(`(?i)^(.*?)\s*(?:/|\bper\b|\ban?\b)\s*(?:1\s*)?([a-z][a-z. ]*)$`)

// SplitPer splits a text that says a figure for each unit of volume, weight or
// count before the unit; ok is false where it says none.
func SplitPer(text string) (figure string, per Unit, ok bool) {
	m := perForm.FindStringSubmatch(plainBlanks(text))
	if m == nil {
		return "", Unit{}, false
	}
	per, known := FindUnit(m[2])
	return m[1], per, known && per.Kind != Length
}

// CoveragePer reads what a supply does for each unit, such as `400 sq ft/gal`,
// into what a container of the given size does, in the shop's unit of area, to
// 0.01, half to even; a figure without a unit of area is in the shop's. ok is
// false for any other text, and where the unit is of another kind than the
// container's.
func CoveragePer(text string, style Style, metric bool, container Amount) (does *big.Rat, per Unit, ok bool) {
	figure, per, ok := SplitPer(text)
	if !ok || container.Bare || container.Value == nil || !container.Unit.Same(per) {
		return nil, per, false
	}
	number, unit := splitUnit(figure)
	shop := areaUnits["sq ft"]
	if metric {
		shop = areaUnits["sq m"]
	}
	in := shop
	if unit != "" {
		key := unitKey(unit)
		if in, ok = areaUnits[areaSpelt[key]]; !ok {
			return nil, per, false
		}
	}
	x, refusal := Number(number, style)
	if refusal != nil {
		return nil, per, false
	}
	x.Mul(x, new(big.Rat).Quo(in.base, shop.base))
	x.Mul(x, new(big.Rat).Mul(container.Value, container.Unit.In(per)))
	return money.RoundTo(x, 2), per, true
}
