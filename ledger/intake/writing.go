package intake

import (
	"fmt"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
)

// otherOrder tells a day that only the other order of day and month can read.
func (rec *record) otherOrder(name string) {
	if !rec.told[name] {
		rec.told[name] = true
		rec.failForCause(name, "", fault.CodeDateOtherOrder, rec.r.sayOtherOrder)
	}
}

// sayOtherOrder words the days of a sheet that only the other order can read.
// One of them makes all others doubtful that either order can read; the
// setting is proposed where no day of the records speaks against it.
func (r *reading) sayOtherOrder(s *cause) (why, fix string) {
	order, other, setting := "month", "day", "dmy"
	if r.settings.DayFirst {
		order, other, setting = "day", "month", "mdy"
	}
	why = fmt.Sprintf("The %s is read first in days such as this, and so there is no such day.%s", order, s.more())
	if len(r.days.usual) > 0 {
		return why, fmt.Sprintf("Type it as year-month-day, such as 2026-03-09. One setting cannot fit all days here: others, such as %s, can only have the %s first.", r.days.usual[0], order)
	}
	if r.days.either > 0 {
		why += fmt.Sprintf(" And %d %s in the records can be read either way and %s read %s first, so %s may be wrong without a sign.",
			r.days.either, fault.Plural(r.days.either, "day", "days"), fault.Plural(r.days.either, "was", "were"), order, fault.Plural(r.days.either, "it", "they"))
	}
	line := fmt.Sprintf("dates = %q", setting)
	r.heads.propose("", line, s.first.Place)
	return why, fmt.Sprintf("If you write the %s first, put %s into settings.toml; all days are read anew then. If not, type this one as year-month-day, such as 2026-03-09.", other, line)
}

// otherMark words the numbers of a sheet with the other decimal mark. A
// setting is proposed where no number of the records speaks against it.
func (r *reading) otherMark(s *cause, one *measure.Refusal) (why, fix string) {
	why, fix = one.Why+s.more(), one.Fix
	if !r.settings.DecimalComma && values.HasComma(s.first.Found) && r.points == 0 {
		r.heads.propose("", "decimal_comma = true", s.first.Place)
		fix = "If you write the comma everywhere, put decimal_comma = true into settings.toml. If not, type it with a point, such as 7.50."
	}
	return why, fix
}
