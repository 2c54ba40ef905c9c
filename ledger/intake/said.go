package intake

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
)

// noteSaid notes an amount that was read out of more than a number.
func (rec *record) noteSaid(name string, said measure.SaidMoney) {
	why := map[measure.SaidKind]string{
		measure.SaidFree:    "A word for nothing is read as %s.",
		measure.SaidProduct: "So many at a price is read as what they come to, here %s.",
		measure.SaidFor:     "So many for a price is read as that price, here %s.",
		measure.SaidWords:   "The words beside an amount are left out; here %s is read.",
	}[said.Kind]
	rec.noteForCause(name, fmt.Sprint(name, said.Kind), fault.CodeSaidInWords, int64(said.Cents.Abs()),
		func(s *cause) (string, string) {
			return fmt.Sprintf(why, said.Cents.Grouped()) + s.more(), "If it is meant otherwise, type the amount alone."
		})
}

// saysFree says that a cell of money is a word for nothing.
func (rec *record) saysFree(name string) bool {
	said, refusal := values.MoneySaid(rec.cell(name), rec.r.settings)
	return refusal == nil && said.Kind == measure.SaidFree
}

// direct is the channel of a sale that names none.
const direct = "direct"

// directSale is the channel of a line of Sales that names none, as it is spelled
// elsewhere, with a note.
func (rec *record) directSale() string {
	rec.noteForCause("channel", "", fault.CodeChannelDirect, 0, func(s *cause) (string, string) {
		return "A sale without a channel is read as direct, from the shop itself." + s.more(),
			"If it was sold elsewhere, type where."
	})
	if known := rec.r.names.channels[direct]; known != "" {
		return known
	}
	return direct
}

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
func (r *reading) yearFix(at fault.Place) string {
	const typed = "type the day as year-month-day, such as 2026-03-09."
	if years := slices.Collect(maps.Keys(r.days.years)); len(years) == 1 {
		if line := fmt.Sprintf("year = %d", years[0]); r.lines.Propose("", line, at) {
			return fmt.Sprintf("All days with a year are of %d. If these are too, put %s at the top of settings.toml. If "+
				"not, %s", years[0], line, typed)
		}
	}
	return "If all such days are of one year, put year = and its four digits at the top of settings.toml. If not, " + typed
}

// dayOfYear reads a day without a year as one of the year that the sheet is of,
// which is reported once a sheet. What no year is known for, or could be of the year
// before or after, is asked for.
func (rec *record) dayOfYear(name string, c sheets.Cell) (calendar.Date, values.Order, *measure.Refusal) {
	p := rec.block.Period
	switch {
	case p.Year == 0 && p.Several:
		return calendar.Date{}, values.NoOrder, severalYears
	case p.Year == 0:
		return calendar.Date{}, values.NoOrder, noYear
	}
	d, order, refusal := values.DayOfYear(c, rec.r.settings.DayFirst, p.Year)
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
	if p.Turned[name][rec.at.Row] {
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
	rec.noteForCause(name, "year", fault.CodeYearTaken, 0, func(s *cause) (string, string) {
		return fmt.Sprintf("Days without a year are read as days of %d, by %s.", p.Year, p.From) + s.more(),
			"If they are of another year, type it with the day."
	})
	return d, order, nil
}
