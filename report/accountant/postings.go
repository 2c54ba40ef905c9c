package accountant

import (
	"fmt"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// postingColumns are the postings' columns. The three pairs of 'line' and
// 'amount' say where a posting counts: sums are made by them.
// A year's postings say too where they count in the form.
func (b *book) postingColumns(area string) []wb.Column {
	out := heads{}.number(0, "No.").date(0, "Date").month(0, "Month").money(0, "Amount").
		text(0, "From", "To", "Why", "Group").number(0, "Piece no.").text(0, "Piece").number(0, "Supply no.").
		text(0, "Supply", "How known", "Statement line").money(12, "In the statement").text(0, "Piece's line").
		money(12, "On the piece").text(0, "Stock line").money(12, "In the stock").
		text(0, "Stays on it", "Unfinished", "Sold now").number(14, "Coated, "+area)
	if b.form != nil {
		out = append(out, wb.Column{Head: "Form no.", Kind: wb.KindNumber}, wb.Column{Head: "Form line"},
			wb.Column{Head: "On the form", Kind: wb.KindMoney, Width: 12},
			wb.Column{Head: "In the form's stock", Kind: wb.KindMoney, Width: 12})
	}
	return append(out, wb.Column{Head: "Record", Width: 56, Wrap: true},
		wb.Column{Head: "How it was reached", Width: 90, Wrap: true})
}

// fillPostings writes the opening balances and every posting of the tax year up
// to the period's end, in the ledger's order.
func (b *book) fillPostings() {
	s := b.postings
	s.Landscape, s.Filter, s.Long, s.Freeze = true, true, true, 4
	s.Note("Every movement of money of " + words.Months(b.from, b.in.Month.To) + ", each once. Every figure in this " +
		"workbook is a sum of these rows.")
	if b.carried {
		s.Note("Rows without a number are opening balances: what earlier years left in pieces, on the shelf and in sales " +
			"tax owed, by piece, line and supply, and what else was posted on pieces that are here or left in the year.")
	}
	s.Note("The three pairs of a line and an amount say where a row counts, with its sign there: in the statement, " +
		"on its piece, in the stock of pieces.")
	s.Note("Sums go by the number of a piece or a supply, since names can look like numbers or patterns to a spreadsheet.")
	gone := b.gone()
	b.nowSold = map[string]bool{}
	for _, p := range b.in.Month.Pieces {
		b.nowSold[p.Record.ID] = b.in.SoldIn(p)
	}
	b.parts = map[*ledger.Shared][]posting{}
	b.charged = map[[2]string][]*ledger.Posting{}
	for _, o := range b.openings {
		o.Date = o.Month.Last()
		b.posting(&o.Posting, wb.Cell{}, openingWords(o), gone, o.inForm)
	}
	for _, p := range b.year {
		b.point(posting{p.Posting, s.NextRow()})
		inForm := money.Cents(0)
		if b.form != nil {
			inForm, _ = b.form.InStock(p.Posting)
		}
		b.posting(p.Posting, wb.Whole(p.number), words.How(*p.Posting), gone, inForm)
	}
}

// posting writes one row; inForm is what it adds to the form's stock.
func (b *book) posting(p *ledger.Posting, number wb.Cell, how string, gone map[string]bool, inForm money.Cents) {
	s := b.postings
	row := s.NextRow()
	if p.Reason == ledger.ReasonSupply || p.Reason == ledger.ReasonBoughtAgain {
		key := [2]string{p.Supply, p.Piece}
		b.charged[key] = append(b.charged[key], p)
	}
	line, sign := statementLine(p)
	if p.Month < b.from {
		line = ""
	}
	piece, onPiece := pieceLine(p)
	stock, stockSign := stockLine(p)
	coated := wb.Number(p.Coated, 2)
	open := ""
	if p.Reason == ledger.ReasonPartPayment && !gone[p.Piece] {
		open = unfinished
	}
	stays := ""
	if p.To == ledger.Pieces && p.Supply != "" {
		stays = yesNo(b.stays(p.Supply))
	}
	b.cells = append(b.cells[:0], number, dayCell(p.Date), monthCell(p.Month), amount(p.Cents),
		wb.Text(words.Account(p.From)), wb.Text(words.Account(p.To)), wb.Text(words.Reason(p.Reason)), wb.Text(p.Group),
		no(b.pieceNo[p.Piece]), wb.Text(p.Piece), no(b.supplyNo[p.Supply]), wb.Text(p.Supply), wb.Text(words.Basis[p.Basis]),
		wb.Text(line), b.signed(line, row, p.Cents, sign), wb.Text(piece), b.signed(piece, row, p.Cents, onPiece),
		wb.Text(stock), b.signed(stock, row, p.Cents, stockSign), wb.Text(stays), wb.Text(open), wb.Text(b.soldNow(*p)),
		coated)
	if b.form != nil {
		b.cells = append(b.cells, b.onForm(p, row, inForm)...)
	}
	b.cells = append(b.cells, wb.Text(words.Sources(p.Source)), wb.Text(how))
	s.Row(wb.Normal, b.cells...)
}

// onForm is where a row counts in the form, and what it adds to its stock.
func (b *book) onForm(p *ledger.Posting, row int, inForm money.Cents) []wb.Cell {
	cells := make([]wb.Cell, 4)
	if c, counts := b.form.Counted(p); counts {
		cells[0], cells[1] = wb.Whole(b.formNo[[2]int{c.Line, c.Part}]), wb.Text(b.form.Lines[c.Line].Line)
		cells[2] = b.less(row, p.Cents, c.Cents, c.Sign)
	}
	if inForm != 0 {
		_, sign := b.form.InStock(p)
		cells[3] = b.less(row, p.Cents, inForm, sign)
	}
	return cells
}

// less is a row's amount with a sign, without what the treatment of supplies
// leaves out of it.
func (b *book) less(row int, whole, counted money.Cents, sign figures.Sign) wb.Cell {
	formula := b.postings.Here("Amount", row)
	if sign < 0 {
		formula, whole = "-"+formula, -whole
	}
	if out := counted - whole; out != 0 {
		formula += fmt.Sprintf("%+d/100", out)
	}
	return amount(counted).By(formula)
}

// point remembers which rows the lines of a shared total were posted in.
func (b *book) point(p posting) {
	if p.Of == nil {
		return
	}
	if _, known := b.parts[p.Of]; !known {
		b.calls = append(b.calls, p.Of.Calls()...)
	}
	b.parts[p.Of] = append(b.parts[p.Of], p)
	if p.Line < 0 {
		b.corrected = append(b.corrected, p)
	}
}

// signed is the amount of a row as a line counts it; empty without a line.
func (b *book) signed(line string, row int, c money.Cents, sign figures.Sign) wb.Cell {
	from := b.postings.Here("Amount", row)
	switch {
	case line == "":
		return wb.Cell{}
	case sign < 0:
		return amount(-c).By("-" + from)
	}
	return amount(c).By(from)
}

// unfinished marks a part payment on a piece that has not left.
const unfinished = "unfinished"

// gone are the pieces that have left by the period's end.
func (b *book) gone() map[string]bool {
	out := map[string]bool{}
	for _, p := range b.in.All {
		out[p.Record.ID] = p.Status != "in stock" && p.Status != "client"
	}
	return out
}

// stays says that a supply stays on the piece.
func (b *book) stays(name string) bool {
	for _, s := range b.in.Books.Supplies {
		if s.Name == name {
			return s.Stays
		}
	}
	return false
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
