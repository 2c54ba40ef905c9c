package intake

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/measure"
)

// The written forms of a date. A time of day behind it, as other programs
// write, is read over.
var (
	yearFirst  = regexp.MustCompile(`^(\d{4})([-/.])(\d{1,2})[-/.](\d{1,2})(?:[T ]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?Z?)?$`)
	threeParts = regexp.MustCompile(`^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})(?: \d{1,2}:\d{2}(?::\d{2})?)?$`)
	dayWord    = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?[ -]([A-Za-z]+)\.?,?[ -](\d{4}|\d{2})$`)
	wordDay    = regexp.MustCompile(`^([A-Za-z]+)\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4}|\d{2})$`)
	serialDay  = regexp.MustCompile(`^(\d{1,7})(?:\.\d+)?$`)
)

// withoutYear is a date of two parts only.
var withoutYear = regexp.MustCompile(`(?i)^(?:\d{1,4}[-/.]\d{1,2}|[a-z]{3,9}\.? \d{1,4}|\d{1,2}[ -][a-z]{3,9})$`)

// Dates outside these years are slips of the hand or of a spreadsheet.
const yearLeast, yearMost = 1950, 2199

// readDate reads a date as RECORDS.md has them; slashes and dots follow
// dayFirst. In a workbook a number is a date cell: days since its first day.
func readDate(text string, dayFirst bool, asks *workbook) (calendar.Date, *measure.Refusal) {
	if asks != nil && serialDay.MatchString(text) {
		return serialDate(text, asks.is1904)
	}
	text = strings.Join(strings.Fields(text), " ")
	var y, m, d string
	if p := yearFirst.FindStringSubmatch(text); p != nil {
		y, m, d = p[1], p[3], p[4]
	} else if p := threeParts.FindStringSubmatch(text); p != nil {
		m, d, y = p[1], p[2], p[3]
		if dayFirst {
			m, d = d, m
		}
		return theDay(y, m, d)
	} else if p := dayWord.FindStringSubmatch(text); p != nil {
		d, m, y = p[1], monthNumber(p[2]), p[3]
	} else if p := wordDay.FindStringSubmatch(text); p != nil {
		m, d, y = monthNumber(p[1]), p[2], p[3]
	}
	switch {
	case m == "" && regexp.MustCompile(`^\d{4}$`).MatchString(text):
		return calendar.Date{}, yearOnly()
	case m == "" && withoutYear.MatchString(text):
		return calendar.Date{}, dateRefusal(fault.CodeDateNotRead, "This day has no year, or no day of the month.")
	case m == "":
		return calendar.Date{}, dateRefusal(fault.CodeDateNotRead, "This is not a date.")
	}
	return theDay(y, m, d)
}

// dateRefusal is a refusal with the fix that all dates have.
func dateRefusal(code fault.Code, why string) *measure.Refusal {
	return &measure.Refusal{Code: code, Why: why, Fix: "Type the day as year-month-day, such as 2026-03-09."}
}

// yearOnly refuses a bare year.
func yearOnly() *measure.Refusal {
	return dateRefusal(fault.CodeDateYearOnly, "This is a year without month and day.")
}

// theDay makes the date from its digits. A year of two digits is of this
// century up to 49; from 50 on it could be of either, and would be far from any
// shop's records in both, so its four digits are asked for.
func theDay(year, month, day string) (calendar.Date, *measure.Refusal) {
	y, _ := strconv.Atoi(year)
	m, _ := strconv.Atoi(month)
	d, _ := strconv.Atoi(day)
	if len(year) == 2 {
		if y >= 50 {
			return calendar.Date{}, &measure.Refusal{Code: fault.CodeDateYearDigits, Why: fmt.Sprintf("The year %s could be 19%s or 20%s.", year, year, year),
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
		return calendar.Date{}, dateRefusal(fault.CodeDateFarOff, fmt.Sprintf("This is the day %s, outside the years %d to %d.", d, yearLeast, yearMost))
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
// the other count begins on 1 January 1904. Parts of a day are cut.
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

// year reads a year of four digits, 0 where blank or refused.
func (rec *record) year(name string) int {
	text, ok := rec.text(name)
	if !ok {
		return 0
	}
	if y, err := strconv.Atoi(text); err == nil && len(text) == 4 && y >= 1000 && y <= 2199 {
		return y
	}
	rec.fail(name, fault.CodeYearNotRead, "This is not a year of four digits.", "Type the year alone, such as 1925; the best guess will do.")
	return 0
}
