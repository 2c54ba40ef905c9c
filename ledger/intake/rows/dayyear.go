package rows

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/headers"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/templates"
)

// A day without a year whose sheet says none, or several.
var (
	noYear = &measure.Refusal{Code: fault.CodeDateNotRead, WholeColumn: true,
		Why: "This day has no year, and neither the sheet's name, a title nor the file's name says one."}
	severalYears = &measure.Refusal{Code: fault.CodeDateNotRead, WholeColumn: true,
		Why: "This day has no year, and what stands beside it says several: a heading, a title, the name of the " +
			"sheet or file.",
		Fix: "Type the day as year-month-day, such as 2026-03-09."}
)

// yearFix says how the days of a sheet that says no year can have one: the year of
// all other days of the books is proposed, where they have one; else that of all other
// days of the sheets that have such days.
func (r *Reader) yearFix(at fault.Place) string {
	const typed = "type the day as year-month-day, such as 2026-03-09."
	where, years := "", r.days.yearsOf(slices.Collect(maps.Keys(r.days.years)))
	if len(years) > 1 {
		where, years = " on the sheets that have such days", r.days.yearsOf(r.days.without)
	}
	if len(years) == 1 {
		if line := fmt.Sprintf("year = %d", years[0]); r.lines.Propose("", line, at) {
			return fmt.Sprintf("All days with a year%s are of %d. If these are too, %s. If not, %s", where, years[0],
				settings.Put("", line), typed)
		}
	}
	return "If all such days are of one year, put year = and its four digits at the top of settings.toml. If not, " + typed
}

// Day is the day of a cell as Date reads it, none where it is refused; nothing is reported.
func (row *Row) Day(name string) calendar.Date {
	d, _, refusal := row.day(name, row.Cell(name))
	if refusal != nil {
		return calendar.Date{}
	}
	return d
}

// day reads a day, with its year or without.
func (row *Row) day(name string, c sheets.Cell) (calendar.Date, values.Order, *measure.Refusal) {
	d, order, refusal := values.Date(c, row.r.settings.DayFirst)
	if refusal != nil && values.HasNoYear(c) {
		return row.dayOfYear(name, c)
	}
	return d, order, refusal
}

// headedYear is the year of a day below the heading of a month. The days of a piece stand
// in order of time: those before the one that is in the month may be of the year before,
// those after it of the next. known is false where none is in the month.
func (row *Row) headedYear(name string, c sheets.Cell, p headers.Period) (year int, known bool) {
	if !p.Heading || p.Month == 0 || row.Block.Table.Name != "pieces" {
		return p.Year, false
	}
	d, _, refusal := values.DayOfYear(c, row.r.settings.DayFirst, p.Year)
	after := false
	for i := range row.Block.Table.Fields {
		f := &row.Block.Table.Fields[i]
		if f.Cell != templates.Date || refusal != nil {
			continue
		}
		other, _, _ := values.Date(row.Cell(f.Name), row.r.settings.DayFirst)
		if other.IsZero() {
			other, _, _ = values.DayOfYear(row.Cell(f.Name), row.r.settings.DayFirst, p.Year)
		}
		inMonth := other.Year == p.Year && int(other.Month) == p.Month
		switch {
		case inMonth && after && int(d.Month) > p.Month:
			return p.Year - 1, true
		case inMonth && !after && f.Name != name && int(d.Month) < p.Month:
			return p.Year + 1, true
		case inMonth:
			return p.Year, true
		}
		after = after || f.Name == name
	}
	return p.Year, false
}

// dayOfYear reads a day without a year as one of the year that the heading above it or
// the sheet is of. What no year is known for, or could be of the year before or after, is
// refused.
func (row *Row) dayOfYear(name string, c sheets.Cell) (calendar.Date, values.Order, *measure.Refusal) {
	p := row.Block.PeriodAt(row.At.Row)
	switch {
	case p.Year == 0 && p.Several:
		return calendar.Date{}, values.NoOrder, severalYears
	case p.Year == 0:
		return calendar.Date{}, values.NoOrder, noYear
	}
	year, known := row.headedYear(name, c, p)
	d, order, refusal := values.DayOfYear(c, row.r.settings.DayFirst, year)
	if refusal != nil || order == values.OtherOrder || known {
		return d, order, refusal
	}
	apart := int(d.Month) - p.Month
	if p.Month != 0 && (apart == int(time.December-time.January) || apart == -int(time.December-time.January)) {
		other := d
		other.Year -= apart / int(time.December-time.January)
		return calendar.Date{}, values.NoOrder, &measure.Refusal{Code: fault.CodeYearDoubtful,
			Why: fmt.Sprintf("This %s is of %s %d, and this day has no year, so it may be %s or %s.",
				map[bool]string{true: "heading", false: "sheet"}[p.Heading], time.Month(p.Month), p.Year, other, d),
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
	return d, order, nil
}

// noteYear notes that a day without a year was read, once a sheet by its title or name and
// once by the headings in it.
func (row *Row) noteYear(name string, d calendar.Date) {
	p := row.Block.PeriodAt(row.At.Row)
	row.NoteForCause(name, map[bool]string{true: "heading", false: "year"}[p.Heading], fault.CodeYearTaken, 0,
		func(s *Cause) (string, string) {
			why := fmt.Sprintf("Days without a year are read as days of %d, by %s.", p.Year, p.From)
			if p.Heading {
				why = fmt.Sprintf("Days without a year are read by the headings above them, here %s by %s.", d, p.From)
			}
			return why + s.More(), "If they are of another year, type it with the day."
		})
}
