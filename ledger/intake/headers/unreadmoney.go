package headers

import (
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// MoneyIn is the money in a cell of a column whose money changed hands, sign
// apart; not ok for other columns, blank cells and cells that are no money.
func (r *Reader) MoneyIn(s *sheets.Sheet, t *templates.Table, c Column, l sheets.Line) (money.Cents, bool) {
	if c.Field == nil || t.Name == "channels" || !columns.Flows(c.Field) || l.Text(c.Index) == "" {
		return 0, false
	}
	cents, ok := r.cellMoney(s, c, l)
	return cents.Abs(), ok
}

// UnreadMoney is the money of a sheet that is in no row that may be a record, or
// in columns that are not read, as far as it can be known for money; signs apart.
func (r *Reader) UnreadMoney(b *Block) money.Cents {
	s := b.sheet
	if b.Table == nil || len(s.Lines) == 0 {
		return b.unread
	}
	rows := b.Records
	if len(b.Columns) == 0 {
		rows = s.Lines[1:]
	}
	read := map[int]bool{}
	for _, c := range b.Columns {
		read[c.Index] = true
	}
	return b.unread + r.crossedMoney(b) + columns.UnreadMoney(s, s.Lines[0].Cells, rows, func(i int) columns.Holds {
		switch {
		case b.unreadMoney[i]:
			return columns.HoldsMoney
		case read[i]:
			return columns.HoldsOther
		}
		return columns.Unknown
	}, r.settings)
}

// mistakenMoney is the money in a column that by its name holds something else,
// where most of its cells are money.
func (r *Reader) mistakenMoney(s *sheets.Sheet, c Column) money.Cents {
	if columns.Flows(c.Field) || !r.mostRead(s, c, &templates.Field{Cell: templates.Money}) {
		return 0
	}
	return money.Cents(columns.SumOf(s, c.Index, r.settings))
}

// cellMoney is the money in a cell of a column that holds money.
func (r *Reader) cellMoney(s *sheets.Sheet, c Column, l sheets.Line) (money.Cents, bool) {
	if c.Field == nil || !columns.IsMoney(c.Field.Cell) {
		return 0, false
	}
	x, refusal := values.Money(s.Cell(l, c.Index), r.settings)
	return x, refusal == nil
}
