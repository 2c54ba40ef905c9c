package month

import (
	"slices"
	"unicode/utf8"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
)

// matrix is what each supply put into each piece in the period.
type matrix struct {
	pieces   []string
	supplies []string
	cents    map[[2]string]money.Cents // by piece and supply; "" is all of them
}

// spreadMatrix sums the period's supply shares by piece and supply.
func spreadMatrix(in *report.Input) matrix {
	m := matrix{cents: map[[2]string]money.Cents{}}
	for p := range in.InMonth() {
		if p.To == ledger.Pieces && p.Supply != "" {
			for _, key := range [][2]string{{p.Piece, p.Supply}, {p.Piece, ""}, {"", p.Supply}, {"", ""}} {
				m.cents[key] += p.Cents
			}
			m.pieces = append(m.pieces, p.Piece)
			m.supplies = append(m.supplies, p.Supply)
		}
	}
	slices.Sort(m.pieces)
	slices.Sort(m.supplies)
	m.pieces, m.supplies = slices.Compact(m.pieces), slices.Compact(m.supplies)
	return m
}

// What one page holds of supplies by piece: so many rows, and so wide a head
// of pieces, each at least as wide as an amount; in letters.
const (
	spreadRows    = 48
	spreadLetters = 66
	spreadAmount  = 7
)

// fits says that a page holds the table.
func (m matrix) fits() bool {
	letters := 0
	for _, p := range m.pieces {
		letters += max(spreadAmount, utf8.RuneCountInString(p)+1)
	}
	return len(m.supplies) > 0 && len(m.supplies) <= spreadRows && letters <= spreadLetters
}

// spread is supplies down and pieces across with the totals of both, where one
// page holds it; the workbook has it always.
func spread(in *report.Input) []page.Block {
	m := spreadMatrix(in)
	if !m.fits() {
		return nil
	}
	t := page.Table{Whole: true, Columns: page.Heads{}.Wide(1, "Supply").Money(m.pieces...).Money("All pieces")}
	for _, s := range m.supplies {
		row := t.Add(page.Text(s))
		for _, p := range m.pieces {
			row.Cells = append(row.Cells, cells.Money(m.cents[[2]string{p, s}]).Opens(report.Sum{Of: figures.OfPiece,
				ID: figures.LineSupplies, Subject: p, Supply: s, From: in.Month.From, To: in.Month.To}))
		}
		row.Cells = append(row.Cells, cells.Money(m.cents[[2]string{"", s}]).Opens(in.LineOfSupply(s, figures.LineUsed)))
	}
	total := t.AddStyled(page.GrandTotal, page.Text("All supplies"))
	for _, p := range append(m.pieces, "") {
		total.Cells = append(total.Cells, cells.Money(m.cents[[2]string{p, ""}]))
	}
	t.NoteFigures = page.Say("All supplies, %s, is what the shelf's page has as used. Each share's arithmetic is on "+
		"its piece's sheet and in the workbook.", in.Said(m.cents[[2]string{}], ofStock(in.Month, figures.LineSupplies)))
	t.Note = t.NoteFigures.String()
	return []page.Block{t}
}
