package accountant

import (
	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// postingColumns are the postings' columns. The three pairs of 'line' and
// 'amount' say where a posting counts: sums are made by them.
func postingColumns(area string) []wb.Column {
	return []wb.Column{{Head: "No.", Kind: wb.KindNumber}, {Head: "Date", Kind: wb.KindDate},
		{Head: "Month", Kind: wb.KindMonth},
		{Head: "Amount", Kind: wb.KindMoney}, {Head: "From"}, {Head: "To"}, {Head: "Why"}, {Head: "Group"},
		{Head: "Piece no.", Kind: wb.KindNumber}, {Head: "Piece"}, {Head: "Supply no.", Kind: wb.KindNumber}, {Head: "Supply"}, {Head: "How known"},
		{Head: "Statement line"}, {Head: "In the statement", Kind: wb.KindMoney, Width: 12}, {Head: "Piece's line"}, {Head: "On the piece", Kind: wb.KindMoney, Width: 12},
		{Head: "Stock line"}, {Head: "In the stock", Kind: wb.KindMoney, Width: 12}, {Head: "Stays on it"}, {Head: "Unfinished"}, {Head: "Sold now"},
		{Head: "Coated, " + area, Kind: wb.KindNumber, Width: 14}, {Head: "Record", Width: 56, Wrap: true},
		{Head: "How it was reached", Width: 90, Wrap: true}}
}

// fillPostings writes the opening balances and every posting of the tax year up
// to the period's end, in the ledger's order.
func (b *book) fillPostings() {
	s := b.postings
	s.Landscape, s.Filter, s.Freeze = true, true, 4
	s.Note("Every movement of money of " + words.Months(b.from, b.in.Month.To) + ", each once. Every figure in this " +
		"workbook is a sum of these rows.")
	if b.carried {
		s.Note("Rows without a number are opening balances: what earlier years left in pieces, on the shelf " +
			"and in sales tax " +
			"owed, by piece, line and supply, and what else was posted on pieces that are here or left in the year.")
	}
	s.Note("The three pairs of a line and an amount say where a row counts, with its sign there: in the " +
		"statement, on its " +
		"piece, in the stock of pieces.")
	s.Note("Sums go by the number of a piece or a supply, since names can look like numbers or patterns to a spreadsheet.")
	gone := b.gone()
	b.nowSold = map[string]bool{}
	for _, p := range b.in.Month.Pieces {
		b.nowSold[p.Record.ID] = b.in.SoldIn(p)
	}
	b.parts = map[*ledger.Shared][]posting{}
	b.charged = map[[2]string][]ledger.Posting{}
	for _, o := range b.openings {
		o.Date = o.Month.Last()
		b.posting(o.Posting, wb.Cell{}, openingWords(o), gone)
	}
	for _, p := range b.year {
		b.point(posting{p.Posting, s.NextRow()})
		b.posting(p.Posting, wb.Whole(p.number), words.How(p.Posting), gone)
	}
}

// posting writes one row.
func (b *book) posting(p ledger.Posting, number wb.Cell, how string, gone map[string]bool) {
	s := b.postings
	row := s.NextRow()
	if p.Reason == ledger.ReasonSupply || p.Reason == ledger.ReasonBoughtAgain {
		key := [2]string{p.Supply, p.Piece}
		b.charged[key] = append(b.charged[key], p)
	}
	line, sign := statementLine(&p)
	if p.Month < b.from {
		line = ""
	}
	piece, onPiece := pieceLine(&p)
	stock, stockSign := stockLine(&p)
	coated := wb.Number(p.Coated, 2)
	open := ""
	if p.Reason == ledger.ReasonPartPayment && !gone[p.Piece] {
		open = unfinished
	}
	stays := ""
	if p.To == ledger.Pieces && p.Supply != "" {
		stays = yesNo(b.stays(p.Supply))
	}
	s.Row(wb.Normal, number, dayCell(p.Date), monthCell(p.Month), amount(p.Cents), wb.Text(words.Account(p.From)),
		wb.Text(words.Account(p.To)), wb.Text(words.Reason(p.Reason)), wb.Text(p.Group),
		no(b.pieceNo[p.Piece]), wb.Text(p.Piece), no(b.supplyNo[p.Supply]), wb.Text(p.Supply), wb.Text(words.Basis[p.Basis]),
		wb.Text(line), b.signed(line, row, p.Cents, sign), wb.Text(piece), b.signed(piece, row, p.Cents, onPiece),
		wb.Text(stock), b.signed(stock, row, p.Cents, stockSign), wb.Text(stays), wb.Text(open), wb.Text(b.soldNow(p)),
		coated, wb.Text(words.Sources(p.Source)), wb.Text(how))
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
