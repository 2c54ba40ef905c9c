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
	profits := in.LineOfAll("Profit of the pieces sold, before shop costs", soldIn(in.Month), figures.LineProfit)
	t := page.Table{Caption: "From the pieces' profits to net profit", Whole: true, NoHead: true, Span: 5,
		Columns: page.Heads{}.Wide(1, "").Money("")}
	add := func(label string, c money.Cents, of page.Ref) {
		if c != 0 {
			t.Add(page.Text(label), cells.Money(c).Opens(of))
		}
	}
	for _, tie := range in.Month.TieOut {
		if tie.Name != figures.TieProfit || len(tie.Terms) == 0 {
			continue
		}
		add("Profit of the pieces sold, before shop costs, as on page 1", profits.Total(), profits)
		add("Profit of clients' pieces handed over", tie.Terms[0].Cents-profits.Total(), clientProfits(in))
		for _, x := range tie.Terms[1:] {
			name := words.Term(tie.Name, x)
			add(name, x.Cents, in.ProfitTerm(name, x.ID))
		}
		if len(t.Rows) == 0 {
			return nil
		}
		t.AddStyled(page.GrandTotal, page.Text(words.NetProfit),
			cells.Full(tie.Reached).Opens(ofStatement(in.Month, figures.LineNetProfit)))
		return []page.Block{t}
	}
	return nil
}

// clientProfits is the profits of clients' pieces handed over in the period.
func clientProfits(in *report.Input) *report.Worked {
	return in.LineOfAll("Profit of clients' pieces handed over", in.Chosen(func(p figures.Piece) bool {
		return in.SoldIn(p) && p.Record.How == ledger.Client && p.Profit != nil
	}, nil), figures.LineProfit)
}
