package month

import (
	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// holding says what the month's receipts and costs hold, so that the receipts of
// the pieces sold, below them, are seen to be a part of the first.
func holding(in *report.Input) page.Block {
	st := in.Month.Statement
	text := "Receipts: "
	if st.OtherIncome != 0 {
		text = "Receipts and other income: "
	}
	for i, t := range receiptTerms(in) {
		sign := " + "
		switch {
		case t.Cents < 0:
			sign = " − "
		case i == 0:
			sign = ""
		}
		text += sign + t.Label + " " + t.Cents.Abs().Grouped()
	}
	text += ". Costs: "
	if c := st.Amount(figures.LineCostOfSales); c != 0 {
		text += "the pieces sold (price, parts, supplies) " + c.Grouped() + " + "
	}
	return page.Paragraph{Style: page.Note, Text: text + "the month's own (selling, trips, rent and the like) " +
		st.Amount(figures.LineAllCosts).Grouped() + "."}
}

// corrections are what the records of closed months give otherwise now.
const corrections = "corrections to closed months"

// receiptTerms lead from the receipts of the pieces sold, over their whole
// lives, to the month's receipts and other income. What is nothing is left out.
func receiptTerms(in *report.Input) []report.Term {
	var own, clients money.Cents
	for _, p := range in.Month.Pieces {
		switch {
		case !in.SoldIn(p):
		case p.Record.How == ledger.Client:
			clients += p.Receipts
		default:
			own += p.Receipts
		}
	}
	all := []report.Term{{Label: "pieces sold", Cents: own}, {Label: "clients' pieces handed over", Cents: clients}}
	rest := in.Month.Statement.NetReceipts - own - clients
	for _, tie := range in.Month.TieOut {
		for _, t := range tie.Terms {
			switch t.ID {
			case figures.TermReceiptsOther, figures.LineUnfinished, figures.TermRefundsOthers, figures.TermReceiptsOthers:
				if tie.Name == figures.TieProfit {
					all = append(all, report.Term{Label: words.Uncapital(words.Term(tie.Name, t)), Cents: t.Cents})
					rest -= t.Cents
				}
			}
		}
	}
	all = append(all, report.Term{Label: corrections, Cents: rest},
		report.Term{Label: "other income", Cents: in.Month.Statement.OtherIncome})
	var out []report.Term
	for _, t := range all {
		if t.Cents != 0 {
			out = append(out, t)
		}
	}
	return out
}
