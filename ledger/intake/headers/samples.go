package headers

import (
	"slices"

	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/templates"
)

// sample is a filled cell of a column, looked at to tell what the column holds.
type sample struct {
	cell sheets.Cell
	row  int
}

// samplesMost is how many cells of a column are looked at.
const samplesMost = 200

// samples are filled cells of a column, rows of examples and totals left out.
func samples(s *sheets.Sheet, index int) []sample {
	var out []sample
	for _, l := range s.Lines[1:] {
		if len(out) == samplesMost || isExample(s, l) || saysTotal(l) {
			continue
		}
		if cell := s.Cell(l, index); cell.Text != "" {
			out = append(out, sample{cell, l.Number})
		}
	}
	return out
}

// readsAs says that a cell reads as a kind of cell, in any style of date and
// number. A word is what reads as neither a day nor a number.
func (r *Reader) readsAs(kind templates.Cell, c sheets.Cell) bool {
	style := measure.Style{Currency: r.settings.Currency}
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
		return values.IsDate(c)
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
		return !values.IsDate(c) && !number() && !slices.Contains([]string{"yes", "no", "y", "n", "x", "sold", "true",
			"false", "✓", "✔"}, values.Fold(c.Text))
	}
	return false
}

// isMoney says that a kind of cell holds money.
func isMoney(kind templates.Cell) bool {
	return kind == templates.Money || kind == templates.SignedMoney
}

// sumOf is the money in a column's cells, signs apart, as far as it can be
// read, in cents: an estimate of what the column could move, for no figure.
func (r *Reader) sumOf(s *sheets.Sheet, index int) (cents int64) {
	for _, l := range s.Lines[1:] {
		if index >= len(l.Cells) || isExample(s, l) || saysTotal(l) {
			continue
		}
		style := values.PlainStyle(r.settings, s.InBook)
		if c, refusal := measure.Money(l.Cells[index], style); refusal == nil {
			cents += int64(c.Abs())
		}
	}
	return cents
}

// moneyOf is the money in all of a sheet's columns that a table holds money in,
// by the headers in line head.
func (r *Reader) moneyOf(s *sheets.Sheet, t *templates.Table, head int) (cents int64) {
	found, _ := r.headerFields(t, s.Lines[head].Cells)
	for i, f := range found {
		if f != nil && isMoney(f.Cell) {
			cents += r.sumOf(s, i)
		}
	}
	return cents
}
