// Package calendar holds dates without a time of day and the months they fall
// in. A date is what a record says, in no time zone; a month is the unit in
// which books are closed.
package calendar

import (
	"errors"
	"fmt"
	"time"
)

// Date is a day. The zero value is 'no date given'. Dates compare with == and
// Compare; text form is 2026-03-09, also in JSON.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// ErrNoSuchDay is returned for a day that is in no calendar, such as 30 February.
var ErrNoSuchDay = errors.New("there is no such day")

// New makes a date, or ErrNoSuchDay.
func New(year int, month time.Month, day int) (Date, error) {
	t := time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	if t.Year() != year || t.Month() != month || t.Day() != day {
		return Date{}, ErrNoSuchDay
	}
	return Date{year, month, day}, nil
}

// FromTime takes the day of t as its own clock shows it.
func FromTime(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// Parse reads 2026-03-09 and nothing else.
func Parse(text string) (Date, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Date{}, err
	}
	return FromTime(t), nil
}

// IsZero says that no date was given.
func (d Date) IsZero() bool { return d == Date{} }

// Time is midnight UTC at the start of the day.
func (d Date) Time() time.Time {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
}

// Compare is negative where d is before e, 0 where they are the same day.
func (d Date) Compare(e Date) int {
	if d.Year != e.Year {
		return d.Year - e.Year
	}
	if d.Month != e.Month {
		return int(d.Month) - int(e.Month)
	}
	return d.Day - e.Day
}

// Before says that d is an earlier day than e.
func (d Date) Before(e Date) bool { return d.Compare(e) < 0 }

// After says that d is a later day than e.
func (d Date) After(e Date) bool { return d.Compare(e) > 0 }

// DaysSince counts the days from e to d; negative where d is before e.
func (d Date) DaysSince(e Date) int {
	return int(d.Time().Sub(e.Time()).Hours() / 24)
}

// AddDays moves the date by n days.
func (d Date) AddDays(n int) Date { return FromTime(d.Time().AddDate(0, 0, n)) }

// InMonth is the month the day falls in.
func (d Date) InMonth() Month { return MonthOf(d.Year, d.Month) }

// String is 2026-03-09, or nothing for no date.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day)
}

// Written is the day within words: Mar 9, 2026, or with the day first 9 Mar 2026;
// nothing for no date.
func (d Date) Written(dayFirst bool) string {
	switch month := d.Month.String()[:3]; {
	case d.IsZero():
		return ""
	case dayFirst:
		return fmt.Sprintf("%d %s %d", d.Day, month, d.Year)
	default:
		return fmt.Sprintf("%s %d, %d", month, d.Day, d.Year)
	}
}

// MarshalText writes the text form.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads the text form; nothing is no date.
func (d *Date) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*d = Date{}
		return nil
	}
	e, err := Parse(string(b))
	*d = e
	return err
}

// Month is a calendar month, counted in months since January of year 0, so
// that months compare and step as numbers. The zero value is 'no month'.
type Month int

// MonthOf makes a month.
func MonthOf(year int, month time.Month) Month { return Month(year*12 + int(month) - 1) }

// ParseMonth reads 2026-03 and nothing else.
func ParseMonth(text string) (Month, error) {
	t, err := time.Parse("2006-01", text)
	if err != nil {
		return 0, err
	}
	return MonthOf(t.Year(), t.Month()), nil
}

// Year is the calendar year.
func (m Month) Year() int { return int(m) / 12 }

// Of is the month within its year.
func (m Month) Of() time.Month { return time.Month(int(m)%12 + 1) }

// First is the month's first day.
func (m Month) First() Date { return Date{m.Year(), m.Of(), 1} }

// Last is the month's last day.
func (m Month) Last() Date { return (m + 1).First().AddDays(-1) }

// String is 2026-03.
func (m Month) String() string { return fmt.Sprintf("%04d-%02d", m.Year(), int(m.Of())) }

// Name is March 2026, as a heading has it.
func (m Month) Name() string { return fmt.Sprintf("%s %d", m.Of(), m.Year()) }

// MarshalText writes 2026-03.
func (m Month) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads 2026-03.
func (m *Month) UnmarshalText(b []byte) error {
	n, err := ParseMonth(string(b))
	*m = n
	return err
}
