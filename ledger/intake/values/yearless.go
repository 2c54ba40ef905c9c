package values

import (
	"regexp"
	"strconv"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
)

// The written forms of a day without a year.
var (
	twoParts    = regexp.MustCompile(`^(\d{1,2})[-/.](\d{1,2})\.?$`)
	dayWordBare = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th)?[. -]{1,2}([A-Za-z]+)\.?$`)
	wordDayBare = regexp.MustCompile(`^([A-Za-z]+)\.?[ -](\d{1,2})(?:st|nd|rd|th)?$`)
)

// HasNoYear says that a text is a day without a year: 3/9, 9 Mar, March 9th.
func HasNoYear(c sheets.Cell) bool {
	text := strings.Join(strings.Fields(c.Text), " ")
	if c.InBook && IsRaw(text) {
		return false
	}
	if twoParts.MatchString(text) {
		return true
	}
	m, d := monthAndDay(text)
	n, err := strconv.Atoi(d)
	return m != "" && err == nil && n >= 1 && n <= 31
}

// IsDay says that a cell reads as a day, with its year or without: 1.3., 3/9, March 9th.
// What may as well be a number, 5.4, is none.
func IsDay(c sheets.Cell) bool {
	_, isNumber := measure.Money(c.Text, measure.Style{})
	return IsDate(c) || isNumber != nil && MayBeDay(c)
}

// MayBeDay says that a cell is a day without a year by its digits: 5.4 beside days.
func MayBeDay(c sheets.Cell) bool {
	const leapYear = 2024
	_, _, refusal := DayOfYear(c, false, leapYear)
	return HasNoYear(c) && refusal == nil
}

// monthAndDay are the parts of a day with the month's name; blank for others.
func monthAndDay(text string) (month, day string) {
	if p := dayWordBare.FindStringSubmatch(text); p != nil {
		return monthNumber(p[2]), p[1]
	}
	if p := wordDayBare.FindStringSubmatch(text); p != nil {
		return monthNumber(p[1]), p[2]
	}
	return "", ""
}

// DayOfYear reads a day without a year as Date reads it with one.
func DayOfYear(c sheets.Cell, dayFirst bool, year int) (calendar.Date, Order, *measure.Refusal) {
	text, y := strings.Join(strings.Fields(c.Text), " "), strconv.Itoa(year)
	if p := twoParts.FindStringSubmatch(text); p != nil {
		return eitherOrder(p[1], p[2], y, dayFirst)
	}
	m, d := monthAndDay(text)
	date, refusal := theDay(y, m, d)
	return date, NoOrder, refusal
}
