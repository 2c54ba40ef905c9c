package headers

import (
	"regexp"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/templates"
)

// totalWords are what a row of totals begins with.
var totalWords = regexp.MustCompile(
	`(?i)^(?:(?:grand|sub|year|month|monthly|yearly|overall|running)[ -]*)?(?:totals?|sums?)(?: (?:for|of|to date|so far)\b.*)?\s*[:=]*$`)

// saysTotal says that a row's first filled cell is the word total, or the like.
func saysTotal(l sheets.Line) bool {
	for _, text := range l.Cells {
		if text = strings.TrimSpace(text); text != "" {
			return totalWords.MatchString(text)
		}
	}
	return false
}

// headingLeast is how many columns a table must have for a row with one cell
// filled to be no record.
const HeadingLeast = 3

// notRecord says that a row is plainly no record, which is told as a note: one
// of totals, holding nothing but the word and numbers, a month's heading, or the
// header again. A
// record needs a name or a day, so nothing that could be one is skipped.
func (r *Reader) notRecord(s *sheets.Sheet, b *Block, l sheets.Line) bool {
	if b.Broken || l.Broken || len(b.Columns) < HeadingLeast && !saysTotal(l) {
		return false
	}
	at := s.Place()
	at.Row = l.Number
	switch {
	case saysTotal(l) && r.onlyNumbers(s, b, l):
		r.problems.Add(fault.Problem{Code: fault.CodeTotalsRow, Note: true, Place: at, Found: sheets.Shortened(rowText(l)),
			Why:         "This row holds totals and no record, so it was skipped.",
			AsksNothing: true, Fix: "It may stay. If it is a record, give it its own name and day."})
	case headerAgain(b, l):
		r.problems.Add(fault.Problem{Code: fault.CodeHeaderAgain, Note: true, Place: at, Found: sheets.Shortened(rowText(l)),
			Why:         "This row is the column names again, so it was skipped.",
			AsksNothing: true, Fix: "It may stay."})
	case len(NeededColumns(b.Table)) > 1 && headingWords.MatchString(rowText(l)):
		r.problems.Add(fault.Problem{Code: fault.CodeHeadingRow, Note: true, Place: at, Found: sheets.Shortened(rowText(l)),
			Why:         "This row holds nothing but a heading, so it was skipped.",
			AsksNothing: true, Fix: "It may stay. If it is a record, fill in its other cells."})
	default:
		return false
	}
	return true
}

// headingWords are all there is in a row that parts a sheet into months.
var headingWords = regexp.MustCompile(`(?i)^[-=* ]*(?:(?:` + values.MonthWords +
	`)\.?,?(?: ?['’]?(?:20)?\d\d)?|(?:19|20)\d\d|(?:q[1-4]|[1-4](?:st|nd|rd|th) quarter)(?: (?:20)?\d\d)?)[-=*: ]*$`)

// rowText is a row's filled cells, for showing it.
func rowText(l sheets.Line) string {
	var filled []string
	for _, text := range l.Cells {
		if text = strings.TrimSpace(text); text != "" {
			filled = append(filled, text)
		}
	}
	return strings.Join(filled, ", ")
}

// onlyNumbers says that the known columns of a row that says total hold
// numbers where numbers stand, and nothing elsewhere.
func (r *Reader) onlyNumbers(s *sheets.Sheet, b *Block, l sheets.Line) bool {
	style := values.PlainStyle(r.settings, s.InBook)
	for _, c := range b.Columns {
		if c.Index >= len(l.Cells) {
			continue
		}
		text := strings.TrimSpace(l.Cells[c.Index])
		if text == "" || totalWords.MatchString(text) {
			continue
		}
		switch c.Field.Cell {
		case templates.Money, templates.SignedMoney, templates.Number, templates.SignedNumber, templates.Whole,
			templates.HoursOfAll, templates.HoursOfDay, templates.Amount, templates.Coverage, templates.Percent:
		default:
			return false
		}
		text = strings.TrimSuffix(text, "%")
		_, noMoney := measure.Money(text, style)
		_, noHours := measure.ReadHours(text, style)
		if noMoney != nil && noHours != nil && !values.IsRaw(text) {
			return false
		}
	}
	return true
}

// headerAgain says that a row repeats the header, as sheets put together from
// several have it.
func headerAgain(b *Block, l sheets.Line) bool {
	same := 0
	for i, text := range l.Cells {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		if i >= len(b.headers) || values.Fold(b.headers[i]) != values.Fold(text) {
			return false
		}
		same++
	}
	return same > 1
}
