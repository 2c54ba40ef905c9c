package month

import (
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// holding says what the month's receipts and costs hold, so that the receipts of
// the pieces sold, below them, are seen to be a part of the first; nothing where
// there are none.
func holding(in *report.Input) []page.Block {
	st := in.Month.Statement
	receipts := "Receipts"
	if st.OtherIncome != 0 {
		receipts += " and other income"
	}
	// Late costs are apart: the pieces sold are then what the table of them holds.
	var late money.Cents
	for _, tie := range in.Month.TieOut {
		for _, t := range tie.Terms {
			if tie.Name == figures.TieProfit && t.ID == figures.LineLateCost {
				late -= t.Cents
			}
		}
	}
	costs := []report.Term{{Label: "the pieces sold (price, parts, supplies)",
		Cents: st.Amount(figures.LineCostOfSales) - late},
		{Label: "late costs of pieces sold before", Cents: late},
		{Label: "the month's own (selling, trips, rent and the like)", Cents: st.Amount(figures.LineAllCosts)}}
	var text []string
	for _, x := range []struct {
		name  string
		terms []report.Term
	}{{receipts, receiptTerms(in)}, {"Costs", costs}} {
		if sum := summed(x.terms); sum != "" {
			text = append(text, x.name+": "+sum+".")
		}
	}
	if len(text) == 0 {
		return nil
	}
	if len(in.Last) > 2 {
		text = append(text, "Each usual is its own median: they need not add up.")
	}
	if len(soldIn(in.Month)) > 0 {
		text = append(text, "Below: the pieces sold, over their whole lives.")
	}
	return []page.Block{page.Paragraph{Style: page.Note, Text: strings.Join(text, " ")}}
}

// summed is terms as a sum in a sentence, without those that are nothing.
func summed(terms []report.Term) string {
	text := ""
	for _, t := range terms {
		sign := " + "
		switch {
		case t.Cents == 0:
			continue
		case t.Cents < 0:
			sign = " − "
		case text == "":
			sign = ""
		}
		text += sign + t.Label + " " + t.Cents.Abs().Grouped()
	}
	return strings.TrimSpace(text)
}

// corrections are what the records of closed months give otherwise now.
const corrections = "corrections to closed months"

// receiptTerms lead from the receipts of the pieces sold, over their whole
// lives, to the month's receipts and other income.
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
	return append(all, report.Term{Label: corrections, Cents: rest},
		report.Term{Label: "other income", Cents: in.Month.Statement.OtherIncome})
}
