package values

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
)

// The written forms of a date; a time of day after it, as other programs write,
// is ignored.
//
//	2026-03-09, 2026/3/9, 2026.3.9    year first
//	20260309                          ISO 8601-1:2019, 5.2.2.1, basic format
//	3/9/2026, 3-9-26, 3.9.26          month first or day first, as settings.toml says
//	9 March 2026, 9th Mar. 26         day and month's name
//	March 9, 2026                     month's name and day
//	Mon Mar 9, 2026                   the same with its day of the week
//
// A year of two digits is of this century up to 49; from 50 on it could be of
// either, and would be far from any shop's records in both, so its four digits
// are asked for. In a workbook a number is a date cell: days since its first
// day. In plain files such a number is refused, since the count is not known.
var (
	yearFirst  = regexp.MustCompile(`^(\d{4})([-/.])(\d{1,2})[-/.](\d{1,2})(?:[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?)?$`)
	together   = regexp.MustCompile(`^((?:19|20)\d\d)(\d\d)(\d\d)$`)
	threeParts = regexp.MustCompile(`^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?: \d{1,2}:\d{2}(?::\d{2})?)?$`)
	dayWord    = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?[ -]([A-Za-z]+)\.?,?[ -](\d{4}|\d{2})$`)
	wordDay    = regexp.MustCompile(`^([A-Za-z]+)\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4}|\d{2})$`)
	serialDay  = regexp.MustCompile(`^(\d{1,7})(?:\.\d+)?$`)
	weekday    = regexp.MustCompile(`(?i)^(sun|mon|tue|wed|thu|fri|sat)[a-z]{0,6}\.?,? (.+)$`)
	yearAlone  = regexp.MustCompile(`^\d{4}$`)
	// noYear is a date of two parts only.
	noYear = regexp.MustCompile(`(?i)^(?:\d{1,4}[-/.]\d{1,2}|[a-z]{3,9}\.? \d{1,4}|\d{1,2}[ -][a-z]{3,9})$`)
	// dateLike is what was meant as a day, though it may be none: 31/31/2026.
	dateLike = regexp.MustCompile(`(?i)\d[/.\-]\d+[/.\-]\d|\d/\d|^(19|20)\d\d$|\b(?:` + MonthWords + `)`)
	// dayCount is a date as a spreadsheet counts it, 1950 to 2199.
	dayCount = regexp.MustCompile(`^\d{5,6}([.,]\d+)?$`)
)

// Dates outside these years are slips of the hand or of a spreadsheet.
const yearLeast, yearMost = 1950, 2199

// monthsShort and MonthWords match, within a regular expression without regard
// to case, a month's short name and any name of a month.
var monthsShort, MonthWords = monthPatterns()

func monthPatterns() (short, any string) {
	var shorts, all []string
	for m := time.January; m <= time.December; m++ {
		name := strings.ToLower(m.String())
		shorts = append(shorts, name[:3])
		all = append(all, name, name[:3])
	}
	return strings.Join(shorts, "|"), strings.Join(append(all, "sept"), "|")
}

// Order says what a date tells of the order of day and month.
type Order int

// A date that fixes no order is written year first or with the month's name.
const (
	NoOrder    Order = iota
	BothOrders       // either order gives a day, and not the same one
	OneOrder         // only the shop's order gives a day, or both give the same one
	OtherOrder       // only the order that the shop does not use gives a day
)

// Date reads a date; where slashes, hyphens or dots separate three numbers, day and
// month stand as dayFirst says, and the order tells what else they can be. With
// OtherOrder there is no date and no refusal.
func Date(c sheets.Cell, dayFirst bool) (calendar.Date, Order, *measure.Refusal) {
	if c.InBook && serialDay.MatchString(c.Text) {
		d, refusal := serialDate(c.Text, c.Is1904)
		return d, NoOrder, refusal
	}
	text := strings.Join(strings.Fields(c.Text), " ")
	if p := threeParts.FindStringSubmatch(text); p != nil {
		return eitherOrder(p[1], p[2], p[3], dayFirst)
	}
	y, m, d := dateParts(text)
	if p := weekday.FindStringSubmatch(text); p != nil && m == "" {
		return onWeekday(p[1], p[2])
	}
	switch {
	case m == "" && yearAlone.MatchString(text):
		return calendar.Date{}, NoOrder, yearOnly()
	case m == "" && noYear.MatchString(text):
		return calendar.Date{}, NoOrder, dateRefusal(fault.CodeDateNotRead, "This day has no year, or no day of the month.")
	case m == "":
		return calendar.Date{}, NoOrder, dateRefusal(fault.CodeDateNotRead, "This is not a date.")
	}
	date, refusal := theDay(y, m, d)
	return date, NoOrder, refusal
}

// onWeekday reads a date that says its order itself, and refuses one that falls on
// another day of the week than the one before it.
func onWeekday(day, text string) (calendar.Date, Order, *measure.Refusal) {
	y, m, d := dateParts(text)
	if m == "" {
		return calendar.Date{}, NoOrder, dateRefusal(fault.CodeDateNotRead, "This is not a date.")
	}
	date, refusal := theDay(y, m, d)
	if refusal == nil {
		is := date.Time().Weekday().String()
		if !strings.EqualFold(is[:3], day) {
			refusal = dateRefusal(fault.CodeDateNotRead, fmt.Sprintf("This day is a %s.", is))
		}
	}
	return date, NoOrder, refusal
}

// dateParts are the parts of a date that says its order itself; blank where it does not.
func dateParts(text string) (year, month, day string) {
	if p := yearFirst.FindStringSubmatch(text); p != nil {
		return p[1], p[3], p[4]
	}
	if p := together.FindStringSubmatch(text); p != nil {
		return p[1], p[2], p[3]
	}
	if p := dayWord.FindStringSubmatch(text); p != nil {
		return p[3], monthNumber(p[2]), p[1]
	}
	if p := wordDay.FindStringSubmatch(text); p != nil {
		return p[3], monthNumber(p[1]), p[2]
	}
	return "", "", ""
}

// eitherOrder reads day and month in the shop's order, and looks what the other gives.
func eitherOrder(first, second, year string, dayFirst bool) (calendar.Date, Order, *measure.Refusal) {
	monthFirst, monthRefusal := theDay(year, first, second)
	daysFirst, dayRefusal := theDay(year, second, first)
	date, refusal, other, otherRefusal := monthFirst, monthRefusal, daysFirst, dayRefusal
	if dayFirst {
		date, refusal, other, otherRefusal = daysFirst, dayRefusal, monthFirst, monthRefusal
	}
	switch {
	case refusal != nil && otherRefusal == nil:
		return calendar.Date{}, OtherOrder, nil
	case refusal != nil:
		return calendar.Date{}, NoOrder, refusal
	case otherRefusal == nil && other != date:
		return date, BothOrders, nil
	case otherRefusal == nil:
		return date, NoOrder, nil
	}
	return date, OneOrder, nil
}

// IsDate says that a cell reads as a date in either order.
func IsDate(c sheets.Cell) bool {
	_, _, refusal := Date(c, false)
	return refusal == nil
}

// LooksLikeDate says that a text was meant as a date, though it may be none.
func LooksLikeDate(text string) bool { return dateLike.MatchString(text) }

// CountedDay is the day that a cell of a plain file most likely is whose date
// was saved as the spreadsheet's count of days.
func CountedDay(c sheets.Cell) (calendar.Date, bool) {
	if c.InBook || !dayCount.MatchString(c.Text) {
		return calendar.Date{}, false
	}
	d, refusal := serialDate(strings.ReplaceAll(c.Text, ",", "."), false)
	return d, refusal == nil
}

// dateRefusal is a refusal with the fix that all dates have.
func dateRefusal(code fault.Code, why string) *measure.Refusal {
	return &measure.Refusal{Code: code, Why: why, Fix: "Type the day as year-month-day, such as 2026-03-09."}
}

// yearOnly refuses a bare year.
func yearOnly() *measure.Refusal {
	return dateRefusal(fault.CodeDateYearOnly, "This is a year without month and day.")
}

// theDay makes the date from its digits.
func theDay(year, month, day string) (calendar.Date, *measure.Refusal) {
	y, _ := strconv.Atoi(year)
	m, _ := strconv.Atoi(month)
	d, _ := strconv.Atoi(day)
	if len(year) == 2 {
		if y >= 50 {
			return calendar.Date{}, &measure.Refusal{Code: fault.CodeDateYearDigits,
				Why: fmt.Sprintf("The year %s could be 19%s or 20%s.", year, year, year),
				Fix: "Type the year with four digits, such as 2026-03-09."}
		}
		y += 2000
	}
	date, err := calendar.New(y, time.Month(m), d)
	if err != nil {
		return calendar.Date{}, dateRefusal(fault.CodeDateNoSuchDay, "There is no such day.")
	}
	return inYears(date)
}

// inYears refuses dates that can only be a slip.
func inYears(d calendar.Date) (calendar.Date, *measure.Refusal) {
	if d.Year < yearLeast || d.Year > yearMost {
		return calendar.Date{}, dateRefusal(fault.CodeDateFarOff, fmt.Sprintf("This is the day %s, outside the "+
			"years %d to %d.", d, yearLeast, yearMost))
	}
	return d, nil
}

// monthNumber is 3 for `mar` and `March`; empty for no month.
func monthNumber(word string) string {
	word = strings.ToLower(word)
	if word == "sept" {
		word = "sep"
	}
	for m := time.January; m <= time.December; m++ {
		name := strings.ToLower(m.String())
		if word == name || word == name[:3] {
			return strconv.Itoa(int(m))
		}
	}
	return ""
}

// serialDate is a workbook's day number. Day 60 of the usual count is a
// 29 February 1900 that never was, so days are counted from 30 December 1899;
// the other count begins on 1 January 1904 (ECMA-376 part 1, 18.17.4.1). Parts
// of a day are cut.
func serialDate(text string, is1904 bool) (calendar.Date, *measure.Refusal) {
	n, err := strconv.Atoi(serialDay.FindStringSubmatch(text)[1])
	if err != nil {
		return calendar.Date{}, dateRefusal(fault.CodeDateNotRead, "This is not a date.")
	}
	if n >= 1900 && n <= yearMost && !strings.Contains(text, ".") {
		return calendar.Date{}, yearOnly()
	}
	first := calendar.Date{Year: 1899, Month: time.December, Day: 30}
	if is1904 {
		first = calendar.Date{Year: 1904, Month: time.January, Day: 1}
	}
	return inYears(first.AddDays(n))
}

// Year reads a year of four digits, such as a piece's own.
func Year(c sheets.Cell) (int, *measure.Refusal) {
	if y, err := strconv.Atoi(c.Text); err == nil && len(c.Text) == 4 && y >= 1000 && y <= yearMost {
		return y, nil
	}
	return 0, &measure.Refusal{Code: fault.CodeYearNotRead, Why: "This is not a year of four digits.",
		Fix: "Type the year alone, such as 1925; the best guess will do."}
}
