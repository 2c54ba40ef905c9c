package rows

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
)

// A day without a year whose sheet says none, or several.
var (
	noYear = &measure.Refusal{Code: fault.CodeDateNotRead, WholeColumn: true,
		Why: "This day has no year, and neither the sheet's name, a title nor the file's name says one."}
	severalYears = &measure.Refusal{Code: fault.CodeDateNotRead, WholeColumn: true,
		Why: "This day has no year, and the sheet's name, a title or the file's name say several.",
		Fix: "Type the day as year-month-day, such as 2026-03-09."}
)

// yearFix says how the days of a sheet that says no year can have one: the year of
// all other days of the books is proposed, where they have one.
func (r *Reader) yearFix(at fault.Place) string {
	const typed = "type the day as year-month-day, such as 2026-03-09."
	if years := slices.Collect(maps.Keys(r.days.years)); len(years) == 1 {
		if line := fmt.Sprintf("year = %d", years[0]); r.lines.Propose("", line, at) {
			return fmt.Sprintf("All days with a year are of %d. If these are too, %s. If not, %s", years[0],
				settings.Put("", line), typed)
		}
	}
	return "If all such days are of one year, put year = and its four digits at the top of settings.toml. If not, " + typed
}

// dayOfYear reads a day without a year as one of the year that the sheet is of,
// which is reported once a sheet. What no year is known for, or could be of the year
// before or after, is asked for.
func (row *Row) dayOfYear(name string, c sheets.Cell) (calendar.Date, values.Order, *measure.Refusal) {
	p := row.Block.Period
	switch {
	case p.Year == 0 && p.Several:
		return calendar.Date{}, values.NoOrder, severalYears
	case p.Year == 0:
		return calendar.Date{}, values.NoOrder, noYear
	}
	d, order, refusal := values.DayOfYear(c, row.r.settings.DayFirst, p.Year)
	if refusal != nil || order == values.OtherOrder {
		return d, order, refusal
	}
	apart := int(d.Month) - p.Month
	if p.Month != 0 && (apart == int(time.December-time.January) || apart == -int(time.December-time.January)) {
		other := d
		other.Year -= apart / int(time.December-time.January)
		return calendar.Date{}, values.NoOrder, &measure.Refusal{Code: fault.CodeYearDoubtful,
			Why: fmt.Sprintf("This sheet is of %s %d, and this day has no year, so it may be %s or %s.",
				time.Month(p.Month), p.Year, other, d),
			Fix: fmt.Sprintf("Type the one that is meant, such as %s.", other)}
	}
	if p.Turned[name][row.At.Row] {
		other := d
		other.Year--
		if d.Month <= time.June {
			other.Year = d.Year + 1
		}
		return calendar.Date{}, values.NoOrder, &measure.Refusal{Code: fault.CodeYearDoubtful, WholeColumn: true,
			Why: fmt.Sprintf("The days of this column run from one year into another here, and they have no year; by %s "+
				"it would be %s.", p.From, d),
			Fix: fmt.Sprintf("Type the year with these days, here %s or %s.", d, other)}
	}
	row.NoteForCause(name, "year", fault.CodeYearTaken, 0, func(s *Cause) (string, string) {
		return fmt.Sprintf("Days without a year are read as days of %d, by %s.", p.Year, p.From) + s.More(),
			"If they are of another year, type it with the day."
	})
	return d, order, nil
}
