package rows

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
)

// dayOrders is what the days of the books show about the order of day and month.
type dayOrders struct {
	either    int           // that could be read day or month first
	eitherAt  fault.Problem // the first of them, by place
	dots      bool          // one of them is written with full stops, as where days come first
	semicolon bool          // one of them stands in a plain file whose cells a semicolon separates
	usual     []fault.Place // that only the shop's order can read
	// years are those of the days that have one, by file and sheet; without are the
	// sheets that have days without one and say none.
	years   map[fault.Place]map[int]bool
	without []fault.Place
}

// sheetOf is the place of a whole sheet.
func sheetOf(at fault.Place) fault.Place { return fault.Place{File: at.File, Sheet: at.Sheet} }

// seeYear remembers the year of a day.
func (d *dayOrders) seeYear(at fault.Place, year int) {
	if d.years == nil {
		d.years = map[fault.Place]map[int]bool{}
	}
	if d.years[sheetOf(at)] == nil {
		d.years[sheetOf(at)] = map[int]bool{}
	}
	d.years[sheetOf(at)][year] = true
}

// yearsOf are the years of the days of some sheets.
func (d *dayOrders) yearsOf(sheets []fault.Place) []int {
	found := map[int]bool{}
	for _, at := range sheets {
		maps.Copy(found, d.years[at])
	}
	return slices.Sorted(maps.Keys(found))
}

// eitherWay remembers a day that can be read day or month first.
func (r *Reader) eitherWay(row *Row, name string) {
	p := fault.Problem{Place: row.Place(name), Found: sheets.Shortened(row.Raw(name))}
	if r.days.either == 0 || p.Place.Compare(r.days.eitherAt.Place) < 0 {
		r.days.eitherAt = p
	}
	r.days.either++
	r.days.dots = r.days.dots || strings.Contains(row.Raw(name), ".")
	r.days.semicolon = r.days.semicolon || row.Sheet.Separates == ";"
}

// NoteEitherWay notes, once for the books, days that were read month first
// though no day says so and other things say that days come first here.
func (r *Reader) NoteEitherWay() {
	s := r.settings
	if r.days.either == 0 || len(r.days.usual) > 0 || s.DayFirst || r.given["dates"] ||
		!r.days.dots && (!r.days.semicolon || r.points > 0) && !s.DecimalComma && !s.Metric() &&
			slices.Contains([]string{"USD", ""}, s.Currency) {
		return
	}
	for key := range r.causes {
		if key.code == fault.CodeDateOtherOrder {
			return // reported as that
		}
	}
	p := r.days.eitherAt
	p.Code, p.Note = fault.CodeDateEitherWay, true
	p.Why = fmt.Sprintf("%d %s, here the first, can be read day or month first and %s read month first; nothing in the "+
		"records shows which is meant.",
		r.days.either, fault.Plural(r.days.either, "day", "days"), fault.Plural(r.days.either, "was", "were"))
	p.Fix = "If that is right, put dates = \"mdy\" at the top of settings.toml; type other days as year-month-day, " +
		"such as 2026-03-09."
	if r.lines.Propose("", `dates = "dmy"`, p.Place) {
		p.Fix = "If the day comes first, put dates = \"dmy\" at the top of settings.toml; if not, put dates = \"mdy\" there."
	}
	r.problems.Add(p)
}

// otherOrder tells a day that only the other order of day and month can read.
func (row *Row) otherOrder(name string) {
	if !row.Reported(name) {
		row.SetReported(name)
		row.FailForCause(name, "", fault.CodeDateOtherOrder, row.r.sayOtherOrder)
	}
}

// sayOtherOrder words the days of a sheet that only the other order can read.
// One of them makes all others doubtful that either order can read; the
// setting is proposed where no day of the records speaks against it.
func (r *Reader) sayOtherOrder(s *Cause) (why, fix string) {
	order, other, setting := "month", "day", "dmy"
	if r.settings.DayFirst {
		order, other, setting = "day", "month", "mdy"
	}
	why = fmt.Sprintf("The %s is read first in days such as this, and so there is no such day.%s", order, s.More())
	if len(r.days.usual) > 0 {
		return why, fmt.Sprintf("Type it as year-month-day, such as 2026-03-09. One setting cannot fit all days here: "+
			"others, such as %s, can only have the %s first.", r.days.usual[0], order)
	}
	if r.days.either > 0 {
		why += fmt.Sprintf(" And %d %s in the records can be read either way and %s read %s first, so %s may be wrong "+
			"without a sign.",
			r.days.either, fault.Plural(r.days.either, "day", "days"), fault.Plural(r.days.either, "was", "were"), order,
			fault.Plural(r.days.either, "it", "they"))
	}
	line := fmt.Sprintf("dates = %q", setting)
	if !r.lines.Propose("", line, s.First.Place) {
		return why, "Type it as year-month-day, such as 2026-03-09. The other order would put all days into one month."
	}
	return why, fmt.Sprintf("If you write the %s first, put %s into settings.toml; all days are then read again. If not, "+
		"type this one as year-month-day, such as 2026-03-09.", other, line)
}

// otherMark words the numbers of a sheet with the other decimal mark. A
// setting is proposed where no number of the records speaks against it.
func (r *Reader) otherMark(s *Cause, one *measure.Refusal) (why, fix string) {
	why, fix = one.Why+s.More(), one.Fix
	const line = "decimal_comma = true"
	switch {
	case r.settings.DecimalComma:
	case values.HasComma(s.First.Found) && r.points == 0 && r.lines.Propose("", line, s.First.Place):
		fix = fmt.Sprintf("If you write the comma everywhere, put %s into settings.toml. If not, type it with a "+
			"point, such as 7.50.", line)
	case !r.lines.Tell("", line, s.First.Place):
		fix = "Type it with a point, such as 7.50."
	}
	return why, fix
}
