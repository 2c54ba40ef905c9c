package month

import (
	"fmt"
	"strings"

	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// monthBars is the net profit of each of the last months as a standing bar
// with its amount, the usual as a line across.
func monthBars(in *report.Input) page.Block {
	u := page.VerticalBars{Caption: "Net profit, " + monthsWords(in), Head: "Net profit"}
	var of []money.Cents
	for i, f := range in.Last {
		m := f.To
		label := strings.TrimSuffix(words.ShortMonth(m), fmt.Sprintf(" %d", m.Year()))
		if i == 0 || strings.HasPrefix(label, "Jan") {
			label += fmt.Sprintf("\n%d", m.Year())
		}
		u.Items = append(u.Items, page.VerticalBar{Label: label, Figure: cells.Money(f.Statement.NetProfit), Strong: i == len(in.Last)-1})
		of = append(of, f.Statement.NetProfit)
	}
	if usual, ok := money.Median(of); ok && len(of) > 2 {
		u.Level = page.Level{At: float64(usual), Label: fmt.Sprintf("the usual, the median of %d: %s", len(of), in.Spoken(usual))}
	}
	return u
}

func monthsWords(in *report.Input) string {
	if len(in.Last) < 12 {
		return "the months so far"
	}
	return "the last twelve months"
}

// monthsTable is each of the last months in numbers, oldest first.
func monthsTable(in *report.Input) page.Block {
	t := page.Table{Caption: words.Capital(monthsWords(in)), Whole: true, Columns: []page.Column{
		{Head: "Month", Weight: 1}, {Head: "Net receipts", Kind: page.KindMoney}, {Head: "Gross profit", Kind: page.KindMoney},
		{Head: "Net profit", Kind: page.KindMoney}, {Head: "Pieces sold", Kind: page.KindNumber}, {Head: "Hours", Kind: page.KindNumber},
		{Head: "Per hour", Kind: page.KindMoney}, {Head: "Tied up", Kind: page.KindMoney}}}
	for _, f := range in.Last {
		s := summaryOf(in, f)
		t.Rows = append(t.Rows, page.Line(page.Text(s.month.Name()), cells.Money(s.receipts), cells.Money(s.gross), cells.Money(s.net),
			cells.Count(s.sold), cells.Hours(s.hours), cells.Optional(s.perHour), cells.Money(s.tiedUp)))
	}
	if len(t.Rows) == 0 {
		return page.Gap{}
	}
	return t
}
