package accountant

import (
	"fmt"

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
	formulas := b.profitTerms()
	var reached money.Cents
	first := s.NextRow()
	terms := tieOf(b.in.Month, figures.TieProfit).Terms
	for i, t := range terms {
		if i >= len(formulas) {
			panic("the reconciliation of profit has a term that the workbook has no formula for: " + t.Label)
		}
		s.Row(wb.Normal, wb.Text(t.Label), amount(t.Cents).By(formulas[i]))
		reached += t.Cents
	}
	if len(terms) == 0 {
		s.Row(wb.Quiet, wb.Text("None"))
	}
	s.Row(wb.GrandTotal, wb.Text(profitTotal), amount(reached).By("SUM("+s.HereRange("Amount", first, s.LastRow())+")"))
}

// profitTerms are the formulas of the terms, in the reconciliation's order.
func (b *book) profitTerms() []string {
	when := []string{"Month", `">="&` + b.firstDay(), "Month", `"<="&` + b.lastDay()}
	by := func(column string, conditions ...string) string {
		return b.sumIfs(column, append(conditions, when...)...)
	}
	counted := func(name, sold string) string {
		return by("In the statement", "Sold now", `"`+sold+`"`, "Statement line", `"`+name+`"`)
	}
	onPiece := func(l words.Line, sold string) string {
		return by("On the piece", "Sold now", `"`+sold+`"`, "Piece's line", `"`+l.Name()+`"`)
	}
	why := func(why, side, account string) string {
		return by("Amount", "Sold now", `"no"`, "Why", `"`+why+`"`, side, `"`+account+`"`)
	}
	life := func(head string) string { return sumIfs(b.pieces, head, "Sold now", `"yes"`) }
	at := func(label string) string { return b.statement.Cell(b.periods[0].head, find(b.statement, label)) }
	return []string{
		life("Profit"),
		fmt.Sprintf("%s-%s-%s", counted(lineGross, "yes"), counted(lineRefunds, "yes"), life("Receipts")),
		at(lineUnfinished),
		"-" + counted(lineRefunds, "no"),
		counted(lineGross, "no") + "-" + at(lineUnfinished),
		life("Book cost") + "-" + counted(lineCost, "yes"),
		why("returned", "From", "cost of sales"),
		"-" + why("late cost", "To", "cost of sales"),
		"-" + why("sold", "To", "cost of sales"),
		life("Selling costs") + "-" + onPiece(words.SellingLine, "yes"),
		"-" + onPiece(words.SellingLine, "no"),
		life("Trips") + "-" + onPiece(words.TripsLine, "yes"),
		"-" + onPiece(words.TripsLine, "no"),
		"-" + by("Amount", "Sold now", `"shop"`, "To", `"expenses"`),
		"-" + by("Amount", "Sold now", `"shop"`, "To", `"trips"`),
		"-" + at(lineEquipment), "-" + at(lineShelf), "-" + at(lineLost), at(lineOther),
	}
}

// soldNow says of a posting's piece whether it was sold in the period.
func (b *book) soldNow(piece string) string {
	if piece == "" {
		return "shop"
	}
	return yesNo(b.nowSold[piece])
}
