package month

import (
	"slices"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// statementTable builds the statement: each row takes its figure from the
// month, the month before and the year alike.
type statementTable struct {
	in   *report.Input
	rows []page.Row
}

func (t *statementTable) row(style page.RowStyle, label string, get func(figures.Statement) money.Cents) {
	row := []page.Cell{page.Text(label), cells.Money(get(t.in.Month.Statement))}
	if t.in.Before != nil {
		row = append(row, cells.Money(get(t.in.Before.Statement)))
	}
	t.rows = append(t.rows, page.Row{Style: style, Cells: append(row, cells.Money(get(t.in.Year.Statement)))})
}

// statement is the income statement with the month before and the year so far.
func statement(in *report.Input) []page.Block {
	type s = figures.Statement
	t := statementTable{in: in}
	t.row(page.Normal, "Gross receipts", func(x s) money.Cents { return x.GrossReceipts })
	t.row(page.Normal, "less: refunds and returns", func(x s) money.Cents { return x.Refunds })
	t.row(page.Subtotal, "Net receipts", func(x s) money.Cents { return x.NetReceipts })
	t.row(page.Normal, "less: cost of pieces sold", func(x s) money.Cents { return x.CostOfPiecesSold })
	t.row(page.Subtotal, "Gross profit", func(x s) money.Cents { return x.GrossProfit })
	t.row(page.Normal, "less: selling costs", func(x s) money.Cents { return x.SellingCosts })
	t.row(page.Normal, "Trips", func(x s) money.Cents { return x.Trips })
	for _, group := range expenseGroups(in) {
		t.row(page.Normal, words.Capital(group), func(x s) money.Cents { return x.Expenses[group] })
	}
	t.row(page.Normal, "Equipment written off at once", func(x s) money.Cents { return x.Equipment })
	t.row(page.Normal, "Shelf losses", func(x s) money.Cents { return x.ShelfLosses })
	t.row(page.Normal, "Pieces lost, at book cost", func(x s) money.Cents { return x.PiecesLost })
	t.row(page.Subtotal, "All these costs", report.AllCosts)
	t.row(page.Normal, "Other income", func(x s) money.Cents { return x.OtherIncome })
	t.row(page.GrandTotal, "Net profit", func(x s) money.Cents { return x.NetProfit })
	t.row(page.Quiet, "included above: part payments on unfinished work", func(x s) money.Cents { return x.PartPaymentsUnfinished })
	t.row(page.Quiet, "not in it: pieces kept or donated, at book cost", func(x s) money.Cents { return x.KeptOrDonated })
	t.row(page.Quiet, "not in it: sales tax owed at the end", func(x s) money.Cents { return x.SalesTaxOwed })
	cols := []page.Column{{Weight: 1}, {Head: in.Month.To.Name(), Kind: page.KindMoney}}
	if in.Before != nil {
		cols = append(cols, page.Column{Head: in.Before.To.Name(), Kind: page.KindMoney})
	}
	cols = append(cols, page.Column{Head: "Year so far", Kind: page.KindMoney})
	out := []page.Block{page.Table{Columns: cols, Rows: t.rows,
		Note: "Amounts in " + in.Month.Currency + ". Receipts count on the day the money came; a piece's cost when it is sold. Costs print as positive amounts; brackets mean that a line goes against its usual way."},
		stockTable(in)}
	if text := in.Cautions.RecordsOnly; text != "" {
		out = append(out, page.Paragraph{Style: page.Note, Text: text})
	}
	return out
}

// expenseGroups are the groups with an amount in any of the columns, in order.
func expenseGroups(in *report.Input) []string {
	var out []string
	add := func(f figures.Figures) {
		for g := range f.Statement.Expenses {
			out = append(out, g)
		}
	}
	add(in.Month)
	add(in.Year)
	if in.Before != nil {
		add(*in.Before)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// stockTable is the pieces' roll-forward at book cost.
func stockTable(in *report.Input) page.Block {
	k := in.Month.Stock
	t := page.Table{Caption: "Pieces at book cost, from the opening to the closing", Span: 4, Whole: true,
		Columns: []page.Column{{Weight: 1}, {Head: in.Month.To.Name(), Kind: page.KindMoney}}}
	add := func(style page.RowStyle, label string, c money.Cents) {
		t.Rows = append(t.Rows, page.Styled(style, page.Text(label), cells.Money(c)))
	}
	add(page.Normal, "Opening", k.Opening)
	add(page.Normal, "Acquired", k.Acquired)
	add(page.Normal, "Parts", k.Parts)
	add(page.Normal, "Outside work", k.OutsideWork)
	add(page.Normal, "Supplies put in", k.Supplies)
	add(page.Normal, "Returned", k.Returned)
	add(page.Normal, "less: sold", k.Sold)
	add(page.Normal, "less: removed unsold", k.Removed)
	add(page.GrandTotal, "Closing", k.Closing)
	return t
}
