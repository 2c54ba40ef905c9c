package tables

import (
	"regexp"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// What lines of words say: an amount, a day, and what was done.
var (
	digitsWithin = regexp.MustCompile(`\d`)
	soldWords    = regexp.MustCompile(`(?i)\b(?:sold|sale)\b`)
	workWords    = regexp.MustCompile(`(?i)\b\d+(?:\.\d+)? ?(?:h|hr|hrs|hours?)\b`)
	wordsLeast   = 3 // of a line that says something
)

// areWords says that a sheet holds lines of words, as they are typed into a phone:
// two or more, each in one cell, most of them with a number among words.
func (r *Finder) areWords(s *sheets.Sheet) bool {
	telling := 0
	for _, l := range s.Lines {
		if l.Broken || sheets.Filled(l.Cells) != 1 {
			return false
		}
		if text := l.Shown(); digitsWithin.MatchString(text) && len(strings.Fields(text)) >= wordsLeast {
			telling++
		}
	}
	return len(s.Lines) >= 2 && 2*telling > len(s.Lines)
}

// tellWords tells lines of words: all of them, and one as the row to type. It
// stops a report where the sheet is named for a table. cents is the money that
// stands in the lines.
func (r *Finder) tellWords(s *sheets.Sheet, named *templates.Table) (cents money.Cents) {
	place := s.Place()
	place.Row = s.Lines[0].Number
	var lines []string
	var words []any
	for _, l := range s.Lines {
		lines = append(lines, "%s %s")
		words = append(words, fault.Row(l.Number), fault.Quoted(sheets.Shortened(l.Shown())))
		for _, x := range columns.AmountsIn(l.Shown(), measure.Style{}) {
			cents += x
		}
	}
	p := fault.Problem{Code: fault.CodeLinesOfWords, Note: named == nil, Place: place, MoneyCents: int64(cents),
		Found: sheets.Shortened(s.Lines[0].Shown()), Fix: "Type each as a row. " + asRow(s.Lines[0].Shown())}
	r.problems.Add(p.Naming("These are lines of words and no table, so none of them is read: "+
		strings.Join(lines, "; ")+".", words...))
	return cents
}

// asRow is a line of words as the row to type.
func asRow(text string) string {
	amount := strings.Trim(columns.AmountWithin.FindString(text), measure.CurrencySigns+" ")
	switch {
	case workWords.MatchString(text) && amount == "":
		return "The first would be in a sheet Hours, with the columns Worked on, Pieces, Hours: the day with its year, the " +
			"piece as Pieces has it, " + workWords.FindString(text) + "."
	case soldWords.MatchString(text):
		return "The first would be in a sheet Sales, with the columns Sold on, Pieces, Channel, Price: the day " +
			"with its year, " +
			"the piece as Pieces has it, where it was sold, " + orAmount(amount) + "."
	}
	return "The first would be in a sheet Purchases if it is a supply, with the columns Bought on, Supply, " +
		"Containers, Cost: " +
		"the day with its year, its name, how many, " + orAmount(amount) + "; in Pieces if it is a piece, in " +
		"Expenses if it is " +
		"neither."
}

func orAmount(amount string) string {
	if amount == "" {
		return "the amount"
	}
	return amount
}
