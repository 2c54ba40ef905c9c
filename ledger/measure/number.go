package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
)

// The written forms of a number. Digits are limited so that no cell can cost
// time or memory: 15 before the decimals, 20 after.
var (
	pointNumber = regexp.MustCompile(`^([-−+]?)(\d{1,15}|\d{1,3}(?:,\d{3}){1,4})?(?:\.(\d{1,20}))?$`)
	commaNumber = regexp.MustCompile(`^([-−+]?)(\d{1,15}|\d{1,3}(?:[. \x{a0}\x{202f}]\d{3}){1,4})?(?:,(\d{1,20}))?$`)
	fraction    = regexp.MustCompile(`^([-−+]?)(?:(\d{1,9})(?: +|-))?(\d{1,6}) ?[/⁄] ?(\d{1,6})$`)
	sign        = regexp.MustCompile(`^([-−+]?)(\d{1,9})? ?([½¼¾⅓⅔⅛⅜⅝⅞])$`)
	exponent    = regexp.MustCompile(`^[-−+]?\d+([.,]\d*)?[eE][-+]?\d+$`)
	notFinite   = regexp.MustCompile(`(?i)^[-−+]?(nan|inf|infinity|∞)$`)
)

// signs are the fraction characters: what each is over and under the line.
var signs = map[string][2]int64{"½": {1, 2}, "¼": {1, 4}, "¾": {3, 4}, "⅓": {1, 3},
	"⅔": {2, 3}, "⅛": {1, 8}, "⅜": {3, 8}, "⅝": {5, 8}, "⅞": {7, 8}}

// Number reads `7.5`, `1,250`, `7 1/2`, `7-1/2`, `7½`, `½`, each with a sign
// or none; where the shop has a decimal comma `7,5` and `1.250` instead. It
// refuses text, NaN, infinities, exponents and the other decimal mark.
func Number(text string, style Style) (*big.Rat, *Refusal) {
	if n, decimals, ok := digitsAlone(text, style); ok {
		return big.NewRat(n, powerOf10[decimals]), nil
	}
	text = plainBlanks(text)
	if x := plainNumber(text, style); x != nil {
		return x, nil
	}
	if m := fraction.FindStringSubmatch(text); m != nil {
		return mixed(m[1], m[2], m[3], m[4])
	}
	if m := sign.FindStringSubmatch(text); m != nil {
		f := signs[m[3]]
		return mixed(m[1], m[2], fmt.Sprint(f[0]), fmt.Sprint(f[1]))
	}
	return nil, whyNoNumber(text, style)
}

// powerOf10 is what a number of so many decimals is in units of.
var powerOf10 = [...]int64{1, 10, 100, 1000, 10_000, 100_000}

// digitsAlone reads what most cells hold without asking the patterns: up to 13
// digits, and with the style's decimal mark up to five more. The number is
// digits / 10^decimals.
func digitsAlone(text string, style Style) (digits int64, decimals int, ok bool) {
	mark := byte('.')
	if style.DecimalComma {
		mark = ','
	}
	point := len(text)
	for i := range len(text) {
		switch c := text[i]; {
		case c == mark && point == len(text):
			point = i
		case c < '0' || c > '9':
			return 0, 0, false
		default:
			digits = digits*10 + int64(c-'0')
		}
		if i > point+len(powerOf10)-1 || i >= moneyDigits && point == len(text) {
			return 0, 0, false
		}
	}
	decimals = max(0, len(text)-point-1)
	return digits, decimals, point > 0 && point != len(text)-1
}

// plainNumber is digits with a decimal mark and thousands, nil for anything else.
func plainNumber(text string, style Style) *big.Rat {
	form := pointNumber
	if style.DecimalComma {
		form = commaNumber
	}
	m := form.FindStringSubmatch(text)
	if m == nil || m[2] == "" && m[3] == "" {
		return nil
	}
	whole := strings.Map(onlyDigits, m[2])
	x, ok := new(big.Rat).SetString("0" + whole + "." + m[3] + "0")
	if !ok {
		return nil
	}
	return withSign(x, m[1])
}

// plainBlanks is a text without outer blanks, every inner one a plain one:
// spreadsheets and web pages put in blanks that do not break, or thin ones.
func plainBlanks(text string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, text))
}

// onlyDigits drops what separates thousands.
func onlyDigits(r rune) rune {
	if r < '0' || r > '9' {
		return -1
	}
	return r
}

// withSign negates x for a minus of either kind.
func withSign(x *big.Rat, sign string) *big.Rat {
	if sign == "-" || sign == "−" {
		return x.Neg(x)
	}
	return x
}

// mixed is whole + over/under, the sign over all of it.
func mixed(sign, whole, over, under string) (*big.Rat, *Refusal) {
	w, _ := new(big.Rat).SetString("0" + whole)
	n, _ := new(big.Rat).SetString(over)
	d, _ := new(big.Rat).SetString(under)
	if d.Sign() == 0 {
		return nil, refuse(fault.CodeNumberNotRead, "A fraction cannot have 0 below the line.", "Type the number, "+
			"such as 7 1/2.")
	}
	return withSign(w.Add(w, n.Quo(n, d)), sign), nil
}

// whyNoNumber says which of the usual reasons it is.
func whyNoNumber(text string, style Style) *Refusal {
	switch {
	case notFinite.MatchString(text):
		needed := "Type the number, such as " + style.example("7.5")
		return &Refusal{Code: fault.CodeNumberNotFinite, Why: "This is not a number that can be counted with.",
			Fix: needed + ", or leave the cell blank.", FixNeeded: needed + "."}
	case exponent.MatchString(text):
		return refuse(fault.CodeNumberExponent, "The letter E in a number stands for zeros left out, as a "+
			"spreadsheet writes "+
			"long numbers, and is too easily misread.", "Type the number in full, without the letter E.")
	case plainNumber(text, Style{DecimalComma: !style.DecimalComma}) != nil:
		return otherMark(style)
	}
	if r := remark(fault.CodeNumberNotRead, text, "a number", style); r != nil {
		return r
	}
	return refuse(fault.CodeNumberNotRead, "This is not a number.", "Type digits only, such as "+style.example("7.5")+
		" or 7 1/2.")
}

// otherMark says that the number uses the decimal mark the shop does not use.
func otherMark(style Style) *Refusal {
	if style.DecimalComma {
		return refuse(fault.CodeDecimalMark, "The decimal mark here is a point, but decimal_comma = true in settings.toml "+
			"says it is a comma.", "Type it with a comma, such as 7,50, or change the setting.")
	}
	return refuse(fault.CodeDecimalMark, "The comma here does not separate thousands, and the decimal mark is a point "+
		"(decimal_comma in settings.toml).", "Type it with a point, such as 7.50, or set decimal_comma = true in "+
		"settings.toml.")
}
