package intake

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// text is a cell's text. A needed cell that is blank is told. ok is false
// where there is nothing to read further.
func (rec *record) text(name string) (text string, ok bool) {
	text = rec.raw(name)
	if text == "" && rec.field(name).Constraints.Required {
		rec.missing(name)
	}
	return text, text != "" && !rec.told[name]
}

// words is a cell's text, blank where it is.
func (rec *record) words(name string) string {
	text, _ := rec.text(name)
	return text
}

// refusal tells a text that was not taken.
func (rec *record) refusal(name string, r *measure.Refusal) {
	if r.Code == fault.CodeDecimalMark && !rec.told[name] {
		rec.told[name] = true
		rec.failForCause(name, "", r.Code, func(s *cause) (string, string) { return rec.r.otherMark(s, r) })
		return
	}
	if c, there := rec.block.columns[name]; r.Code == fault.CodeMoneyDecimals && there && rec.sheet.asks.isFormula(c.index, rec.line.number) {
		rec.failColumn(name, r.Code, func(s *cause) (string, string) {
			return "Money has at most two decimals, and this formula gives more." + s.more(), "Put ROUND around the formula, as in =ROUND(A2*B2,2), and save the workbook."
		})
		return
	}
	rec.fail(name, r.Code, r.Why, rec.fixFor(name, r))
}

// fixFor is what to type for a text that was not taken, said for its column:
// a needed cell cannot be left blank, a free piece has a word of its own.
func (rec *record) fixFor(name string, r *measure.Refusal) string {
	fix, f := r.Fix, rec.field(name)
	if unit := rec.r.everydayUnit(rec.raw(name)); r.Code == fault.CodeUnitUnknown && unit != "" {
		fix = fmt.Sprintf("If %s is meant, type that. The units are %s.", unit, strings.Join(measure.UnitNames(), ", "))
	}
	if f.Constraints.Required {
		fix = strings.Replace(fix, "Leave the cell blank, or type 0", "Type what it was, or 0", 1)
		fix = strings.Replace(fix, ", or leave the cell blank", "", 1)
	}
	if rec.block.table.Name == "pieces" && name == "price" && r.Code == fault.CodeMoneyNotRead && strings.HasPrefix(fix, "Type 0") {
		fix = fmt.Sprintf("If it was free, leave the price blank and type free under %s.", rec.header("how"))
	}
	return fix
}

// rawNumber is a number as a workbook stores it.
var rawNumber = regexp.MustCompile(`^-?\d+(\.\d+)?(E[-+]?\d+)?$`)

// figure is a cell's text for reading a number, with the style it is written
// in. A number cell of a workbook is stored with a point whatever the shop's
// style, and with binary residue (4.4000000000000004), which is taken off by
// rounding to the 15 digits a spreadsheet shows; the way through a binary
// number serves only that.
func (rec *record) figure(name, text string) (string, measure.Style) {
	s := rec.r.settings
	style := measure.Style{DecimalComma: s.DecimalComma, Currency: s.Currency}
	if rec.sheet.asks == nil || !rawNumber.MatchString(text) {
		if pointOnly.MatchString(text) {
			rec.r.points++
		}
		return text, style
	}
	if style.DecimalComma && strings.Contains(text, ".") && rec.sheet.asks.isText(rec.block.columns[name].index, rec.line.number) {
		return text, style
	}
	style.DecimalComma = false
	if strings.Contains(text, ".") && !strings.Contains(text, "E") && !rec.sheet.asks.isText(rec.block.columns[name].index, rec.line.number) {
		text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".") // a number, whose zeros some programs save
	}
	if len(text) <= 15 && !strings.Contains(text, "E") {
		return text, style
	}
	binary, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text, style
	}
	exact, err := decimal.NewFromString(strconv.FormatFloat(binary, 'g', 15, 64))
	if err != nil {
		return text, style
	}
	if exact.Exponent() > 20 || exact.Exponent() < -40 {
		return text, style // too large or small to be written out
	}
	return exact.String(), style
}

// looksDate tells a number cell that a spreadsheet turned into a date: `1/2`
// typed for a half becomes the 2nd of January.
func (rec *record) looksDate(name, text string) bool {
	days, err := strconv.Atoi(text)
	if err != nil || days < 20000 || days > 80000 {
		return false
	}
	if !rec.sheet.asks.isDate(rec.block.columns[name].index, rec.line.number) {
		return false
	}
	rec.numberIsDate(name)
	return true
}

// numberIsDate tells a number that a spreadsheet turned into a date.
func (rec *record) numberIsDate(name string) {
	rec.fail(name, fault.CodeNumberIsDate, "The spreadsheet turned what was typed here into a date.",
		"Format the cell as a number or text and type it again, a half as 0.5.")
}

// moneyOr reads money; ok is false where the cell is blank or refused. A
// negative is refused unless signed.
func (rec *record) moneyOr(name string, signed bool) (c money.Cents, ok bool) {
	text, ok := rec.text(name)
	if !ok || rec.looksDate(name, text) {
		return 0, false
	}
	text, style := rec.figure(name, text)
	c, refusal := measure.Money(text, style)
	if refusal != nil {
		rec.refusal(name, refusal)
		return 0, false
	}
	if c < 0 && !signed {
		rec.fail(name, fault.CodeMoneyNegative, "An amount below 0 makes no sense here.", rec.insteadOfMinus())
		return 0, false
	}
	return c, true
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
	text, ok := rec.text(name)
	if !ok || rec.looksDate(name, text) {
		return nil
	}
	text, style := rec.figure(name, text)
	x, refusal := measure.Number(text, style)
	if refusal != nil {
		rec.refusal(name, refusal)
		return nil
	}
	return rec.within(name, x)
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
	rec.fail(name, fault.CodeNumberOutOfRange, fmt.Sprintf("The number in %s must be %s.", rec.place(name).Column, say), fmt.Sprintf("Type a number that is %s%s.", say, rec.orBlank(name)))
	return nil
}

// numberOrOne reads a number, 1 where blank.
func (rec *record) numberOrOne(name string) *big.Rat {
	if x := rec.number(name); x != nil {
		return x
	}
	return big.NewRat(1, 1)
}

// percent reads a number that may have a percent sign, nil where blank. A
// number that a workbook shows as a percentage is what it shows: 12.5 for
// 12.5 %, which is stored as 0.125.
func (rec *record) percent(name string) *big.Rat {
	text, ok := rec.text(name)
	if !ok || rec.looksDate(name, text) {
		return nil
	}
	shown := rec.sheet.asks.isPercent(rec.block.columns[name].index, rec.line.number)
	text, style := rec.figure(name, text)
	x, refusal := measure.Number(strings.TrimSpace(strings.TrimSuffix(text, "%")), style)
	if refusal != nil {
		rec.refusal(name, refusal)
		return nil
	}
	switch {
	case strings.HasSuffix(text, "%"):
	case shown:
		x.Mul(x, big.NewRat(100, 1))
	case x.Sign() > 0 && x.Cmp(big.NewRat(1, 1)) < 0:
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
		rec.fail(name, fault.CodeNumberNotRead, fmt.Sprintf("The number in %s counts whole things.", rec.place(name).Column), "Type it without a fraction, such as 6.")
		return 0
	}
	return int(x.Num().Int64())
}

// length reads a length in the shop's unit, nil where blank or refused.
func (rec *record) length(name string) *big.Rat {
	text, ok := rec.text(name)
	if !ok || rec.looksDate(name, text) {
		return nil
	}
	text, style := rec.figure(name, text)
	x, refusal := measure.ReadLength(text, style, rec.r.settings.Metric())
	if refusal != nil {
		rec.refusal(name, refusal)
		return nil
	}
	return x
}

// unitted reads a number that may have the shop's own unit behind it, within
// the column's limits; nil where blank or refused.
func (rec *record) unitted(name string, read func(string, measure.Style, bool) (*big.Rat, *measure.Refusal)) *big.Rat {
	text, ok := rec.text(name)
	if !ok || rec.looksDate(name, text) {
		return nil
	}
	text, style := rec.figure(name, text)
	x, refusal := read(text, style, rec.r.settings.Metric())
	if refusal != nil {
		rec.refusal(name, refusal)
		return nil
	}
	return rec.within(name, x)
}

// hours reads hours, nil where blank or refused. A workbook keeps `2:30` as a
// part of a day shown as a time; it is brought back to whole seconds. Whole
// days shown as a date are no time: `1/2` typed for a half became one.
func (rec *record) hours(name string) *big.Rat {
	text, ok := rec.text(name)
	if !ok {
		return nil
	}
	column, row := rec.block.columns[name].index, rec.line.number
	if rec.bareMinutes(name, text) {
		return nil
	}
	isClock := rec.sheet.asks != nil && rawNumber.MatchString(text) && rec.sheet.asks.isDate(column, row)
	if days, err := strconv.ParseFloat(text, 64); isClock && err == nil && (days >= 20000 || rec.sheet.asks.isDay(column, row) && days >= 1) {
		rec.numberIsDate(name)
		return nil
	}
	text, style := rec.figure(name, text)
	x, refusal := measure.ReadHours(text, style)
	if refusal != nil {
		rec.refusal(name, refusal)
		return nil
	}
	if isClock {
		seconds := money.RoundHalfEven(x.Mul(x, big.NewRat(24*60*60, 1)))
		x.SetFrac(seconds, big.NewInt(60*60))
	}
	return x
}

// amount reads an amount of a supply into containers, nil where blank or
// refused. Zero is taken only where zeroes says so, a negative never.
func (rec *record) amount(name string, size *big.Rat, unit measure.Unit, zero bool) *big.Rat {
	text, ok := rec.text(name)
	if !ok || rec.looksDate(name, text) {
		return nil
	}
	text, style := rec.figure(name, text)
	a, refusal := measure.ReadAmount(text, style)
	if refusal == nil {
		var containers *big.Rat
		if containers, refusal = a.InContainers(size, unit); refusal == nil {
			if containers.Sign() > 0 || zero && containers.Sign() == 0 {
				return containers
			}
			refusal = &measure.Refusal{Code: fault.CodeAmountRange, Why: "An amount of 0 or less makes no sense here.", Fix: "Type the amount, such as 8 fl oz."}
			if zero {
				refusal.Why, refusal.Fix = "An amount below 0 makes no sense here.", "Type what there is, 0 for nothing."
			}
		}
	}
	rec.refusal(name, refusal)
	return nil
}

// container reads what a container holds; its unit is needed.
func (rec *record) container(name string) (measure.Amount, bool) {
	text, ok := rec.text(name)
	if !ok || rec.looksDate(name, text) {
		return measure.Amount{}, false
	}
	text, style := rec.figure(name, text)
	a, refusal := measure.ReadAmount(text, style)
	switch {
	case refusal != nil:
	case a.Bare:
		refusal = &measure.Refusal{Code: fault.CodeUnitMissing, Why: "What a container holds needs a unit.", Fix: "Type the number and its unit, such as 1 qt, 12 oz or 50 sheets."}
	case a.Value.Sign() <= 0:
		refusal = &measure.Refusal{Code: fault.CodeAmountRange, Why: "A container of 0 or less makes no sense.", Fix: "Type what one container holds, such as 1 qt."}
	default:
		return a, true
	}
	rec.refusal(name, refusal)
	return measure.Amount{}, false
}

// yesNo reads yes or no; given is false where the cell is blank or refused.
func (rec *record) yesNo(name string) (yes, given bool) {
	text, ok := rec.text(name)
	if !ok {
		return false, false
	}
	switch strings.ToLower(text) {
	case "yes", "y", "true", "1":
		return true, true
	case "no", "n", "false", "0":
		return false, true
	}
	rec.fail(name, fault.CodeYesNoNotRead, "This is neither yes nor no, and the column takes only these.", "Type yes or no"+rec.orBlank(name)+".")
	return false, false
}

// date reads a date, none where blank or refused.
func (rec *record) date(name string) calendar.Date {
	text, ok := rec.text(name)
	if !ok {
		return calendar.Date{}
	}
	d, refusal := readDate(text, rec.r.settings.DayFirst, rec.sheet.asks)
	if !threeParts.MatchString(strings.Join(strings.Fields(text), " ")) {
		if refusal != nil {
			rec.refusal(name, refusal)
		}
		return d
	}
	switch other, swapped := readDate(text, !rec.r.settings.DayFirst, rec.sheet.asks); {
	case refusal != nil && swapped == nil:
		rec.otherOrder(name)
	case refusal != nil:
		rec.refusal(name, refusal)
	case swapped != nil:
		rec.r.days.usual = append(rec.r.days.usual, rec.place(name))
	case other != d:
		rec.r.eitherWay(rec, name, text)
	}
	return d
}
