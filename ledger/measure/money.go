package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// CurrencySigns may stand beside an amount. They are ignored: the books have one
// currency.
const CurrencySigns = "$€£¥₹"

// currencyOf is the currency that a sign stands for; that of dollars is one of many.
var currencyOf = map[rune]string{'$': "$", '€': "EUR", '£': "GBP", '₹': "INR", '¥': "JPY"}

// CurrencyIn is the currency that an amount names by a sign, or by the three
// letters of one that has words of its own: EUR. It is "$" for the sign of dollars,
// and blank where none is named.
func CurrencyIn(text string) string {
	for _, sign := range text {
		if is := currencyOf[sign]; is != "" {
			return is
		}
	}
	for _, word := range strings.FieldsFunc(text, func(c rune) bool { return !unicode.IsLetter(c) }) {
		if code := strings.ToUpper(word); ownWords[code] != nil {
			return code
		}
	}
	return ""
}

// symbols matches one of them.
const symbols = `[` + CurrencySigns + `]`

// The written forms of money: an amount, or one in brackets for a negative.
var (
	moneyPoint = regexp.MustCompile(`^(\d{1,15}|\d{1,3}(?:,\d{3}){1,4})?(?:\.(\d{1,20}))?$`)
	moneyComma = regexp.MustCompile(`^(\d{1,15}|\d{1,3}(?:[. \x{a0}\x{202f}]\d{3}){1,4})?(?:,(\d{1,20}))?$`)
	signed     = regexp.MustCompile(`^([-−+]?) ?` + symbols + `? ?([-−+]?) ?([^-−+()$€£¥₹]+?) ?` + symbols + `?$`)
	bracketed  = regexp.MustCompile(`^` + symbols + `? ?\( ?` + symbols + `? ?([^-−()$€£¥₹]+?) ?` + symbols + `? ?\)$`)
)

// moneyDigits is the most digits before the decimals: 13, so that any shop's
// sums stay far below what whole cents hold exactly (and a spreadsheet's 15).
const moneyDigits = 13

// Money reads `1234.5`, `$1,234.50`, `-12.00`, `(12.00)`, `+ $12.00`, and `1.234,50`
// with a decimal comma, into cents. It refuses over two decimals, exponents, text,
// and amounts over 13 digits; of decimals only zeros may be over two, and not
// just three, which may be thousands (1.250). Whether a negative makes sense is the caller's.
func Money(text string, style Style) (money.Cents, *Refusal) {
	if n, decimals, ok := digitsAlone(text, style); ok && decimals <= 2 {
		return money.Cents(n * powerOf10[2-decimals]), nil
	}
	text = plainBlanks(text)
	body, negative, ok := unwrapMoney(text, style)
	if !ok {
		return 0, whyNoMoney(text, style)
	}
	form := moneyPoint
	if style.DecimalComma {
		form = moneyComma
	}
	m := form.FindStringSubmatch(body)
	if m == nil || m[1] == "" && m[2] == "" {
		return 0, whyNoMoney(text, style)
	}
	whole := strings.TrimLeft(strings.Map(onlyDigits, m[1]), "0")
	decimals := strings.TrimRight(m[2], "0")
	switch {
	case len(m[2]) == 3 && len(m[1]) <= 3 && whole != "":
		// With the other mark it would be thousands: 1.250 may be 1250.
		return 0, refuse(fault.CodeMoneyDecimals, "Money has at most two decimals, and this has three.",
			fmt.Sprintf("If %s%s is meant, type that; if not, type it rounded to the cent, such as %s.", whole, m[2],
				style.example("12.50")))
	case len(decimals) > 2:
		return 0, refuse(fault.CodeMoneyDecimals, "Money has at most two decimals.", "Type it rounded to the cent, such as "+
			style.example("12.50")+".")
	}
	if len(whole) > moneyDigits {
		return 0, refuse(fault.CodeMoneyTooLarge, fmt.Sprintf("Money can have at most %d digits before the decimals.",
			moneyDigits), "Type the amount again.")
	}
	digits, _ := new(big.Int).SetString("0"+whole+(decimals + "00")[:2], 10)
	cents := money.Cents(digits.Int64())
	if negative {
		cents = -cents
	}
	return cents, nil
}

// unwrapMoney takes off sign, brackets, currency sign and currency code.
func unwrapMoney(text string, style Style) (body string, negative, ok bool) {
	if c := style.Currency; c != "" && len(text) > len(c) {
		switch {
		case strings.EqualFold(text[:len(c)], c):
			text = strings.TrimSpace(text[len(c):])
		case strings.EqualFold(text[len(text)-len(c):], c):
			text = strings.TrimSpace(text[:len(text)-len(c)])
		}
	}
	if m := bracketed.FindStringSubmatch(text); m != nil {
		return m[1], true, true
	}
	m := signed.FindStringSubmatch(text)
	if m == nil || m[1] != "" && m[2] != "" {
		return "", false, false
	}
	return m[3], m[1]+m[2] != "" && m[1]+m[2] != "+", true
}

// whyNoMoney says which of the usual reasons it is.
func whyNoMoney(text string, style Style) *Refusal {
	other := Style{DecimalComma: !style.DecimalComma}
	if body, _, ok := unwrapMoney(text, style); ok && plainNumber(body, other) != nil {
		return otherMark(style)
	}
	r := whyNoNumber(text, style)
	if r.Code == fault.CodeNumberNotRead {
		if r := remark(fault.CodeMoneyNotRead, text, "an amount of money", style); r != nil {
			return r
		}
		return refuse(fault.CodeMoneyNotRead, "This is not an amount of money.", "Type digits only, such as "+
			style.example("12.50")+".")
	}
	return r
}
