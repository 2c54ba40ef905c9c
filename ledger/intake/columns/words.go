package columns

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
)

// Words of headers that say what a column cannot be. A proposal that is pasted
// unread must not make a wrong figure.
var (
	MoneyWords = []string{"cost", "costs", "price", "prices", "paid", "pay", "fee", "fees", "tax", "profit", "net",
		"expense", "expenses", "spent", "money", "income", "debit", "credit", "charged", "$", "usd", "eur"}
	minuteWords  = []string{"min", "mins", "minute", "minutes"}
	EachWords    = []string{"each", "unit", "apiece", "per", "ea"}
	TaxWords     = []string{"tax", "vat", "gst"}
	GrossWords   = []string{"total", "tot", "gross", "incl", "including"}
	LeftWords    = []string{"profit", "net", "margin", "roi", "gain", "markup"}
	DerivedWords = append([]string{"balance", "subtotal", "owes", "owed", "due"}, LeftWords...)
	// AheadWords are of what was paid before the sale, as a part of its price.
	AheadWords = []string{"deposit", "deposits", "downpayment", "down", "prepaid", "advance"}
	countWords = []string{"qty", "quantity", "count", "howmany", "noof", "units", "pcs"}
)

// CountsThings says that a header is one of a number of things.
func CountsThings(header string) bool {
	return slices.Contains(countWords, values.Compact(header)) || HasWord(header, []string{"qty", "quantity"})
}

// allWords are the words of a header, fillers too; a currency sign is one.
func allWords(text string) []string {
	text = strings.ToLower(strings.ReplaceAll(text, "#", " no "))
	for _, sign := range measure.CurrencySigns {
		text = strings.ReplaceAll(text, string(sign), " $ ")
	}
	return strings.FieldsFunc(text, func(c rune) bool { return c != '$' && values.Compact(string(c)) == "" })
}

// HasWord says that a header has one of some words.
func HasWord(header string, words []string) bool {
	return slices.ContainsFunc(allWords(header), func(w string) bool { return slices.Contains(words, w) })
}

// InMinutes says that a header's figures are minutes: they are no hours.
func InMinutes(header string) bool { return HasWord(header, minuteWords) }

// SaysMoney says that a header is one of money: by a word for it, or a month's name.
func SaysMoney(header string) bool {
	return HasWord(header, MoneyWords) || HasWord(header, SpentWords) || values.IsPeriod(header) ||
		slices.Contains([]string{"in", "out"}, values.Compact(header))
}

// SpentWords are what money is spent on or got for, and where it belongs.
var SpentWords = []string{"materials", "material", "supplies", "supply", "parts", "hardware", "paint", "stain",
	"finish", "gas", "fuel", "amount", "total", "delivery",
	"shipping", "postage", "stuff", "extras", "cash", "card", "check", "cheque", "misc", "tip", "tips", "deposit", "booth", "rent", "labor", "labour",
	"value", "half", "discount", "refund", "revenue", "earnings", "earned", "takings", "proceeds", "cut", "share", "got",
	"commission"}

// HeaderPer is the unit that a column's name says its figures are for, and the
// unit of area before it: `Sq ft per gal`, `Coverage (m²/l)`.
func HeaderPer(header string) (area string, per measure.Unit, ok bool) {
	text := strings.TrimSpace(header)
	if m := settings.InBrackets.FindStringSubmatch(text); m != nil {
		text = m[1]
	}
	figure, per, ok := measure.SplitPer(text)
	if !ok {
		return "", per, false
	}
	one := measure.Amount{Value: big.NewRat(1, 1), Unit: per}
	words := strings.Fields(figure)
	for i := range words {
		area = " " + strings.Join(words[i:], " ")
		if _, _, is := measure.CoveragePer("1"+area+"/"+per.Name, measure.Style{}, false, one); is {
			return area, per, true
		}
	}
	return "", per, true
}

// PerHeader says that a column's name says what its figures are for.
func PerHeader(header string) bool {
	_, _, is := HeaderPer(header)
	return is
}
