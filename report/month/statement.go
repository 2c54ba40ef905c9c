package month

import (
	"fmt"
	"maps"
	"slices"

	"piecebook/ledger"
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
	page.Table
	in      *report.Input
	periods []period
	earlier []figures.Figures // what the usual is the median of
}

// period is a column of the statement; the usual has the median of the last
// months.
type period struct {
	head  string
	f     figures.Figures
	usual bool
}

// newStatement chooses the columns: what there is to compare with.
func newStatement(in *report.Input) *statementTable {
	t := &statementTable{in: in, periods: []period{{words.ShortMonth(in.Month.To), in.Month, false}}}
	for _, f := range []*figures.Figures{in.Before, in.YearAgo} {
		if f != nil {
			t.periods = append(t.periods, period{words.ShortMonth(f.To), *f, false})
		}
	}
	if t.earlier = in.MonthsBefore(); len(t.earlier) >= report.UsualOf {
		t.periods = append(t.periods, period{head: "Usual", usual: true})
	}
	t.periods = append(t.periods, period{"Year so far", in.Year, false})
	heads := page.Heads{}.Wide(1, "")
	for _, x := range t.periods {
		heads = heads.Money(x.head)
	}
	t.Columns = heads.Number(shareHead)
	return t
}

// row adds a line; a normal one that is nothing in every period is left out.
func (t *statementTable) row(style page.RowStyle, label string, of report.Sum,
	get func(figures.Statement) money.Cents) {
	row := page.Styled(style, page.Text(label))
	says := style.Summing()
	for _, x := range t.periods {
		of.From, of.To = x.f.From, x.f.To
		cell := cells.Money(get(x.f.Statement)).Opens(of)
		if x.usual {
			usual := report.SumOf("Usual: " + label)
			for _, f := range t.earlier {
				of.From, of.To = f.From, f.To
				usual.Plus(f.To.Name(), get(f.Statement), of)
			}
			cell = cells.Money(median(usual).Cents).Opens(usual)
		}
		says = says || cell.Cents != 0
		row.Cells = append(row.Cells, cell)
	}
	if !says {
		return
	}
	if style != page.Quiet {
		month := t.in.Month.Statement
		row.Cells = append(row.Cells, percentOf(get(month), month.NetReceipts))
	}
	t.Rows = append(t.Rows, row)
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
	if len(t.earlier) >= report.UsualOf {
		note += fmt.Sprintf(" Usual is each line's own median of the %d months before, so that it does not add up.",
			len(t.earlier))
	}
	if slices.ContainsFunc(in.Books.Equipment, func(e ledger.Equipment) bool {
		return e.Life != ledger.LifeAtOnce && e.On.InMonth() <= in.Month.To
	}) {
		note += " Net profit is before depreciation, which only the year's report has."
	}
	t.Note = note + foreignMileage(in)
	return append([]page.Block{cells.WithoutBlank(t.Table, shareHead)}, bridge(in)...)
}

// foreignMileage names the rates of the period's trips that are another country's.
func foreignMileage(in *report.Input) string {
	var rates []ledger.MileageRate
	for _, t := range in.Books.Trips {
		r := ledger.RateOn(in.Settings().Mileage, t.On)
		if in.Within(t.On) && r != nil && r.Foreign != "" && !slices.Contains(rates, *r) {
			rates = append(rates, *r)
		}
	}
	slices.SortFunc(rates, func(a, b ledger.MileageRate) int { return a.From.Compare(b.From) })
	text := ""
	for _, r := range rates {
		text += " " + words.ForeignMileage(r, in.Settings())
	}
	return text
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
	all := append([]figures.Figures{in.Month, in.Year}, in.Last...)
	if in.YearAgo != nil {
		all = append(all, *in.YearAgo)
	}
	for _, f := range all {
		out = slices.AppendSeq(out, maps.Keys(f.Statement.Expenses))
	}
	slices.Sort(out)
	return slices.Compact(out)
}
