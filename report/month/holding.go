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
// the pieces sold, below them, are seen to be a part of the first; nothing where
// there are none.
func holding(in *report.Input) []page.Block {
	st := in.Month.Statement
	receipts := "Receipts"
	if st.OtherIncome != 0 {
		receipts += " and other income"
	}
	var text page.Sentence
	for _, x := range []struct {
		name  string
		terms []report.Term
	}{{receipts, receiptTerms(in)}, {"Costs", costTerms(in)}} {
		if sum := summed(x.terms); len(sum) > 0 {
			text = text.And(append(append(page.Say(x.name+": "), sum...), page.Text(".")))
		}
	}
	if len(text) == 0 {
		return nil
	}
	if len(in.MonthsBefore()) >= report.UsualOf {
		text = text.And(page.Say("Each usual is its own median: they need not add up."))
	}
	if len(soldIn(in.Month)) > 0 {
		text = text.And(page.Say("Below: the pieces sold, over their whole lives."))
	}
	return []page.Block{page.Says(page.Note, text)}
}

// costTerms are the parts of the month's costs.
func costTerms(in *report.Input) []report.Term {
	// Late costs are apart: the pieces sold are then what the table of them holds.
	var late money.Cents
	for _, tie := range in.Month.TieOut {
		for _, t := range tie.Terms {
			if tie.Name == figures.TieProfit && t.ID == figures.LineLateCost {
				late -= t.Cents
			}
		}
	}
	// So are corrections, which are of pieces and months before.
	corrected := &report.Listed{Title: words.Capital(corrections)}
	ofPieces := correctedIn(in, figures.LineCostOfSales, corrected)
	ofMonth := correctedIn(in, figures.LineAllCosts, corrected)
	lateOf := in.ProfitTerm("Late costs of pieces sold before", figures.LineLateCost)
	return []report.Term{{Label: "the pieces sold (price, parts, supplies)",
		Cents: in.Month.Statement.Amount(figures.LineCostOfSales) - late - ofPieces,
		Of: &report.Worked{Title: "Cost of the pieces sold",
			Terms: []report.Term{{Label: "Cost of pieces sold, by the statement", Cents: in.Month.Statement.Amount(
				figures.LineCostOfSales),
				Of: ofStatement(in.Month, figures.LineCostOfSales)},
				{Label: "less: late costs of pieces sold before", Cents: -late, Of: lateOf},
				{Label: "less: " + corrections, Cents: -ofPieces, Of: corrected}}}},
		{Label: "late costs of pieces sold before", Cents: late, Of: lateOf},
		{Label: "the month's own (selling, trips, rent and the like)", Cents: in.Month.Statement.Amount(
			figures.LineAllCosts) - ofMonth,
			Of: ofStatement(in.Month, figures.LineAllCosts)},
		{Label: corrections, Cents: ofPieces + ofMonth, Of: corrected}}
}

// correctedIn is what corrections add to a line of costs; their postings are
// put to the list.
func correctedIn(in *report.Input, line figures.ID, list *report.Listed) (sum money.Cents) {
	for _, c := range in.Corrections {
		for _, leaf := range figures.Leaves(figures.OfStatement, line) {
			for _, p := range c.Postings {
				if p.Cents *= money.Cents(leaf.Sign * leaf.Line.Sign(&p)); p.Cents != 0 {
					sum += p.Cents
					list.Postings = append(list.Postings, p)
				}
			}
		}
	}
	return sum
}

// summed is terms as a sum in a sentence, without those that are nothing.
func summed(terms []report.Term) page.Sentence {
	var text page.Sentence
	for _, t := range terms {
		sign := " + "
		switch {
		case t.Cents == 0:
			continue
		case t.Cents < 0 && len(text) == 0:
			sign = "− "
		case t.Cents < 0:
			sign = " − "
		case len(text) == 0:
			sign = ""
		}
		text = append(text, page.Text(sign+t.Label+" "), amount(t.Cents.Abs(), t.Of))
	}
	return text
}

// amount is an amount in a sentence without the currency's sign.
func amount(c money.Cents, of page.Ref) page.Cell {
	return page.Spoken(c.Grouped(), int64(c)).Opens(of)
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
	all := []report.Term{{Label: "pieces sold", Cents: own, Of: receiptsOf(in, false)},
		{Label: "clients' pieces handed over", Cents: clients, Of: receiptsOf(in, true)}}
	rest := in.Month.Statement.NetReceipts - own - clients
	for _, tie := range in.Month.TieOut {
		for _, t := range tie.Terms {
			switch t.ID {
			case figures.TermReceiptsOther, figures.LineUnfinished, figures.TermRefundsOthers, figures.TermReceiptsOthers:
				if tie.Name == figures.TieProfit {
					name := words.Term(tie.Name, t)
					all = append(all, report.Term{Label: words.Uncapital(name), Cents: t.Cents, Of: in.ProfitTerm(name, t.ID)})
					rest -= t.Cents
				}
			}
		}
	}
	return append(all, report.Term{Label: corrections, Cents: rest, Of: &report.Worked{Title: words.Capital(corrections),
		Cents: rest, Words: "Each stands under what changed in months that are closed."}},
		report.Term{Label: "other income", Cents: in.Month.Statement.OtherIncome,
			Of: ofStatement(in.Month, figures.LineOtherIncome)})
}

// receiptsOf is the receipts of each piece sold, or of each client's piece.
func receiptsOf(in *report.Input, clients bool) *report.Worked {
	out := &report.Worked{Title: "Receipts of the pieces sold"}
	if clients {
		out.Title = "Receipts of clients' pieces handed over"
	}
	for _, p := range in.Month.Pieces {
		if in.SoldIn(p) && (p.Record.How == ledger.Client) == clients {
			out.Terms = append(out.Terms, report.Term{Label: p.Record.ID, Cents: p.Receipts,
				Of: in.LineOfPiece(p.Record.ID, figures.LineReceipts), Link: report.SheetAnchor(p.Record.ID)})
		}
	}
	return out
}
