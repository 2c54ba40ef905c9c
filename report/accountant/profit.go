package accountant

import (
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

func profitColumns() []wb.Column {
	return []wb.Column{{Head: "Term", Width: 72}, {Head: "Amount", Kind: wb.KindMoney, Width: 16}}
}

const profitTotal = "Together: net profit"

// fillProfit goes from the profits of the pieces sold to the net profit, each
// difference by its name, as the pages' tie-out does.
func (b *book) fillProfit() {
	s := b.profit
	s.Note("A piece's profit is over its whole life; the statement is of one period. These are the differences, by the postings' 'Sold now': the pieces sold in the period (yes), other pieces (no), no piece (shop).")
	var reached money.Cents
	first := s.NextRow()
	terms := tieOf(b.in.Month, figures.TieProfit).Terms
	for i, t := range terms {
		s.Row(wb.Normal, wb.Text(t.Label), amount(t.Cents).By(b.profitTerm(figures.ProfitTerms[i])))
		reached += t.Cents
	}
	if len(terms) == 0 {
		s.Row(wb.Quiet, wb.Text("None"))
	}
	s.Row(wb.GrandTotal, wb.Text(profitTotal), amount(reached).By("SUM("+s.HereRange("Amount", first, s.LastRow())+")"))
}

// profitTerm is the formula of a term: its parts, each with its sign.
func (b *book) profitTerm(t figures.ProfitTerm) string {
	out := ""
	for _, part := range t.Parts {
		sign := "+"
		if part.Less {
			sign = "-"
		}
		out += sign + b.profitPart(part)
	}
	return withoutPlus(out)
}

// profitPart is one line of the pieces that a term is of.
func (b *book) profitPart(part figures.ProfitPart) string {
	label := words.Label(part.Of, part.ID)
	sold := map[figures.Whose]string{figures.SoldNow: "yes", figures.Others: "no", figures.Shop: "shop"}[part.Whose]
	when := []string{"Sold now", `"` + sold + `"`, "Month", `">="&` + b.firstDay(), "Month", `"<="&` + b.lastDay()}
	named := func(column, line string) string {
		return b.sumIfs(column, append([]string{line, `"` + label + `"`}, when...)...)
	}
	switch {
	case part.Whose == figures.SoldLife:
		return sumIfs(b.pieces, label, "Sold now", `"yes"`)
	case part.Whose == figures.Everyone:
		return b.statement.Cell(b.periods[0].head, find(b.statement, label))
	case part.Of == figures.OfStatement:
		return named("In the statement", "Statement line")
	case part.Of == figures.OfPiece:
		return named("On the piece", "Piece's line")
	}
	return b.byRules(figures.Find(part.Of, part.ID), when...)
}

// soldNow says of a posting's piece whether it was sold in the period.
func (b *book) soldNow(piece string) string {
	if piece == "" {
		return "shop"
	}
	return yesNo(b.nowSold[piece])
}
