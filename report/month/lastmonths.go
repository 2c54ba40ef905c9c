package month

import (
	"fmt"
	"time"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// monthBars is the net profit of each of the last months as a standing bar
// with its amount, what is usual before this one as a line across; of two
// months at least.
func monthBars(in *report.Input) []page.Block {
	if len(in.Last) < 2 {
		return nil
	}
	u := page.VerticalBars{Head: words.NetProfit, LevelTold: true}
	var of []money.Cents
	for i, f := range in.Last {
		m := f.To
		label := words.MonthOfYear(m)
		if i == 0 || m.Of() == time.January {
			label += fmt.Sprintf("\n%d", m.Year())
		}
		u.Items = append(u.Items, page.VerticalBar{Label: label, Figure: cells.Money(f.Statement.NetProfit).
			Opens(ofStatement(f, figures.LineNetProfit)), Strong: i == len(in.Last)-1})
		of = append(of, f.Statement.NetProfit)
	}
	u.Caption = "Net profit by month: " + in.Month.To.Name() + " is " + rank(of)
	var before []money.Cents
	for _, f := range in.MonthsBefore() {
		before = append(before, f.Statement.NetProfit)
	}
	if usual, ok := money.Median(before); ok && len(before) >= report.UsualOf {
		u.Level = page.Level{At: float64(usual), Label: "usual"}
		u.Caption += fmt.Sprintf("; dashed: the usual (median), %s", in.Spoken(usual))
	}
	return []page.Block{u}
}

// rank says where the last of some months stands among them.
func rank(of []money.Cents) string {
	last, above := of[len(of)-1], 0
	for _, c := range of {
		if c > last {
			above++
		}
	}
	switch {
	case above == 0:
		return "the highest of " + fmt.Sprint(len(of))
	case above == len(of)-1:
		return "the lowest of " + fmt.Sprint(len(of))
	}
	return words.Ordinal(above+1) + " of " + fmt.Sprint(len(of))
}
