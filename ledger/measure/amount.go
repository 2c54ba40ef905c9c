package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
)

// Amount is a number of a unit. A bare number has no unit: what it counts is
// for the caller to say.
type Amount struct {
	Value *big.Rat
	Unit  Unit
	Bare  bool
}

// ReadAmount reads `8 fl oz`, `1/2 qt`, `250ml`, `3 sheets`, or a bare number.
func ReadAmount(text string, style Style) (Amount, *Refusal) {
	text = plainBlanks(text)
	number, unit := splitUnit(text)
	value, refusal := Number(number, style)
	if refusal != nil {
		if refusal.Code == fault.CodeNumberNotRead {
			refusal = whyNoAmount(text, number, unit, style)
		}
		return Amount{}, refusal
	}
	if unit == "" {
		return Amount{Value: value, Bare: true}, nil
	}
	u, known := FindUnit(unit)
	if !known {
		return Amount{}, unknownUnit(number, unit)
	}
	return Amount{Value: value, Unit: u}, nil
}

// halves are words that stand for a number.
var halves = regexp.MustCompile(`(?i)^(?:a |one )?(half|quarter|third)\b(?: (?:a|of a|of the|of))?\s*(.*)$`)

// parts are the words of halves as they can be typed.
var parts = map[string]struct{ fraction, decimal string }{"half": {"1/2", "0.5"}, "third": {"1/3", "0.33"},
	"quarter": {"1/4", "0.25"}}

// whyNoAmount tells a text that has no number, or none that can be read.
func whyNoAmount(text, number, unit string, style Style) *Refusal {
	if u, known := FindUnit(unit); known && number == "" {
		return refuse(fault.CodeAmountNotRead, "There is a unit here and no number before it.",
			fmt.Sprintf("Type the number too, such as 1 %s.", u.Name))
	}
	if m := halves.FindStringSubmatch(text); m != nil {
		part := parts[strings.ToLower(m[1])]
		// Of a container without a unit: a spreadsheet makes a date of 1/2 alone.
		fix := fmt.Sprintf("Type %s for that much of a container, or the amount with its unit, such as 1/2 pt.",
			style.example(part.decimal))
		if u, known := FindUnit(m[2]); known && u.Kind != Count {
			fix = fmt.Sprintf("Type %s %s.", part.fraction, u.Name)
		}
		return refuse(fault.CodeAmountNotRead, "This is a word where a number is needed.", fix)
	}
	if r := remark(fault.CodeAmountNotRead, text, "an amount", style); r != nil && (number != "" ||
		!strings.ContainsAny(text, "0123456789")) {
		return r
	}
	return refuse(fault.CodeAmountNotRead, "This is not an amount.", "Type a number and a unit, such as 8 fl oz, or a "+
		"bare number of containers.")
}

// splitUnit splits a text before the first letter or inch or foot mark.
func splitUnit(text string) (number, unit string) {
	at := strings.IndexFunc(text, func(r rune) bool {
		return unicode.IsLetter(r) || strings.ContainsRune("\"'″′”’", r)
	})
	// 1e9 is an exponent and NaN no unit: Number says so better.
	if at < 0 || exponent.MatchString(text) || notFinite.MatchString(text) {
		return text, ""
	}
	return strings.TrimSpace(text[:at]), text[at:]
}

// unknownUnit names the unit and the nearest known one. One that begins with a
// known unit has words after it: `1 quart can`, `3 sheets of 220`.
func unknownUnit(number, unit string) *Refusal {
	known := make([]string, 0, len(spellings))
	for s := range spellings {
		known = append(known, s)
	}
	fix := "Type one of " + strings.Join(UnitNames(), ", ") + "."
	words := strings.Fields(strings.ReplaceAll(unit, ".", " "))
	for n := len(words) - 1; n > 0; n-- {
		if _, is := FindUnit(strings.Join(words[:n], " ")); is {
			return refuse(fault.CodeUnitUnknown, fmt.Sprintf("There are words after the unit %s.",
				strings.Join(words[:n], " ")),
				fmt.Sprintf("Type %s %s alone; what else there is to say belongs in the name.", number,
					strings.Join(words[:n], " ")))
		}
	}
	if near := fault.Nearest(unit, known); near != "" && len([]rune(unit)) > 2 {
		fix = fmt.Sprintf("The nearest known unit is %s. %s", near, fix)
	}
	return refuse(fault.CodeUnitUnknown, fmt.Sprintf("The unit %q is not known.", unit), fix)
}

// InContainers is an amount as a number of containers of the given size. An
// amount of another kind than the container's is refused, the message naming
// the container's own unit.
func (a Amount) InContainers(size *big.Rat, unit Unit) (*big.Rat, *Refusal) {
	if a.Bare {
		return new(big.Rat).Set(a.Value), nil
	}
	if !a.Unit.Same(unit) {
		return nil, a.otherKind(unit)
	}
	inUnit := new(big.Rat).Mul(a.Value, a.Unit.In(unit))
	return inUnit.Quo(inUnit, size), nil
}

// otherKind refuses an amount in a unit of another kind than the container's.
// An ounce is a weight, and the fluid ounce of a can's label is another unit,
// so where those two meet the way out is named.
func (a Amount) otherKind(unit Unit) *Refusal {
	two := big.NewRat(2, 1)
	why := fmt.Sprintf("An amount in %s cannot be taken from a container that is counted in %s.", a.Unit.Plural(two),
		unit.Plural(two))
	fix := fmt.Sprintf("Type the amount in %s, or a bare number of containers.", unit.Plural(two))
	switch {
	case slices.Contains([]string{"can", "tube", "bag"}, a.Unit.Name):
		fix = fmt.Sprintf("If the %s is the container, type %s alone; otherwise %s", a.Unit.Name, a.written(),
			fault.LowerFirst(fix))
	case a.Unit.Name == "oz" && unit.Kind == Volume:
		why = fmt.Sprintf("An ounce (oz) is a weight, and the container is counted in %s.", unit.Plural(two))
		fix = fmt.Sprintf("If fluid ounces are meant, type %s fl oz; otherwise %s", a.written(), fault.LowerFirst(fix))
	case a.Unit.Kind == Volume && unit.Name == "oz":
		why = fmt.Sprintf("The container is in oz, which is a weight, and the amount is in %s.", a.Unit.Plural(two))
		fix = "If the container's label says fluid ounces, type fl oz for oz in its container in Supplies; otherwise " +
			fault.LowerFirst(fix)
	}
	return refuse(fault.CodeUnitOtherKind, why, fix)
}

// written is the amount's number as it can be typed again: in whole numbers and
// a fraction, which is the same with either decimal mark.
func (a Amount) written() string {
	if a.Value.IsInt() {
		return a.Value.Num().String()
	}
	whole, rest := new(big.Int).QuoRem(a.Value.Num(), a.Value.Denom(), new(big.Int))
	if whole.Sign() == 0 {
		return a.Value.RatString()
	}
	return fmt.Sprintf("%s %s/%s", whole, rest.Abs(rest), a.Value.Denom())
}

// ReadLength reads a length into inches, or centimetres in a metric shop:
// `36`, `36"`, `7 1/2 in`, `3' 6"`, `3 ft 6 in`, `90 cm`, `1.2 m`. A bare
// number is in the shop's own unit.
func ReadLength(text string, style Style, metric bool) (*big.Rat, *Refusal) {
	shop := spellings["in"]
	if metric {
		shop = spellings["cm"]
	}
	text = strings.ReplaceAll(plainBlanks(text), "''", "\"")
	if feet, inches, ok := splitFeet(text); ok {
		a, refusal := ReadLength(feet, style, metric)
		if refusal != nil {
			return nil, refusal
		}
		b, refusal := ReadLength(inches, style, metric)
		if refusal != nil {
			return nil, refusal
		}
		if a.Sign() < 0 || b.Sign() < 0 {
			return nil, noLength()
		}
		return a.Add(a, b), nil
	}
	amount, refusal := ReadAmount(text, style)
	switch {
	case refusal != nil && (refusal.Code == fault.CodeAmountNotRead || refusal.Code == fault.CodeUnitUnknown):
		return nil, noLength()
	case refusal != nil:
		return nil, refusal
	case amount.Bare:
		return amount.Value, nil
	case amount.Unit.Kind != Length:
		return nil, noLength()
	}
	return amount.Value.Mul(amount.Value, amount.Unit.In(shop)), nil
}

// noLength is the refusal of a text that is no length.
func noLength() *Refusal {
	return refuse(fault.CodeLengthNotRead, "This is not a length.", "Type a number, or a number with in, "+
		"ft, yd, cm or m, "+
		"such as 36 or 3' 6\".")
}

// splitFeet splits `3' 6"` and `3 ft 6 in` after the feet; the second part
// must say inches or be bare.
func splitFeet(text string) (feet, inches string, ok bool) {
	low := strings.ToLower(text)
	for _, mark := range []string{"feet", "foot", "ft.", "ft", "'", "′", "’"} {
		at := strings.Index(low, mark)
		if at <= 0 {
			continue
		}
		rest := strings.TrimSpace(text[min(at+len(mark), len(text)):])
		if rest == "" {
			return "", "", false
		}
		number, unit := splitUnit(rest)
		if u, known := FindUnit(unit); unit != "" && (!known || u.Name != "in") {
			return "", "", false
		}
		return strings.TrimSpace(text[:at]) + " ft", number + " in", true
	}
	return "", "", false
}
