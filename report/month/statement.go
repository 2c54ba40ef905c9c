package month

import (
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// statementTable builds the statement: each row takes its figure from every
// period alike.
type statementTable struct {
	in      *report.Input
	columns []page.Column
	periods []figures.Statement // beside the month's, in the order of their columns; the usual is none
	spans   []span              // of the periods
	earlier []figures.Figures   // what the usual is the median of
	usual   int                 // the column of the usual among them; -1: none
	rows    []page.Row
}

// newStatement chooses the columns: what there is to compare with.
func newStatement(in *report.Input) *statementTable {
	t := &statementTable{in: in, usual: -1, columns: []page.Column{{Weight: 1}, {Head: words.ShortMonth(in.Month.To),
		Kind: page.KindMoney}}}
	add := func(head string, f figures.Figures) {
		s := f.Statement
		t.spans = append(t.spans, span{f.From, f.To})
		t.columns = append(t.columns, page.Column{Head: head, Kind: page.KindMoney})
		t.periods = append(t.periods, s)
	}
	if in.Before != nil {
		add(words.ShortMonth(in.Before.To), *in.Before)
	}
	if in.YearAgo != nil {
		add(words.ShortMonth(in.YearAgo.To), *in.YearAgo)
	}
	if t.earlier = in.MonthsBefore(); len(t.earlier) >= report.UsualOf {
		t.usual = len(t.periods)
		add("Usual", figures.Figures{})
	}
	add("Year so far", in.Year)
	t.columns = append(t.columns, page.Column{Head: shareHead, Kind: page.KindNumber})
	return t
}

// row adds a line; a normal one that is nothing in every period is left out.
func (t *statementTable) row(style page.RowStyle, label string, of report.Sum,
	get func(figures.Statement) money.Cents) {
	month := t.in.Month.Statement
	amounts := []money.Cents{get(month)}
	spans := append([]span{{t.in.Month.From, t.in.Month.To}}, t.spans...)
	usually := &report.Worked{Title: "Usual: " + label}
	for i, p := range t.periods {
		c := get(p)
		if i == t.usual {
			medians := make([]money.Cents, len(t.earlier))
			for j, f := range t.earlier {
				medians[j] = get(f.Statement)
				usually.Terms = append(usually.Terms, report.Term{Label: f.To.Name(), Cents: medians[j],
					Of: over(of, f.From, f.To)})
			}
			c, _ = money.Median(medians)
			usually.Cents = c
			medianWords(usually)
		}
		amounts = append(amounts, c)
	}
	if !style.Summing() && !slices.ContainsFunc(amounts, func(c money.Cents) bool { return c != 0 }) {
		return
	}
	row := page.Styled(style, page.Text(label))
	for i, c := range amounts {
		var ref page.Ref = over(of, spans[i].from, spans[i].to)
		if t.usual >= 0 && i-1 == t.usual {
			ref = usually
		}
		row.Cells = append(row.Cells, cells.Money(c).Opens(ref))
	}
	if style != page.Quiet {
		row.Cells = append(row.Cells, percentOf(amounts[0], month.NetReceipts))
	}
	t.rows = append(t.rows, row)
}

// span is the months of a column.
type span struct{ from, to calendar.Month }

// over is a line over other months.
func over(of report.Sum, from, to calendar.Month) report.Sum {
	of.From, of.To = from, to
	return of
}

// statement is the income statement beside what it compares with, and how the
// profits of the pieces sold lead to its net profit.
func statement(in *report.Input) []page.Block {
	t := newStatement(in)
	for _, l := range figures.LinesOf(figures.OfStatement) {
		of := ofStatement(in.Month, l.ID)
		switch {
		case l.ID == figures.LineTiedUp: // page 1 has it
		case l.ByGroup:
			for _, group := range expenseGroups(in) {
				of.Subject = group
				t.row(page.Normal, words.GroupLabel(group), of,
					func(x figures.Statement) money.Cents { return x.Expenses[group] })
			}
		default:
			t.row(statementStyle(l), words.Label(figures.OfStatement, l.ID), of,
				func(x figures.Statement) money.Cents { return x.Amount(l.ID) })
		}
	}
	note := "Receipts count on the day the money came; a piece's cost when it is sold. Costs are positive; brackets go " +
		"against a line's usual way."
	if t.usual >= 0 {
		note += fmt.Sprintf(" Usual is each line's own median of the %d months before, so that it does not add up.",
			len(t.earlier))
	}
	if slices.ContainsFunc(in.Books.Equipment, func(e ledger.Equipment) bool {
		return e.Life != ledger.LifeAtOnce && e.On.InMonth() <= in.Month.To
	}) {
		note += " Net profit is before depreciation, which only the year's report has."
	}
	return append([]page.Block{cells.WithoutBlank(page.Table{Columns: t.columns, Rows: t.rows, Note: note},
		shareHead)}, bridge(in)...)
}

// shareHead is the head of the month's lines in per cent of its net receipts: the
// column stands after that of the year.
const shareHead = "% of month's receipts"

// statementStyle is how a line of the statement is printed: sums stand out, and
// what is no part of net profit is beside the others.
func statementStyle(l *figures.Line) page.RowStyle {
	switch {
	case l.ID == figures.LineNetProfit:
		return page.GrandTotal
	case l.Sum != nil:
		return page.Subtotal
	case figures.InSum(figures.OfStatement, figures.LineNetProfit, l.ID):
		return page.Normal
	}
	return page.Quiet
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
	for _, f := range in.Last {
		add(f)
	}
	if in.YearAgo != nil {
		add(*in.YearAgo)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
