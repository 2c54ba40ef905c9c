package cli

import (
	"strconv"
	"time"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
)

// ReadMonth reads a month as typed; blank is none.
func ReadMonth(text string) (calendar.Month, error) {
	if text == "" {
		return 0, nil
	}
	if m, err := calendar.ParseMonth(text); err == nil {
		return m, nil
	}
	for _, as := range []string{"2006-1", "1/2006", "2006/1", "Jan 2006", "January 2006"} {
		if t, err := time.Parse(as, text); err == nil {
			return calendar.MonthOf(t.Year(), t.Month()), nil
		}
	}
	return 0, Usagef("%q is not a month. Type the year and the month, as in 2026-03.", text)
}

// SplitPeriod takes a month or a year off the end of the arguments, as its
// first and last month; 0 where there is none.
func SplitPeriod(args []string) (rest []string, from, to calendar.Month) {
	last := len(args) - 1
	if last > 0 {
		if december, err := ReadYear(args[last]); err == nil {
			return args[:last], calendar.MonthOf(december.Year(), time.January), december
		}
	}
	rest, to = SplitMonth(args)
	return rest, to, to
}

// SplitMonth takes a month off the end of the arguments; 0 where there is none.
func SplitMonth(args []string) ([]string, calendar.Month) {
	last := len(args) - 1
	if last < 1 {
		return args, 0
	}
	month, err := calendar.ParseMonth(args[last])
	if err != nil {
		return args, 0
	}
	return args[:last], month
}

// StampOf is the time SOURCE_DATE_EPOCH gives, whole seconds since 1970 began
// in UTC (reproducible-builds.org, the SOURCE_DATE_EPOCH specification);
// zero where it is not set: reports are then dated by their period's end.
func StampOf(w terminal.Console) (time.Time, error) {
	text := ""
	if w.Env != nil {
		text = w.Env("SOURCE_DATE_EPOCH")
	}
	if text == "" {
		return time.Time{}, nil
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	// PDF dates have four digits for the year.
	if err != nil || seconds < 0 || seconds > 253402300799 {
		return time.Time{}, Usagef("SOURCE_DATE_EPOCH is %q, and that is not a number of seconds since 1970. Unset "+
			"it, or set it to one, as in 1767225600.", text)
	}
	return time.Unix(seconds, 0).UTC(), nil
}

// ReadYear reads a year as typed and gives its December; blank is none.
func ReadYear(text string) (calendar.Month, error) {
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || len(text) != 4 || n < 1900 {
		return 0, Usagef("%q is not a year. Type it with four digits, as in 2026.", text)
	}
	return calendar.MonthOf(n, time.December), nil
}
