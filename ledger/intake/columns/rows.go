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

// Words of a row of totals: the word itself, with a month, a quarter or a year
// before or after it, or what it is of.
var (
	totalOf = `(?:` + values.MonthWords +
		`|q[1-4]|(?:19|20)\d\d|['’]\d\d|ytd|grand|sub|week|weekly|month|monthly|year|yearly|quarter|quarterly|overall|running)\.?`
	totalWords = regexp.MustCompile(`(?i)^[-=* ]*(?:` + totalOf +
		`[ -]*)*(?:totals?|sums?)(?: (?:for|of|to date|so far)\b.*|(?:[ ,-]*(?:` +
		totalOf + `|spent|sold|sales|paid|profit|costs?|expenses|income|hours))*)?\s*[:=]*[-=* ]*$`)
)

// IsTotal says that a text is the word total, or the like. Every cell of every row
// is asked, so what is quick comes first.
func IsTotal(text string) bool {
	return (hasLetters(text, "tot") || hasLetters(text, "sum")) && totalWords.MatchString(text)
}

// hasLetters says that a text has some letters after each other, in any case.
func hasLetters(text, letters string) bool {
	for i := 0; i+len(letters) <= len(text); i++ {
		if strings.EqualFold(text[i:i+len(letters)], letters) {
			return true
		}
	}
	return false
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
