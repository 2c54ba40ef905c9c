package month

import (
	"piecebook/ledger"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
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
	cost := report.SumOf("Cost of the pieces sold").Plus("Cost of pieces sold, by the statement",
		in.Month.Statement.Amount(figures.LineCostOfSales), ofStatement(in.Month, figures.LineCostOfSales)).
		Less("late costs of pieces sold before", late, lateOf).Less(corrections, ofPieces, corrected)
	return report.SumOf("").Plus("the pieces sold (price, parts, supplies)", cost.Total(), cost).Plus("late costs "+
		"of pieces sold before", late, lateOf).Plus("the month's own (selling, trips, rent and the like)",
		in.Month.Statement.Amount(figures.LineAllCosts)-ofMonth,
		ofStatement(in.Month, figures.LineAllCosts)).Plus(corrections, ofPieces+ofMonth, corrected).Terms
}

// correctedIn is what corrections add to a line of costs; their postings are
// put to the list.
func correctedIn(in *report.Input, line figures.ID, list *report.Listed) (sum money.Cents) {
	for _, c := range in.Corrections {
		sum += correctedBy(c, line, list)
	}
	return sum
}

// correctedBy is correctedIn of one month's corrections.
func correctedBy(c *closing.Corrections, line figures.ID, list *report.Listed) (sum money.Cents) {
	for _, leaf := range figures.Leaves(figures.OfStatement, line) {
		for _, p := range c.Postings {
			sum += list.Add(p, leaf.Sign*leaf.Line.Sign(&p))
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
		text = append(text, page.Named(sign, t.Label, cells.Bare(t.Cents.Abs(), t.Of))...)
	}
	return text
}

// corrections are what the records of closed months give otherwise now.
const corrections = "corrections to closed months"

// receiptTerms lead from the receipts of the pieces sold, over their whole
// lives, to the month's receipts and other income.
func receiptTerms(in *report.Input) []report.Term {
	own, clients := receiptsOf(in, "pieces sold", false), receiptsOf(in, "clients' pieces handed over", true)
	all := report.SumOf("").Plus("pieces sold", own.Total(), own).
		Plus("clients' pieces handed over", clients.Total(), clients)
	for _, tie := range in.Month.TieOut {
		for _, t := range tie.Terms {
			switch t.ID {
			case figures.TermReceiptsOther, figures.LineUnfinished, figures.TermRefundsOthers, figures.TermReceiptsOthers:
				if tie.Name == figures.TieProfit {
					name := words.Term(tie.Name, t)
					all.Plus(words.Uncapital(name), t.Cents, in.ProfitTerm(name, t.ID))
				}
			}
		}
	}
	rest := in.Month.Statement.NetReceipts - all.Total()
	return all.Plus(corrections, rest, report.InWords(words.Capital(corrections),
		"Each stands under what changed in months that are closed.", rest)).
		Plus("other income", in.Month.Statement.OtherIncome, ofStatement(in.Month, figures.LineOtherIncome)).Terms
}

// receiptsOf is the receipts of each piece sold, or of each client's piece.
func receiptsOf(in *report.Input, name string, clients bool) *report.Worked {
	title := "Receipts of the " + name
	if clients {
		title = "Receipts of " + name
	}
	return in.LineOfAll(title, in.Chosen(func(p figures.Piece) bool {
		return in.SoldIn(p) && (p.Record.How == ledger.Client) == clients
	}, nil), figures.LineReceipts)
}
