package page

import (
	"strconv"
	"strings"
)

// Dash is a zero amount as printed.
const Dash = "–"

// Sign is what stands before an amount in a currency: its sign where readers
// know one, else its code and a space.
func Sign(currency string) string {
	switch currency {
	case "USD":
		return "$"
	case "EUR":
		return "€"
	case "GBP":
		return "£"
	case "":
		return ""
	}
	return currency + " "
}

// Amount is an amount with thousands grouped, negatives in brackets and the
// sign, which may be blank, inside them. Zero is a dash, or 0.00 where full.
func Amount(cents int64, sign string, full bool) string {
	if cents == 0 && !full {
		return Dash
	}
	return written(cents, sign, true)
}

// Short is an amount as Amount has it without the cents where they are 00, for
// axes and estimates.
func Short(cents int64, sign string) string { return written(cents, sign, cents%100 != 0) }

// written is an amount with its cents or without.
func written(cents int64, sign string, withCents bool) string {
	u := uint64(cents)
	if cents < 0 {
		u = -u
	}
	s := sign + group(strconv.FormatUint(u/100, 10))
	if withCents {
		s += "." + strconv.FormatUint(100+u%100, 10)[1:]
	}
	if cents < 0 {
		return "(" + s + ")"
	}
	return s
}

// group parts thousands with commas.
func group(digits string) string {
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// String is the cell as words, money with the given sign.
func (c Cell) String(sign string) string {
	if c.Kind != KindMoney {
		return c.Text
	}
	return Amount(c.Cents, sign, c.Full)
}

// Whole is an amount in whole units, halves to even.
func (c Cell) Whole() string {
	whole, rest := c.Cents/100, c.Cents%100
	switch odd := whole%2 != 0; {
	case rest > 50, rest == 50 && odd:
		whole++
	case rest < -50, rest == -50 && odd:
		whole--
	}
	if whole == 0 {
		return Amount(0, "", c.Full)
	}
	return Short(whole*100, "")
}

func itoa(n int) string { return strconv.Itoa(n) }

// oneLine is a label of two lines on one.
func oneLine(s string) string { return strings.ReplaceAll(s, "\n", " ") }
