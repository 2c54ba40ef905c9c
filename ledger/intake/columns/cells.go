package columns

import (
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Sample is a filled cell of a column, looked at to tell what the column holds.
type Sample struct {
	Cell sheets.Cell
	Row  int
}

// samplesMost is how many cells of a column are looked at.
const samplesMost = 200

// Samples are filled cells of a column, rows of examples and totals left out.
func Samples(s *sheets.Sheet, index int) []Sample {
	var out []Sample
	for l := range Rows(s) {
		if len(out) == samplesMost {
			break
		}
		if cell := s.Cell(l, index); cell.Text != "" {
			out = append(out, Sample{cell, l.Number})
		}
	}
	return out
}

// ReadsAs says that a cell reads as a kind of cell, in any style of date and
// number. A word is what reads as neither a day nor a number.
func ReadsAs(kind templates.Cell, c sheets.Cell, shop ledger.Settings) bool {
	style := measure.Style{Currency: shop.Currency}
	comma := style
	comma.DecimalComma = true
	number := func() bool {
		if c.IsTick() {
			return false
		}
		_, noPoint := measure.Money(c.Text, style)
		_, noComma := measure.Money(c.Text, comma)
		return !c.IsDate() && (noPoint == nil || noComma == nil)
	}
	switch kind {
	case templates.Date:
		return values.IsDay(c)
	case templates.Money, templates.SignedMoney:
		_, said := measure.MoneyAsSaid(c.Text, style)
		return number() || said && !c.IsDate()
	case templates.Number, templates.SignedNumber, templates.Whole,
		templates.Coverage:
		return number()
	case templates.HoursOfAll, templates.HoursOfDay:
		_, refusal := measure.ReadHours(c.Text, measure.Style{})
		return number() || refusal == nil
	case templates.Name, templates.PieceRef, templates.PieceList:
		return !values.IsDate(c) || number()
	case templates.Text, templates.ChannelRef, templates.SupplyRef:
		return !values.IsDay(c) && !number() && !slices.Contains([]string{"yes", "no", "y", "n", "x", "sold", "true",
			"false", "✓", "✔"}, values.Fold(c.Text))
	}
	return false
}

// IsMoney says that a kind of cell holds money.
func IsMoney(kind templates.Cell) bool {
	return kind == templates.Money || kind == templates.SignedMoney
}

// SumOf is the money in a column's cells, signs apart, as far as it can be
// read, in cents: an estimate of what the column could move, for no figure.
func SumOf(s *sheets.Sheet, index int, shop ledger.Settings) (cents int64) {
	for l := range Rows(s) {
		if l.Text(index) == "" {
			continue
		}
		if c, refusal := values.Money(s.Cell(l, index), shop); refusal == nil {
			cents += int64(c.Abs())
		}
	}
	return cents
}

// LooksMoney says that the filled cells of a column are money by their looks, most
// of them at least: with a currency's sign, with two decimals or none and some with
// two, or below a name that says so.
func LooksMoney(s *sheets.Sheet, name string, i int, rows []sheets.Line, shop ledger.Settings) bool {
	some, not, cents, other, signs := 0, 0, false, false, false
	for _, l := range rows {
		c := s.Cell(l, i)
		if c.Text == "" || SaysTotal(l) {
			continue
		}
		if !ReadsAs(templates.Money, c, shop) {
			not++
			continue
		}
		some++
		signs = signs || strings.ContainsAny(c.Text, measure.CurrencySigns)
		mark := "."
		if shop.DecimalComma && c.IsText() {
			mark = ","
		}
		_, decimals, point := strings.Cut(c.Text, mark)
		cents = cents || c.IsMoney() || point && len(decimals) == 2
		other = other || point && len(decimals) != 2 && !c.IsMoney()
	}
	return some > not && (cents && !other || signs || SaysMoney(name))
}

// noFlow are the columns of money that only describe: what is asked, what a thing
// is worth, what the fee is worked out from.
var noFlow = []string{"asking", "worth", "net", "value", "gross"}

// Flows says that a column holds money that changed hands.
func Flows(f *templates.Field) bool { return IsMoney(f.Cell) && !slices.Contains(noFlow, f.Name) }

// Holds is what is known of a column's money.
type Holds int

const (
	Unknown    Holds = iota // its looks decide
	HoldsMoney              // money that is in no figure
	HoldsOther              // none, or money that is read
)

// UnreadMoney is the money in rows that stands in columns that are not read, signs
// apart. Columns that are worked out from others, by their names, are none.
func UnreadMoney(s *sheets.Sheet, header []string, rows []sheets.Line, known func(column int) Holds,
	shop ledger.Settings) (cents money.Cents) {
	width := 0
	for _, l := range s.Lines {
		width = max(width, len(l.Cells))
	}
	for i := range width {
		name, holds := "", known(i)
		if i < len(header) {
			name = header[i]
		}
		if holds == HoldsOther || HasWord(name, DerivedWords) || strings.Contains(name, "%") ||
			holds == Unknown && !LooksMoney(s, name, i, rows, shop) {
			continue
		}
		for _, l := range rows {
			if l.Text(i) == "" || SaysTotal(l) || IsExample(s, l) {
				continue
			}
			if x, refusal := values.Money(s.Cell(l, i), shop); refusal == nil {
				cents += x.Abs()
			}
		}
	}
	return cents
}

// countingWords are those of headers of numbers that are no money.
var countingWords = []string{"no", "nr", "number", "id", "qty", "quantity", "count", "pcs", "hours", "hrs", "hour", "h",
	"min", "mins", "minutes", "miles", "km", "mi", "odometer", "year", "age", "size", "width", "height", "depth", "area",
	"sqft", "weight", "coats", "days", "score", "rating", "percent", "zip", "phone", "mobile", "order"}

// numbersLeast is the amount that one number at least has to be for numbers to be money by
// themselves: what is below most likely counts things or hours.
const numbersLeast money.Cents = 1000

// NumbersIn is what the numbers of a sheet come to that nothing says to be money, where
// it has days as well: what is in no figure if they are. Numbers under a name for
// something else, or beside one, are left out.
func NumbersIn(s *sheets.Sheet, shop ledger.Settings) (cents money.Cents) {
	dated, most := false, money.Cents(0)
	for at, l := range s.Lines {
		for i := range l.Cells {
			c := s.Cell(l, i)
			x, refusal := values.Money(c, shop)
			switch name := s.Lines[0].Text(i) + " " + l.Text(0); {
			case values.IsDate(c):
				dated = true
			case at > 0 && c.Text != "" && refusal == nil && !SaysTotal(l) && !HasWord(name, countingWords):
				cents, most = cents+x.Abs(), max(most, x.Abs())
			}
		}
	}
	if !dated || most < numbersLeast {
		return 0
	}
	return cents
}
