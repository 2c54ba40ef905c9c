package columns

import (
	"iter"
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// Rows are the rows below the column names that are neither examples nor totals.
func Rows(s *sheets.Sheet) iter.Seq[sheets.Line] {
	return func(yield func(sheets.Line) bool) {
		for _, l := range s.Lines[1:] {
			if !IsExample(s, l) && !SaysTotal(l) && !yield(l) {
				return
			}
		}
	}
}

// IsExample says that a row is not read, since its first cell begins example:,
// the sheet's first, or the first below a column name where the table stands
// further right.
func IsExample(s *sheets.Sheet, l sheets.Line) bool {
	_, at := ExampleOf(s, l)
	return at >= 0
}

// ExampleOf is what stands after example: in the row that IsExample tells, and
// the index of its cell; -1 in any other row.
func ExampleOf(s *sheets.Sheet, l sheets.Line) (text string, at int) {
	first := slices.IndexFunc(s.Lines[0].Cells, func(h string) bool { return strings.TrimSpace(h) != "" })
	for _, i := range []int{0, first} {
		if i < 0 || i >= len(l.Cells) {
			continue
		}
		cell, n := strings.TrimSpace(l.Cells[i]), len(templates.ExamplePrefix)
		if len(cell) >= n && strings.EqualFold(cell[:n], templates.ExamplePrefix) {
			return strings.TrimSpace(cell[n:]), i
		}
	}
	return "", -1
}

// totalNames are the word total as owners write it, in other languages too (common practice, no source).
const totalNames = `totals?|totaal|totale|sums?|summe|suma|somme|gesamt|(?:gesamt|zwischen|end)summe`

// Words of a row of totals: the word itself, with a month, a quarter or a year
// before or after it, or what it is of; or what was spent in such a time.
var (
	totalOf = `(?:` + values.MonthWords +
		`|q[1-4]|(?:19|20)\d\d|['’]\d\d|ytd|grand|sub|week|weekly|month|monthly|year|yearly|quarter|quarterly|overall` +
		`|running)\.?`
	totalWords = regexp.MustCompile(`(?i)^[-=* ]*(?:(?:` + totalOf +
		`[ -]*)*(?:` + totalNames + `)(?: (?:for|of|to date|so far)\b.*|(?:[ ,-]*(?:` +
		totalOf + `|spent|sold|sales|paid|profit|costs?|expenses|income|hours))*)` +
		`|(?:` + totalOf + `[ -]*)+spen[dt](?:ing)?|spen[dt](?:ing)? (?:in|for|during) (?:` + totalOf + `[ -]*)+` +
		`|grand|all in|all ?together|altogether|in all)\s*[:=]*[-=* ]*$`)
	// carriedWords are those of a balance brought from elsewhere, paymentWords those with
	// which a shop's slip says what was owed and how it was paid (common practice, no source).
	carriedWords = regexp.MustCompile(`(?i)^[-=* ]*(?:` + balance +
		`(?:[ -]*(?:(?:brought|carried) ?(?:forward|fwd|over|down)|[bc]/(?:f|d|fwd)|forward|fwd))` +
		`|(?:(?:brought|carried) ?(?:forward|fwd|over|down)|[bc]/(?:f|d|fwd))` +
		`|(?:opening|closing|starting|beginning|ending|previous|prior|old|last) (?:bank |cash )?` + balance + `)` +
		`(?: (?:from|to|of) .*|[ ,-]*(?:` + totalOf + `[ -]*)*)?\s*[:=]*[-=* ]*$` +
		`|^` + balance + ` (?:from|at|as of) (?:the )?(?:(?:end|start) of |last )?(?:` + totalOf + `[ -]*)+$`)
	balance      = `bal(?:ance|\.)?`
	paymentWords = regexp.MustCompile(`(?i)^(?:(?:balance|amount|total|amt|bal)\.? (?:due|owing|to pay)` +
		`|(?:(?:total|amount|cash|amt)\.? )?(?:tend(?:er|ered)?|paid)|change(?: due| given)?|cash(?: back)?` +
		`|(?:visa|mastercard|mc|amex|american express|discover|debit|credit card|card|us debit)` +
		`(?: (?:card|ending|ending in|acct|tend(?:er|ered)?|[x*# ]*\d{4}|[x*]+))*)\.?$`)
	tenderWords = regexp.MustCompile(`(?i)^(?:.*\btend|change|cash)`)
)

// NoRecord is why a row is no record of its table by what one of its cells says.
type NoRecord int

// Rows that are no records.
const (
	MayBeRecord NoRecord = iota
	SaysSum              // the word total, or the like
	SaysCarried          // a balance brought from elsewhere
	SaysPayment          // on a slip: what was owed, or what paid it
	SaysTender           // on a slip: what was handed over, or came back
)

// OtherThanRecord says of a text whether it speaks of no record: a balance, or on a
// shop's slip a payment.
func OtherThanRecord(text string, onSlip bool) NoRecord {
	switch {
	case onSlip && hasAny(text, paymentLetters) && paymentWords.MatchString(text):
		if tenderWords.MatchString(text) {
			return SaysTender
		}
		return SaysPayment
	case hasAny(text, carriedLetters) && carriedWords.MatchString(text):
		return SaysCarried
	}
	return MayBeRecord
}

// IsTotal says that a text is the word total, or the like.
func IsTotal(text string) bool { return hasAny(text, totalLetters) && totalWords.MatchString(text) }

// Letters of which a text has some where a pattern fits it. Every cell of every row is
// asked, so what is quick comes first.
var (
	totalLetters   = []string{"tot", "sum", "som", "gesam", "spen", "grand", "all", "altog"}
	carriedLetters = []string{"bal", "brought", "carried", "b/", "c/"}
	paymentLetters = []string{"due", "owing", "pay", "paid", "tend", "chang", "cash", "visa", "master", "mc", "amex",
		"american", "disc", "debit", "credit", "card"}
)

// hasAny says that a text has one of some letters after each other, in any case.
func hasAny(text string, some []string) bool {
	for i := range len(text) {
		first := text[i] | 0x20
		for _, letters := range some {
			if first == letters[0] && i+len(letters) <= len(text) && strings.EqualFold(text[i:i+len(letters)], letters) {
				return true
			}
		}
	}
	return false
}

// timeWords are a name for a time, as the label of what it came to.
var timeWords = regexp.MustCompile(`(?i)^(?:(?:this|the|whole|all|` + totalOf + `)[ -]*)*$`)

// MayBeTotal says that a text may be the label of a sum: that of one piece, or of a time.
func MayBeTotal(text string) bool {
	ends := func(word string) bool {
		return len(text) >= len(word) && strings.EqualFold(text[len(text)-len(word):], word)
	}
	return ends(" total") || ends(" totals") ||
		(ends("month") || ends("week") || ends("quarter") || ends("year")) && timeWords.MatchString(text) || IsTotal(text)
}

// SaysTotal says that a cell of a row is the word total, or the like.
func SaysTotal(l sheets.Line) bool {
	for _, text := range l.Cells {
		if text = strings.TrimSpace(text); text != "" && IsTotal(text) {
			return true
		}
	}
	return l.SumBeside
}
