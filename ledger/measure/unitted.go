package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// written is a unit that may stand after a number whose unit is the shop's
// anyway: it is ignored where it is the shop's own.
type written struct {
	name   string   // as printed
	metric bool     // of a metric shop
	base   *big.Rat // in square feet or miles
	shop   bool     // the unit a shop works in, rather than one of its fractions
}

// Square feet: a square inch is 1/144, a square yard 9; a square metre is
// 1/0.09290304 (NIST Handbook 44, Appendix C). Miles: a km is 1/1.609344.
var (
	areaUnits = map[string]written{
		"sq ft": {"sq ft", false, big.NewRat(1, 1), true}, "sq in": {"sq in", false, big.NewRat(1, 144), false},
		"sq yd": {"sq yd", false, big.NewRat(9, 1), false}, "sq m": {"sq m", true, new(big.Rat).Inv(SqFtInSqM()), true},
		"sq cm": {"sq cm", true, new(big.Rat).Quo(new(big.Rat).Inv(SqFtInSqM()), big.NewRat(10000, 1)), false},
	}
	distanceUnits = map[string]written{
		"miles": {"miles", false, big.NewRat(1, 1), true}, "km": {"km", true, new(big.Rat).Inv(MileInKm()), true},
	}
)

// areaSpelt and distanceSpelt are what people write for them.
var (
	areaSpelt = map[string]string{"sqft": "sq ft", "sqfeet": "sq ft", "squarefeet": "sq ft", "squarefoot": "sq ft",
		"sqfoot": "sq ft", "sf": "sq ft",
		"ft2": "sq ft", "sqf": "sq ft", "sqin": "sq in", "squareinches": "sq in", "in2": "sq in", "sqyd": "sq yd", "squareyards": "sq yd", "yd2": "sq yd",
		"sqm": "sq m", "m2": "sq m", "squaremetres": "sq m", "squaremeters": "sq m", "squaremetre": "sq m", "squaremeter": "sq m",
		"sqmetres": "sq m", "sqmeters": "sq m", "qm": "sq m", "cm2": "sq cm", "sqcm": "sq cm"}
	distanceSpelt = map[string]string{"mile": "miles", "miles": "miles", "mi": "miles", "km": "km", "kms": "km",
		"kilometres": "km", "kilometers": "km", "kilometre": "km", "kilometer": "km"}
)

// ReadArea reads an area in the shop's unit, square feet or square metres: a
// bare number, or one with that unit after it. Another unit is refused with
// what it comes to, to 0.01, half to even.
func ReadArea(text string, style Style, metric bool) (*big.Rat, *Refusal) {
	return readUnitted(text, style, metric, areaUnits, areaSpelt)
}

// ReadDistance reads a distance in miles, or in km in a metric shop, likewise.
func ReadDistance(text string, style Style, metric bool) (*big.Rat, *Refusal) {
	return readUnitted(text, style, metric, distanceUnits, distanceSpelt)
}

// IsShopUnit says that a text is a unit of area or distance, however it is spelt.
func IsShopUnit(text string) bool {
	key := unitKey(text)
	return areaSpelt[key] != "" || distanceSpelt[key] != ""
}

// unitSigns are what a unit is written with and without.
var unitSigns = strings.NewReplacer("²", "2", " ", "", ".", "", "^", "")

// unitKey is a unit's spelling for comparing.
func unitKey(text string) string {
	return unitSigns.Replace(strings.ToLower(text))
}

func readUnitted(text string, style Style, metric bool, units map[string]written, spelt map[string]string) (*big.Rat,
	*Refusal) {
	text = plainBlanks(text)
	number, unit := splitUnit(text)
	u, known := units[spelt[unitKey(unit)]]
	if unit == "" || !known {
		number = text
	}
	x, refusal := Number(number, style)
	if refusal != nil || unit == "" || !known {
		return x, refusal
	}
	if u.shop && u.metric == metric {
		return x, nil
	}
	for _, own := range units {
		if own.shop && own.metric == metric {
			in := money.RoundTo(new(big.Rat).Quo(new(big.Rat).Mul(x, u.base), own.base), 2)
			return nil, refuse(fault.CodeUnitNotShops, fmt.Sprintf("The shop works in %s (units in settings.toml), and "+
				"this is in %s.", own.name, u.name),
				fmt.Sprintf("Type %s, which is the same.", style.example(money.AtMost(in, 2))))
		}
	}
	return nil, refusal
}

// eitherMark is a number with one mark and three digits after it.
var eitherMark = regexp.MustCompile(`^[-−+]?(\d{1,3})[.,](\d{3})$`)

// EitherWay is what else an area or a distance may be whose mark was read as
// one for thousands: of 33,740 it is 33.740. Blank where there is none.
func EitherWay(text string, style Style) string {
	number, _ := splitUnit(plainBlanks(text))
	m := eitherMark.FindStringSubmatch(number)
	if m == nil || strings.Contains(number, ",") == style.DecimalComma || strings.TrimLeft(m[1], "0") == "" {
		return ""
	}
	return style.example(m[1] + "." + m[2])
}
