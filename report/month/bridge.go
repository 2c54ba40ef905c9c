package month

import (
	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// bridge leads from the profits of the pieces sold, as page 1 has them, to the
// net profit; clients' pieces have their line. Terms of nothing are left out.
func bridge(in *report.Input) []page.Block {
	var own money.Cents
	profits := &report.Worked{Title: "Profit of the pieces sold, before shop costs"}
	for _, p := range soldIn(in.Month) {
		own += *p.Profit
		profits.Terms = append(profits.Terms, report.Term{Label: p.Record.ID, Cents: *p.Profit,
			Of: in.LineOfPiece(p.Record.ID, figures.LineProfit), Link: report.SheetAnchor(p.Record.ID)})
	}
	t := page.Table{Caption: "From the pieces' profits to net profit", Whole: true, NoHead: true, Span: 5,
		Columns: []page.Column{{Weight: 1}, {Kind: page.KindMoney}}}
	add := func(label string, c money.Cents, of page.Ref) {
		if c != 0 {
			t.Rows = append(t.Rows, page.Line(page.Text(label), cells.Money(c).Opens(of)))
		}
	}
	for _, tie := range in.Month.TieOut {
		if tie.Name != figures.TieProfit || len(tie.Terms) == 0 {
			continue
		}
		add("Profit of the pieces sold, before shop costs, as on page 1", own, profits)
		add("Profit of clients' pieces handed over", tie.Terms[0].Cents-own, clientProfits(in))
		for _, x := range tie.Terms[1:] {
			name := words.Term(tie.Name, x)
			add(name, x.Cents, in.ProfitTerm(name, x.ID))
		}
		if len(t.Rows) == 0 {
			return nil
		}
		t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text(words.NetProfit),
			page.FullMoney(int64(tie.Reached)).Opens(ofStatement(in.Month, figures.LineNetProfit))))
		return []page.Block{t}
	}
	return nil
}

// clientProfits is the profits of clients' pieces handed over in the period.
func clientProfits(in *report.Input) *report.Worked {
	out := &report.Worked{Title: "Profit of clients' pieces handed over"}
	for _, p := range in.Month.Pieces {
		if in.SoldIn(p) && p.Record.How == ledger.Client && p.Profit != nil {
			out.Terms = append(out.Terms, report.Term{Label: p.Record.ID, Cents: *p.Profit,
				Of: in.LineOfPiece(p.Record.ID, figures.LineProfit), Link: report.SheetAnchor(p.Record.ID)})
		}
	}
	return out
}
