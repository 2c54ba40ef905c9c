package headers

import (
	"slices"
	"strings"

	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// noFlow are the columns of money that only describe: what is asked, what a thing
// is worth, what the fee is worked out from.
var noFlow = []string{"asking", "worth", "net", "value", "gross"}

// flows says that a column holds money that changed hands.
func flows(f *templates.Field) bool { return isMoney(f.Cell) && !slices.Contains(noFlow, f.Name) }

// MoneyIn is the money in a cell of a column whose money changed hands, sign
// apart; not ok for other columns, blank cells and cells that are no money.
func (r *Reader) MoneyIn(s *sheets.Sheet, t *templates.Table, c Column, l sheets.Line) (money.Cents, bool) {
	if c.Field == nil || t.Name == "channels" || !flows(c.Field) || l.Text(c.Index) == "" {
		return 0, false
	}
	cents, ok := r.cellMoney(s, c, l)
	return cents.Abs(), ok
}

// UnreadMoney is the money of a sheet that is in no row that may be a record, or
// in columns that are not read, as far as it can be known for money; signs apart.
func (r *Reader) UnreadMoney(b *Block) (cents money.Cents) {
	s := b.sheet
	if b.ignored || len(s.Lines) == 0 || b.words != 0 {
		return money.Cents(b.words)
	}
	rows := b.Records
	if b.Table == nil || len(b.Columns) == 0 {
		rows = s.Lines[min(b.head+1, len(s.Lines)):]
	}
	var known map[int]bool
	if b.Table != nil {
		known = map[int]bool{}
		for _, c := range b.Columns {
			known[c.Index] = !b.unreadMoney[c.Index]
		}
		for _, i := range b.skipped {
			known[i] = true
		}
	}
	width := 0
	for _, l := range s.Lines {
		width = max(width, len(l.Cells))
	}
	header := s.Lines[min(b.head, len(s.Lines)-1)].Cells
	for i := range width {
		name := ""
		if i < len(header) {
			name = header[i]
		}
		likely := i < len(b.likely) && b.likely[i] != nil
		switch {
		case known[i], hasWord(name, derivedWords), likely && !flows(b.likely[i]):
			continue
		case !likely && !b.unreadMoney[i] && !r.looksMoney(s, name, i, rows):
			continue
		}
		for _, l := range rows {
			if x, refusal := values.Money(s.Cell(l, i), r.settings); refusal == nil && l.Text(i) != "" && !saysTotal(l) &&
				!isExample(s, l) {
				cents += x.Abs()
			}
		}
	}
	return cents + r.crossedMoney(s, b) + r.leftOnForm[s]
}

// mistakenMoney is the money in a column that by its name holds something else,
// where all its cells are money.
func (r *Reader) mistakenMoney(s *sheets.Sheet, c Column) money.Cents {
	if flows(c.Field) || !r.allRead(s, c, &templates.Field{Cell: templates.Money}) {
		return 0
	}
	return money.Cents(r.sumOf(s, c.Index))
}

// crossedMoney is the money of what is crossed out.
func (r *Reader) crossedMoney(s *sheets.Sheet, b *Block) (cents money.Cents) {
	for _, l := range b.struck {
		whole := s.IsStruckOut(l)
		for _, c := range b.Columns {
			if x, ok := r.MoneyIn(s, b.Table, c, l); ok && (whole || s.Cell(l, c.Index).IsStruck()) {
				cents += x
			}
		}
	}
	return cents
}

// looksMoney says that the filled cells of a column are money by their looks, most
// of them at least: with a currency's sign, with two decimals or none and some with
// two, or below a name that says so.
func (r *Reader) looksMoney(s *sheets.Sheet, name string, i int, rows []sheets.Line) bool {
	some, not, cents, other, signs := 0, 0, false, false, false
	for _, l := range rows {
		c := s.Cell(l, i)
		if c.Text == "" || saysTotal(l) {
			continue
		}
		if !r.readsAs(templates.Money, c) {
			not++
			continue
		}
		some++
		signs = signs || strings.ContainsAny(c.Text, measure.CurrencySigns)
		mark := "."
		if r.settings.DecimalComma && c.IsText() {
			mark = ","
		}
		_, decimals, point := strings.Cut(c.Text, mark)
		cents = cents || c.IsMoney() || point && len(decimals) == 2
		other = other || point && len(decimals) != 2 && !c.IsMoney()
	}
	return some > not && (cents && !other || signs || saysMoney(name))
}
