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
	cents    map[[2]string]money.Cents // by piece and supply
}

// spreadMatrix sums the period's supply shares by piece and supply.
func spreadMatrix(in *report.Input) matrix {
	m := matrix{cents: map[[2]string]money.Cents{}}
	for p := range in.InMonth() {
		if p.To == ledger.Pieces && p.Supply != "" {
			m.cents[[2]string{p.Piece, p.Supply}] += p.Cents
			m.pieces = append(m.pieces, p.Piece)
			m.supplies = append(m.supplies, p.Supply)
		}
	}
	slices.Sort(m.pieces)
	slices.Sort(m.supplies)
	m.pieces, m.supplies = slices.Compact(m.pieces), slices.Compact(m.supplies)
	return m
}

// row sums a piece's shares of the given supplies.
func (m matrix) row(piece string, supplies []string) money.Cents {
	var sum money.Cents
	for _, s := range supplies {
		sum += m.cents[[2]string{piece, s}]
	}
	return sum
}

// column sums a supply's shares.
func (m matrix) column(supply string) money.Cents {
	var sum money.Cents
	for _, p := range m.pieces {
		sum += m.cents[[2]string{p, supply}]
	}
	return sum
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
	t := page.Table{Whole: true, Columns: append([]page.Column{{Head: "Supply", Weight: 1}}, page.Cols(page.KindMoney,
		m.pieces...)...)}
	t.Columns = append(t.Columns, page.Column{Head: "All pieces", Kind: page.KindMoney})
	for _, s := range m.supplies {
		row := page.Line(page.Text(s))
		for _, p := range m.pieces {
			row.Cells = append(row.Cells, cells.Money(m.cents[[2]string{p, s}]).Opens(report.Sum{Of: figures.OfPiece,
				ID: figures.LineSupplies, Subject: p, Supply: s, From: in.Month.From, To: in.Month.To}))
		}
		row.Cells = append(row.Cells, cells.Money(m.column(s)).Opens(in.LineOfSupply(s, figures.LineUsed)))
		t.Rows = append(t.Rows, row)
	}
	total := page.Styled(page.GrandTotal, page.Text("All supplies"))
	var all money.Cents
	for _, p := range m.pieces {
		total.Cells = append(total.Cells, cells.Money(m.row(p, m.supplies)))
		all += m.row(p, m.supplies)
	}
	total.Cells = append(total.Cells, cells.Money(all))
	t.Rows = append(t.Rows, total)
	t.NoteFigures = page.Say("All supplies, %s, is what the shelf's page has as used. Each share's arithmetic is on its "+
		"piece's sheet and in the workbook.", in.Said(all, ofStock(in.Month, figures.LineSupplies)))
	t.Note = t.NoteFigures.String()
	return []page.Block{t}
}
