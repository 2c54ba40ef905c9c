package intake

import (
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger/measure"
	"piecebook/templates"
)

// sample is a filled cell of a column, looked at to tell what the column holds.
type sample struct {
	text string
	row  int
}

// samplesMost is how many cells of a column are looked at.
const samplesMost = 200

// samples are filled cells of a column, rows of examples and totals left out.
func samples(s *sheet, index int) []sample {
	var out []sample
	for _, l := range s.lines[1:] {
		if index >= len(l.cells) || len(out) == samplesMost || isExample(s, l) || saysTotal(l) {
			continue
		}
		if text := strings.TrimSpace(l.cells[index]); text != "" {
			out = append(out, sample{text, l.number})
		}
	}
	return out
}

// readsAs says that a cell reads as a kind of cell, in any style of date and
// number. A word is what reads as neither a day nor a number.
func (r *Reader) readsAs(s *sheet, index int, kind templates.Cell, x sample) bool {
	day := func() bool {
		_, refusal := readDate(x.text, r.settings.DayFirst, s.asks)
		_, swapped := readDate(x.text, !r.settings.DayFirst, s.asks)
		return refusal == nil || swapped == nil
	}
	number := func() bool {
		if s.asks.isDate(index, x.row) {
			return false
		}
		_, point := measure.Money(x.text, measure.Style{Currency: r.settings.Currency})
		_, comma := measure.Money(x.text, measure.Style{DecimalComma: true, Currency: r.settings.Currency})
		return point == nil || comma == nil
	}
	switch kind {
	case templates.Date:
		return day()
	case templates.Money, templates.SignedMoney, templates.Number, templates.SignedNumber, templates.Whole, templates.Coverage:
		return number()
	case templates.HoursOfAll, templates.HoursOfDay:
		_, refusal := measure.ReadHours(x.text, measure.Style{})
		return number() || refusal == nil
	case templates.Name, templates.PieceRef, templates.PieceList:
		return !day() || number()
	case templates.Text, templates.ChannelRef, templates.SupplyRef:
		return !day() && !number() && !slices.Contains([]string{"yes", "no", "y", "n", "x", "sold", "true", "false", "✓", "✔"}, fold(x.text))
	}
	return false
}

// dateLike is what was meant as a day, though it may be none: 31/31/2026.
var dateLike = regexp.MustCompile(`(?i)\d[/.\-]\d+[/.\-]\d|\d/\d|^(19|20)\d\d$|\b(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)`)

// isMoney says that a kind of cell holds money.
func isMoney(kind templates.Cell) bool {
	return kind == templates.Money || kind == templates.SignedMoney
}

// sumOf is the money in a column's cells, signs apart, as far as it can be
// read, in cents: an estimate of what the column could move, for no figure.
func (r *Reader) sumOf(s *sheet, index int) (cents int64) {
	for _, l := range s.lines[1:] {
		if index >= len(l.cells) || isExample(s, l) || saysTotal(l) {
			continue
		}
		style := measure.Style{DecimalComma: r.settings.DecimalComma && s.asks == nil, Currency: r.settings.Currency}
		if c, refusal := measure.Money(l.cells[index], style); refusal == nil {
			cents += int64(c.Abs())
		}
	}
	return cents
}

// moneyOf is the money in all of a sheet's columns that a table holds money in,
// by the headers in line head.
func (r *Reader) moneyOf(s *sheet, t *templates.Table, head int) (cents int64) {
	found, _ := r.headerFields(t, s.lines[head].cells)
	for i, f := range found {
		if f != nil && isMoney(f.Cell) {
			cents += r.sumOf(s, i)
		}
	}
	return cents
}
