package headers

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/money"
)

// takeCrossedOut takes what is crossed out off a sheet whose first line is its
// column names, unless settings.toml says that it counts: rows all of which is,
// and single cells of others. They are reported once the columns are known.
func (r *Reader) takeCrossedOut(s *sheets.Sheet) (out []sheets.Line) {
	if !s.InBook || r.settings.ReadStruck || len(s.Lines) == 0 {
		return nil
	}
	var kept []sheets.Line
	for i, l := range s.Lines[1:] {
		var struck []int
		for j, text := range l.Cells {
			if strings.TrimSpace(text) != "" && s.Cell(l, j).IsStruck() {
				struck = append(struck, j)
			}
		}
		if len(struck) > 0 && kept == nil {
			kept = append(slices.Clone(s.Lines[:1]), s.Lines[1:1+i]...)
		}
		switch {
		case len(struck) > 0 && s.IsStruckOut(l):
			out = append(out, l)
			continue
		case len(struck) > 0:
			out = append(out, l)
			l = l.Without(struck)
		}
		if kept != nil {
			kept = append(kept, l)
		}
	}
	if kept != nil {
		s.Lines = kept
	}
	return out
}

// noteCrossedOut tells the rows and cells that were left out, each with the
// money in it.
func (r *Reader) noteCrossedOut(b *Block, out []sheets.Line) {
	const line = `crossed_out = "read"`
	fix := "What is crossed out may stay."
	if len(out) > 0 && r.lines.Tell("", line, b.sheet.Place()) {
		fix += fmt.Sprintf(" If it counts too, %s.", settings.Put("", line))
	}
	for _, l := range out {
		place := b.sheet.Place()
		place.Row = l.Number
		if b.sheet.IsStruckOut(l) {
			b.Tally.Rows++
			b.Tally.NotRecord++
			b.crossed = append(b.crossed, l)
			cents := r.moneyIn(b, l)
			r.problems.Add(fault.Problem{Code: fault.CodeCrossedOut, Note: true, Place: place, MoneyCents: cents,
				Found: sheets.Shortened(l.Shown()), Fix: fix,
				Why: fmt.Sprintf("This row is crossed out, so it is left out, with the %s in it.", money.Cents(cents).Grouped())})
			continue
		}
		for _, c := range b.inOrder() {
			cell := b.sheet.Cell(l, c.Index)
			if cell.Text == "" || !cell.IsStruck() {
				continue
			}
			cents := int64(0)
			if x, ok := r.cellMoney(b.sheet, c, l); ok {
				cents = int64(x.Abs())
			}
			r.problems.Add(fault.Problem{Code: fault.CodeCrossedOut, Note: true, Place: place.At(c.Header), MoneyCents: cents,
				Found: sheets.Shortened(cell.Text), Why: "This cell is crossed out, so it is read as blank.", Fix: fix})
		}
	}
}

// moneyIn is the money of a row that changed hands, signs apart, in cents.
func (r *Reader) moneyIn(b *Block, l sheets.Line) (cents int64) {
	for _, c := range b.Columns {
		if x, ok := r.MoneyIn(b.sheet, b.Table, c, l); ok {
			cents += int64(x)
		}
	}
	return cents
}

// crossedMoney is the money of what is crossed out.
func (r *Reader) crossedMoney(b *Block) (cents money.Cents) {
	for _, l := range b.struck {
		whole := b.sheet.IsStruckOut(l)
		for _, c := range b.Columns {
			if x, ok := r.MoneyIn(b.sheet, b.Table, c, l); ok && (whole || b.sheet.Cell(l, c.Index).IsStruck()) {
				cents += x
			}
		}
	}
	return cents
}
