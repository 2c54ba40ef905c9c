package intake

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// cell is a column's cell in the row, blank where the column is missing.
func (rec *record) cell(name string) sheets.Cell {
	c, there := rec.block.Columns[name]
	if !there {
		return sheets.Cell{}
	}
	cell := rec.sheet.Cell(rec.line, c.Index)
	if of, is := rec.block.Units[name]; is {
		cell.Text = values.WithUnit(cell.Text, rec.line.Text(of))
	}
	return cell
}

// text is a cell's text. A needed cell that is blank is reported. ok is false
// where there is nothing to read further.
func (rec *record) text(name string) (text string, ok bool) {
	text = rec.raw(name)
	if text == "" && rec.field(name).Constraints.Required {
		rec.missing(name)
	}
	return text, text != "" && !rec.reported[name]
}

// words is a cell's text, blank where it is.
func (rec *record) words(name string) string {
	text, _ := rec.text(name)
	return text
}

// value reads a cell by a grammar of package values, telling what it refuses;
// ok is false where the cell is blank or refused.
func value[T any](rec *record, name string, read func(sheets.Cell) (T, *measure.Refusal)) (v T, ok bool) {
	if _, ok = rec.text(name); !ok {
		return v, false
	}
	c := rec.cell(name)
	v, refusal := read(c)
	if refusal != nil {
		rec.refusal(name, refusal)
		return v, false
	}
	return v, true
}

// figure is value for cells that hold numbers; those that show which decimal
// mark the owner types are counted.
func figure[T any](rec *record, name string, read func(sheets.Cell, ledger.Settings) (T, *measure.Refusal)) (T, bool) {
	return value(rec, name, func(c sheets.Cell) (T, *measure.Refusal) {
		if values.HasPoint(c) {
			rec.r.points++
		}
		return read(c, rec.r.settings)
	})
}

// refusal tells a text that was not taken.
func (rec *record) refusal(name string, r *measure.Refusal) {
	switch {
	case r.Code == fault.CodeDecimalMark && !rec.reported[name]:
		rec.reported[name] = true
		rec.failForCause(name, "", r.Code, func(s *cause) (string, string) { return rec.r.otherMark(s, r) })
	case r == noYear:
		rec.failColumn(name, r.Code, func(s *cause) (string, string) {
			return r.Why + s.more(), rec.r.yearFix(s.first.Place)
		})
	case r.WholeColumn:
		rec.failColumn(name, r.Code, func(s *cause) (string, string) { return r.Why + s.more(), r.Fix })
	default:
		rec.fail(name, r.Code, r.Why, rec.fixFor(name, r))
	}
}

// fixFor is what to type for a text that was not taken, said for its column:
// a needed cell cannot be left blank, a free piece has a word of its own.
func (rec *record) fixFor(name string, r *measure.Refusal) string {
	required := rec.field(name).Constraints.Required
	if unit := rec.r.everydayUnit(rec.raw(name)); r.Code == fault.CodeUnitUnknown && unit != "" {
		return fmt.Sprintf("If %s is meant, type that. The units are %s.", unit, strings.Join(measure.UnitNames(), ", "))
	}
	switch {
	case rec.block.Table.Name == "pieces" && name == "price" && r.Code == fault.CodeMoneyNotRead && r.Free:
		return fmt.Sprintf("If it was free, leave the price blank and type free under %s.", rec.header("how"))
	case required && r.FixNeeded != "":
		return r.FixNeeded
	}
	return r.Fix
}

// moneyOr reads money; ok is false where the cell is blank or refused. A
// negative is refused unless signed.
func (rec *record) moneyOr(name string, signed bool) (c money.Cents, ok bool) {
	said, ok := figure(rec, name, values.MoneySaid)
	c = said.Cents
	if ok && said.Kind != measure.SaidPlain {
		rec.noteSaid(name, said)
	}
	if ok && c < 0 && !signed {
		rec.fail(name, fault.CodeMoneyNegative, "An amount below 0 makes no sense here.", rec.withoutMinus(name))
		return 0, false
	}
	return c, ok
}

// money reads money, nothing where blank.
func (rec *record) money(name string) money.Cents {
	c, _ := rec.moneyOr(name, false)
	return c
}

// signedMoney reads money that may be negative, nothing where blank.
func (rec *record) signedMoney(name string) money.Cents {
	c, _ := rec.moneyOr(name, true)
	return c
}

// moneyIf reads money, nil where blank.
func (rec *record) moneyIf(name string) *money.Cents {
	if c, ok := rec.moneyOr(name, false); ok {
		return &c
	}
	return nil
}

// number reads a number within the column's limits, nil where blank or refused.
func (rec *record) number(name string) *big.Rat {
	if x, ok := figure(rec, name, values.Number); ok {
		return rec.within(name, x)
	}
	return nil
}

// within holds a number to the column's limits.
func (rec *record) within(name string, x *big.Rat) *big.Rat {
	c := rec.field(name).Constraints
	say := ""
	limit := func(n interface{ String() string }) *big.Rat {
		l, _ := new(big.Rat).SetString(n.String())
		return l
	}
	switch {
	case c.ExclusiveMinimum != "" && x.Cmp(limit(c.ExclusiveMinimum)) <= 0:
		say = "above " + c.ExclusiveMinimum.String()
	case c.Minimum != "" && x.Cmp(limit(c.Minimum)) < 0:
		say = "at least " + c.Minimum.String()
	case c.Maximum != "" && x.Cmp(limit(c.Maximum)) > 0:
		say = "at most " + c.Maximum.String()
	default:
		return x
	}
	rec.fail(name, fault.CodeNumberOutOfRange, fmt.Sprintf("The number in %s must be %s.", rec.place(name).Column, say),
		fmt.Sprintf("Type a number that is %s%s.", say, rec.orBlank(name)))
	return nil
}

// numberOrOne reads a number, 1 where blank.
func (rec *record) numberOrOne(name string) *big.Rat {
	if x := rec.number(name); x != nil {
		return x
	}
	return big.NewRat(1, 1)
}

// percent reads a number that may have a percent sign, nil where blank or refused.
func (rec *record) percent(name string) *big.Rat {
	small := false
	x, ok := figure(rec, name, func(c sheets.Cell, s ledger.Settings) (x *big.Rat, refusal *measure.Refusal) {
		x, small, refusal = values.Percent(c, s)
		return x, refusal
	})
	if !ok {
		return nil
	}
	if small {
		rec.noteFraction(name, x)
	}
	return rec.within(name, x)
}

// whole reads a whole number, 0 where blank or refused.
func (rec *record) whole(name string) int {
	x := rec.number(name)
	if x == nil {
		return 0
	}
	if !x.IsInt() || !x.Num().IsInt64() {
		rec.fail(name, fault.CodeNumberNotRead, fmt.Sprintf("The number in %s counts whole things.", rec.place(name).Column),
			"Type it without a fraction, such as 6.")
		return 0
	}
	return int(x.Num().Int64())
}

// length reads a length in the shop's unit, nil where blank or refused.
func (rec *record) length(name string) *big.Rat { return rec.unbounded(name, measure.ReadLength) }

// unitted reads a number that may have the shop's own unit after it, within
// the column's limits; nil where blank or refused.
func (rec *record) unitted(name string, read func(string, measure.Style, bool) (*big.Rat, *measure.Refusal)) *big.Rat {
	x := rec.unbounded(name, read)
	if x == nil {
		return nil
	}
	rec.eitherWay(name, x)
	return rec.within(name, x)
}

// eitherWay notes a number that was read with a mark for thousands where that may
// be its decimal mark.
func (rec *record) eitherWay(name string, x *big.Rat) {
	if other := measure.EitherWay(rec.raw(name), values.StyleOf(rec.r.settings)); other != "" {
		rec.note(name, fault.CodeNumberEitherWay, 0, fmt.Sprintf("This was read as %s, with a mark for thousands.",
			x.RatString()), fmt.Sprintf("If %s is meant, type that; if not, type %s.", other, x.RatString()))
	}
}

// worth reads an estimate: of all money alone it may be a guess with any decimals.
func (rec *record) worth() *money.Cents {
	c := rec.moneyIf("worth")
	if c != nil {
		rec.eitherWay("worth", new(big.Rat).Quo(c.Rat(), big.NewRat(100, 1)))
	}
	return c
}

// unbounded is unitted without the column's limits.
func (rec *record) unbounded(name string, read func(string, measure.Style, bool) (*big.Rat,
	*measure.Refusal)) *big.Rat {
	x, _ := figure(rec, name, func(c sheets.Cell, s ledger.Settings) (*big.Rat, *measure.Refusal) {
		return values.Unitted(
			c, s, read)
	})
	return x
}

// hours reads hours, nil where blank or refused.
func (rec *record) hours(name string) *big.Rat {
	if text, ok := rec.text(name); !ok || rec.bareMinutes(name, text) || rec.partOfDay(name) {
		return nil
	}
	x, _ := figure(rec, name, values.Hours)
	return x
}

// bareMinutes refuses a number without a unit in a column that is named for
// minutes: read as hours it would be sixty times too much.
func (rec *record) bareMinutes(name, text string) bool {
	if !columns.InMinutes(rec.block.Columns[name].Header) ||
		strings.ContainsFunc(text, func(c rune) bool { return c == ':' || unicode.IsLetter(c) }) {
		return false
	}
	rec.failColumn(name, fault.CodeHoursNotRead, func(s *cause) (string, string) {
		return "The column is named for minutes, and a number alone is read as hours." + s.more(),
			fmt.Sprintf("Type the unit after it, such as %s min, or type hours and name the column hours.", s.first.Found)
	})
	return true
}

// partOfDay refuses hours that were saved as a part of a day, and notes those
// that may have been. It could move what the time is worth at the wanted rate.
func (rec *record) partOfDay(name string) bool {
	time, doubtful := values.PartOfDay(rec.cell(name))
	switch {
	case time == "":
		return false
	case doubtful:
		hours, _ := measure.ReadHours(time, measure.Style{})
		worth := hours.Mul(hours, new(big.Rat).SetInt64(int64(rec.r.settings.TargetHourly)))
		rec.note(name, fault.CodeHoursOfDay, int64(money.Round(worth)),
			fmt.Sprintf("Spreadsheets save a time as a part of a day, and as such this would be %s.", time),
			fmt.Sprintf("If that is meant, type %s; if not, leave it.", time))
		return false
	}
	rec.failColumn(name, fault.CodeHoursOfDay, func(s *cause) (string, string) {
		return fmt.Sprintf("The spreadsheet wrote a time as a part of a day here, most likely %s.", time) + s.more(),
			fmt.Sprintf("Type %s if that is meant, or format the column as text and type the times again.", time)
	})
	return true
}

// amount reads an amount of a supply into containers, nil where blank or
// refused. Zero is taken only where zero says so, a negative never.
func (rec *record) amount(name string, size *big.Rat, unit measure.Unit, zero bool) *big.Rat {
	x, _ := figure(rec, name, func(c sheets.Cell, s ledger.Settings) (*big.Rat, *measure.Refusal) {
		return values.Containers(c, s, size, unit, zero)
	})
	return x
}

// container reads what a container holds; its unit is needed.
func (rec *record) container(name string) (measure.Amount, bool) {
	return figure(rec, name, values.Container)
}

// yesNo reads yes or no; given is false where the cell is blank or refused.
func (rec *record) yesNo(name string) (yes, given bool) {
	if _, ok := rec.text(name); !ok {
		return false, false
	}
	yes, given = values.YesNo(rec.cell(name))
	if !given {
		rec.fail(name, fault.CodeYesNoNotRead, "This is neither yes nor no, and the column takes only these.",
			"Type yes or no"+rec.orBlank(name)+".")
	}
	return yes, given
}

// year reads a year of four digits, 0 where blank or refused.
func (rec *record) year(name string) int {
	y, _ := value(rec, name, values.Year)
	return y
}

// date reads a date, none where blank or refused.
func (rec *record) date(name string) calendar.Date {
	order := values.NoOrder
	d, ok := value(rec, name, func(c sheets.Cell) (d calendar.Date, refusal *measure.Refusal) {
		d, order, refusal = values.Date(c, rec.r.settings.DayFirst)
		if refusal != nil && values.HasNoYear(c) {
			d, order, refusal = rec.dayOfYear(name, c)
		}
		return d, refusal
	})
	if ok && order != values.OtherOrder {
		rec.r.days.seeYear(d.Year)
	}
	switch {
	case !ok:
	case order == values.OtherOrder:
		rec.otherOrder(name)
	case order == values.OneOrder:
		rec.r.days.usual = append(rec.r.days.usual, rec.place(name))
	case order == values.BothOrders:
		rec.r.eitherWay(rec, name)
	}
	return d
}
