package report

import (
	"fmt"
	"strings"

	"piecebook/ledger/money"
	"piecebook/report/page"
	"piecebook/report/words"
)

// monthBars is the net profit of each of the last months as a standing bar
// with its amount, the usual as a line across.
func (in *Input) monthBars() page.Block {
	u := page.Uprights{Caption: "Net profit, " + in.monthsWords(), Head: "Net profit"}
	var of []money.Cents
	for i, f := range in.Last {
		m := f.To
		label := strings.TrimSuffix(words.ShortMonth(m), fmt.Sprintf(" %d", m.Year()))
		if i == 0 || strings.HasPrefix(label, "Jan") {
			label += fmt.Sprintf("\n%d", m.Year())
		}
		u.Items = append(u.Items, page.Upright{Label: label, Figure: cash(f.Statement.NetProfit), Strong: i == len(in.Last)-1})
		of = append(of, f.Statement.NetProfit)
	}
	if usual, ok := median(of); ok && len(of) > 2 {
		u.Level = page.Level{At: float64(usual), Label: fmt.Sprintf("the usual, the median of %d: %s", len(of), in.spoken(usual))}
	}
	return u
}

func (in *Input) monthsWords() string {
	if len(in.Last) < 12 {
		return "the months so far"
	}
	return "the last twelve months"
}

// monthsTable is each of the last months in numbers, oldest first.
func (in *Input) monthsTable() page.Block {
	t := page.Table{Caption: capital(in.monthsWords()), Whole: true, Columns: []page.Column{
		{Head: "Month", Weight: 1}, {Head: "Net receipts", Kind: page.KindMoney}, {Head: "Gross profit", Kind: page.KindMoney},
		{Head: "Net profit", Kind: page.KindMoney}, {Head: "Pieces sold", Kind: page.KindNumber}, {Head: "Hours", Kind: page.KindNumber},
		{Head: "Per hour", Kind: page.KindMoney}, {Head: "Tied up", Kind: page.KindMoney}}}
	for _, f := range in.Last {
		s := in.summary(f)
		t.Rows = append(t.Rows, page.Line(page.Text(s.month.Name()), cash(s.receipts), cash(s.gross), cash(s.net),
			count(s.sold), hoursCell(s.hours), maybe(s.perHour), cash(s.tiedUp)))
	}
	if len(t.Rows) == 0 {
		return page.Gap{}
	}
	return t
}
