package rows

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

// Cell is a column's cell in the row, blank where the column is missing.
func (row *Row) Cell(name string) sheets.Cell {
	c, there := row.Block.Columns[name]
	if !there {
		return sheets.Cell{}
	}
	cell := row.Sheet.Cell(row.Line, c.Index)
	if of, is := row.Block.Units[name]; is {
		cell.Text = values.WithUnit(cell.Text, row.Line.Text(of))
	}
	return cell
}

// Text is a cell's text. A needed cell that is blank is reported. ok is false
// where there is nothing to read further.
func (row *Row) Text(name string) (text string, ok bool) {
	text = row.Raw(name)
	if text == "" && row.Field(name).Constraints.Required {
		row.Missing(name)
	}
	return text, text != "" && !row.Reported(name)
}

// Words is a cell's text, blank where it is.
func (row *Row) Words(name string) string {
	text, _ := row.Text(name)
	return text
}

// value reads a cell by a grammar of package values, telling what it refuses;
// ok is false where the cell is blank or refused.
func value[T any](row *Row, name string, read func(sheets.Cell) (T, *measure.Refusal)) (v T, ok bool) {
	if _, ok = row.Text(name); !ok {
		return v, false
	}
	c := row.Cell(name)
	v, refusal := read(c)
	if refusal != nil {
		row.Refusal(name, refusal)
		return v, false
	}
	return v, true
}

// Figure is value for cells that hold numbers; those that show which decimal
// mark the owner types are counted.
func Figure[T any](row *Row, name string, read func(sheets.Cell, ledger.Settings) (T, *measure.Refusal)) (T, bool) {
	return value(row, name, func(c sheets.Cell) (T, *measure.Refusal) {
		if values.HasPoint(c) {
			row.r.points++
		}
		return read(c, row.r.settings)
	})
}

// Refusal tells a text that was not taken.
func (row *Row) Refusal(name string, r *measure.Refusal) {
	switch {
	case r.Code == fault.CodeDecimalMark && !row.Reported(name):
		row.SetReported(name)
		row.FailForCause(name, "", r.Code, func(s *Cause) (string, string) { return row.r.otherMark(s, r) })
	case r == noYear:
		row.r.days.without = append(row.r.days.without, sheetOf(row.At))
		row.FailColumn(name, r.Code, func(s *Cause) (string, string) {
			return r.Why + s.More(), row.r.yearFix(s.First.Place)
		})
	case r.Code == fault.CodeDateNotRead && !row.Reported(name) && shape(row.Raw(name)) != "":
		row.SetReported(name)
		row.FailForCause(name, name+" "+shape(row.Raw(name)), r.Code, func(s *Cause) (string, string) {
			return r.Why + s.More(), r.Fix
		})
	case r.WholeColumn:
		row.FailColumn(name, r.Code, func(s *Cause) (string, string) { return r.Why + s.More(), r.Fix })
	default:
		row.Fail(name, r.Code, r.Why, row.fixFor(name, r))
	}
}

// fixFor is what to type for a text that was not taken, said for its column:
// a needed cell cannot be left blank, a free piece has a word of its own.
func (row *Row) fixFor(name string, r *measure.Refusal) string {
	required := row.Field(name).Constraints.Required
	if unit := row.r.everydayUnit(row.Raw(name)); r.Code == fault.CodeUnitUnknown && unit != "" {
		return fmt.Sprintf("If %s is meant, type that. The units are %s.", unit, strings.Join(measure.UnitNames(), ", "))
	}
	switch {
	case row.Block.Table.Name == "pieces" && name == "price" && r.Code == fault.CodeMoneyNotRead && r.Free:
		return fmt.Sprintf("If it was free, leave the price blank and type free under %s.", row.Header("how"))
	case required && r.FixNeeded != "":
		return r.FixNeeded
	}
	return r.Fix
}

// MoneyOr reads money; ok is false where the cell is blank or refused. A
// negative is refused unless signed.
func (row *Row) MoneyOr(name string, signed bool) (c money.Cents, ok bool) {
	row.r.seeCurrency(row, name)
	said, ok := Figure(row, name, values.MoneySaid)
	c = said.Cents
	if ok && said.Kind != measure.SaidPlain {
		row.noteSaid(name, said)
	}
	if ok && c < 0 && !signed {
		row.belowZero(name, c)
		return 0, false
	}
	return c, ok
}

// Money reads money, nothing where blank.
func (row *Row) Money(name string) money.Cents {
	c, _ := row.MoneyOr(name, false)
	return c
}

// SignedMoney reads money that may be negative, nothing where blank.
func (row *Row) SignedMoney(name string) money.Cents {
	c, _ := row.MoneyOr(name, true)
	return c
}

// MoneyIf reads money, nil where blank.
func (row *Row) MoneyIf(name string) *money.Cents {
	if c, ok := row.MoneyOr(name, false); ok {
		return &c
	}
	return nil
}

// Number reads a number within the column's limits, nil where blank or refused.
func (row *Row) Number(name string) *big.Rat {
	if x, ok := Figure(row, name, values.Number); ok {
		return row.within(name, x)
	}
	return nil
}

// within holds a number to the column's limits.
func (row *Row) within(name string, x *big.Rat) *big.Rat {
	c := row.Field(name).Constraints
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
	row.Fail(name, fault.CodeNumberOutOfRange, fmt.Sprintf("The number in %s must be %s.", row.Place(name).Column, say),
		fmt.Sprintf("Type a number that is %s%s.", say, row.orBlank(name)))
	return nil
}

// NumberOrOne reads a number, 1 where blank.
func (row *Row) NumberOrOne(name string) *big.Rat {
	if x := row.Number(name); x != nil {
		return x
	}
	return big.NewRat(1, 1)
}

// Percent reads a number that may have a percent sign, nil where blank or refused.
func (row *Row) Percent(name string) *big.Rat {
	small := false
	x, ok := Figure(row, name, func(c sheets.Cell, s ledger.Settings) (x *big.Rat, refusal *measure.Refusal) {
		x, small, refusal = values.Percent(c, s)
		return x, refusal
	})
	if !ok {
		return nil
	}
	if small {
		row.noteFraction(name, x)
	}
	return row.within(name, x)
}

// Whole reads a whole number, 0 where blank or refused.
func (row *Row) Whole(name string) int {
	x := row.Number(name)
	if x == nil {
		return 0
	}
	if !x.IsInt() || !x.Num().IsInt64() {
		row.Fail(name, fault.CodeNumberNotRead, fmt.Sprintf("The number in %s counts whole things.", row.Place(name).Column),
			"Type it without a fraction, such as 6.")
		return 0
	}
	return int(x.Num().Int64())
}

// Length reads a length in the shop's unit, nil where blank or refused.
func (row *Row) Length(name string) *big.Rat { return row.unbounded(name, measure.ReadLength) }

// Unitted reads a number that may have the shop's own unit after it, within
// the column's limits; nil where blank or refused.
func (row *Row) Unitted(name string, read func(string, measure.Style, bool) (*big.Rat, *measure.Refusal)) *big.Rat {
	x := row.unbounded(name, read)
	if x == nil {
		return nil
	}
	row.eitherWay(name, x)
	return row.within(name, x)
}

// eitherWay notes a number that was read with a mark for thousands where that may
// be its decimal mark.
func (row *Row) eitherWay(name string, x *big.Rat) {
	if other := measure.EitherWay(row.Raw(name), values.StyleOf(row.r.settings)); other != "" {
		row.Note(name, fault.CodeNumberEitherWay, 0, fmt.Sprintf("This was read as %s, with a mark for thousands.",
			x.RatString()), fmt.Sprintf("If %s is meant, type that; if not, type %s.", other, x.RatString()))
	}
}

// Worth reads an estimate: of all money alone it may be a guess with any decimals.
func (row *Row) Worth() *money.Cents {
	c := row.MoneyIf("worth")
	if c != nil {
		row.eitherWay("worth", new(big.Rat).Quo(c.Rat(), big.NewRat(100, 1)))
	}
	return c
}

// unbounded is unitted without the column's limits.
func (row *Row) unbounded(name string, read func(string, measure.Style, bool) (*big.Rat,
	*measure.Refusal)) *big.Rat {
	x, _ := Figure(row, name, func(c sheets.Cell, s ledger.Settings) (*big.Rat, *measure.Refusal) {
		return values.Unitted(
			c, s, read)
	})
	return x
}

// Hours reads hours, nil where blank or refused.
func (row *Row) Hours(name string) *big.Rat {
	if text, ok := row.Text(name); !ok || row.bareMinutes(name, text) || row.partOfDay(name) {
		return nil
	}
	x, _ := Figure(row, name, values.Hours)
	return x
}

// bareMinutes refuses a number without a unit in a column that is named for
// minutes: read as hours it would be sixty times too much.
func (row *Row) bareMinutes(name, text string) bool {
	if !columns.InMinutes(row.Block.Columns[name].Header) ||
		strings.ContainsFunc(text, func(c rune) bool { return c == ':' || unicode.IsLetter(c) }) {
		return false
	}
	row.FailColumn(name, fault.CodeHoursNotRead, func(s *Cause) (string, string) {
		return "The column is named for minutes, and a number alone is read as hours." + s.More(),
			fmt.Sprintf("Type the unit after it, such as %s min, or type hours and name the column hours.", s.First.Found)
	})
	return true
}

// partOfDay refuses hours that were saved as a part of a day, and notes those
// that may have been. It could move what the time is worth at the wanted rate.
func (row *Row) partOfDay(name string) bool {
	time, doubtful := values.PartOfDay(row.Cell(name))
	switch {
	case time == "":
		return false
	case doubtful:
		hours, _ := measure.ReadHours(time, measure.Style{})
		worth := hours.Mul(hours, new(big.Rat).SetInt64(int64(row.r.settings.TargetHourly)))
		row.Note(name, fault.CodeHoursOfDay, int64(money.Round(worth)),
			fmt.Sprintf("Spreadsheets save a time as a part of a day, and as such this would be %s.", time),
			fmt.Sprintf("If that is meant, type %s; if not, leave it.", time))
		return false
	}
	row.FailColumn(name, fault.CodeHoursOfDay, func(s *Cause) (string, string) {
		return fmt.Sprintf("The spreadsheet wrote a time as a part of a day here, most likely %s.", time) + s.More(),
			fmt.Sprintf("Type %s if that is meant, or format the column as text and type the times again.", time)
	})
	return true
}

// Amount reads an amount of a supply into containers, nil where blank or
// refused. Zero is taken only where zero says so, a negative never.
func (row *Row) Amount(name string, size *big.Rat, unit measure.Unit, zero bool) *big.Rat {
	x, _ := Figure(row, name, func(c sheets.Cell, s ledger.Settings) (*big.Rat, *measure.Refusal) {
		return values.Containers(c, s, size, unit, zero)
	})
	return x
}

// Container reads what a container holds; its unit is needed.
func (row *Row) Container(name string) (measure.Amount, bool) {
	return Figure(row, name, values.Container)
}

// YesNo reads yes or no; given is false where the cell is blank or refused.
func (row *Row) YesNo(name string) (yes, given bool) {
	if _, ok := row.Text(name); !ok {
		return false, false
	}
	yes, given = values.YesNo(row.Cell(name))
	if !given {
		row.Fail(name, fault.CodeYesNoNotRead, "This is neither yes nor no, and the column takes only these.",
			"Type yes or no"+row.orBlank(name)+".")
	}
	return yes, given
}

// Year reads a year of four digits, 0 where blank or refused.
func (row *Row) Year(name string) int {
	y, _ := value(row, name, values.Year)
	return y
}

// Date reads a date, none where blank or refused.
func (row *Row) Date(name string) calendar.Date {
	order := values.NoOrder
	d, ok := value(row, name, func(c sheets.Cell) (d calendar.Date, refusal *measure.Refusal) {
		d, order, refusal = row.day(name, c)
		return d, refusal
	})
	if ok && order != values.OtherOrder {
		row.r.days.seeYear(row.At, d.Year)
		if _, _, noYear := values.Date(row.Cell(name), row.r.settings.DayFirst); noYear != nil {
			row.noteYear(name, d)
		}
	}
	switch {
	case !ok:
	case order == values.OtherOrder:
		row.otherOrder(name)
	case order == values.OneOrder:
		row.r.days.usual = append(row.r.days.usual, row.Place(name))
	case order == values.BothOrders:
		row.r.eitherWay(row, name)
	}
	return d
}

// noteSaid notes an amount that was read out of more than a number.
func (row *Row) noteSaid(name string, said measure.SaidMoney) {
	why := map[measure.SaidKind]string{
		measure.SaidFree:    "A word for nothing is read as %s.",
		measure.SaidProduct: "So many at a price is read as what they come to, here %s.",
		measure.SaidFor:     "So many for a price is read as that price, here %s.",
		measure.SaidWords:   "The words beside an amount are left out; here %s is read.",
	}[said.Kind]
	row.NoteForCause(name, fmt.Sprint(name, said.Kind), fault.CodeSaidInWords, int64(said.Cents.Abs()),
		func(s *Cause) (string, string) {
			return fmt.Sprintf(why, said.Cents.Grouped()) + s.More(), "If it is meant otherwise, type the amount alone."
		})
}

// SaysFree says that a cell of money is a word for nothing.
func (row *Row) SaysFree(name string) bool {
	said, refusal := values.MoneySaid(row.Cell(name), row.r.settings)
	return refusal == nil && said.Kind == measure.SaidFree
}

// noteFraction notes a percentage below 1 typed as a bare number: 0.12 is how a
// calculator has 12 %.
func (row *Row) noteFraction(field string, x *big.Rat) {
	show := func(n *big.Rat) string {
		text := money.AtMost(n, 6)
		if row.r.settings.DecimalComma {
			text = strings.ReplaceAll(text, ".", ",")
		}
		return text
	}
	meant := show(new(big.Rat).Mul(x, big.NewRat(100, 1)))
	row.Note(field, fault.CodePercentBelowOne, 0,
		fmt.Sprintf("This is read as %s %%, which is less than one in a hundred.", show(x)),
		fmt.Sprintf("If %s %% is meant, type %s; otherwise leave it.", meant, meant))
}
