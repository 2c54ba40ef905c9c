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
		if index >= len(l.cells) || len(out) == samplesMost || isExample(l) || saysTotal(l) {
			continue
		}
		if text := strings.TrimSpace(l.cells[index]); text != "" {
			out = append(out, sample{text, l.number})
		}
	}
	return out
}

// couldBe says that all filled cells of a column read as what a field holds,
// and that there are some.
func (r *reading) couldBe(s *sheet, c column, f *templates.Field) bool {
	cells := samples(s, c.index)
	return len(cells) > 0 && !slices.ContainsFunc(cells, func(x sample) bool { return !r.readsAs(s, c.index, f.Cell, x) })
}

// readsAs says that a cell reads as a kind of cell, in any style of date and
// number. A word is what reads as neither a day nor a number.
func (r *reading) readsAs(s *sheet, index int, kind templates.Cell, x sample) bool {
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
	case templates.Text, templates.ChannelRef, templates.Choice, templates.SupplyRef:
		return !day() && !number() && !slices.Contains([]string{"yes", "no", "y", "n", "x", "sold", "true", "false", "✓", "✔"}, fold(x.text))
	}
	return false
}

// dateLike is what was meant as a day, though it may be none: 31/31/2026.
var dateLike = regexp.MustCompile(`(?i)\d[/.\-]\d+[/.\-]\d|\d/\d|^(19|20)\d\d$|\b(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)`)
