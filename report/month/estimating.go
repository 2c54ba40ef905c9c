package month

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// hundred is for percentages.
var hundred = big.NewRat(100, 1)

// coverages are the supplies whose own coverage is known from counts beside
// what was stated of them.
func coverages(in *report.Input) []page.Block {
	t := page.Table{Caption: "Own against stated coverage", Columns: []page.Column{{Head: "Supply"}, {Head: "Own", Kind: page.KindNumber}, {Head: "Stated", Kind: page.KindNumber},
		{Head: "Own, % of stated", Kind: page.KindNumber}, {Kind: page.KindDrawn, Weight: 1}}}
	scale := page.ScaleOf(100)
	for _, l := range in.Month.Shelf {
		if l.Own == nil || l.Supply.Coverage == nil || l.Supply.Coverage.Sign() == 0 {
			continue
		}
		of := new(big.Rat).Mul(new(big.Rat).Quo(l.Own, l.Supply.Coverage), hundred)
		at, _ := of.Float64()
		scale = page.ScaleOf(scale.Lo, scale.Hi, at)
		t.Rows = append(t.Rows, page.Line(page.Text(l.Supply.Name), cells.Number(l.Own, 1), cells.Number(l.Supply.Coverage, 1), cells.Number(of, 0), page.Draw(page.Drawn{Bar: &page.Interval{To: at}, Pale: true})))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	scale.Lines = []page.Level{{At: 100, Label: "as stated"}}
	t.Columns[4].Scale = scale
	t.Note = "Under 100 % a supply does less than stated, so its shares cost more than by the label. Own is from all the shop's counts so far."
	return []page.Block{t}
}

// moved is how far a month's counts moved what earlier uses had been charged.
type moved struct {
	month calendar.Month
	by    money.Cents // up and down, without regard to sign
	used  money.Cents // all supplies put on pieces that month
}

// percent is by of used; nil where nothing was used.
func (m moved) percent() *big.Rat {
	if m.used <= 0 {
		return nil
	}
	p := new(big.Rat).Quo(m.by.Rat(), m.used.Rat())
	return p.Mul(p, hundred)
}

// movedByCounts is each of the last months.
func movedByCounts(in *report.Input) []moved {
	by := map[calendar.Month]money.Cents{}
	for _, p := range in.Postings {
		if p.Reason == ledger.ReasonRecount {
			by[p.Month] += p.Cents.Abs()
		}
	}
	out := make([]moved, len(in.Last))
	for i, f := range in.Last {
		out[i] = moved{month: f.To, by: by[f.To]}
		for _, l := range f.Shelf {
			out[i].used += l.Used
		}
	}
	return out
}

// estimating is how far off the shares were before counts came in, month by
// month: drawn, with the same numbers beside.
func estimating(in *report.Input) []page.Block {
	months := movedByCounts(in)
	chart := page.Lines{Of: "Month", Unit: " %", Beside: true, Series: []page.Series{{Name: "moved"}}}
	t := page.Table{Whole: true, Columns: []page.Column{{Head: "Month", Weight: 1}, {Head: "Moved by counts", Kind: page.KindMoney}, {Head: "Supplies used", Kind: page.KindMoney}, {Head: "%", Kind: page.KindNumber}}}
	any := false
	for _, m := range months {
		p := m.percent()
		chart.Places = append(chart.Places, words.ShortMonth(m.month)[:3])
		chart.Series[0].Points = append(chart.Series[0].Points, float(p))
		chart.Series[0].Figures = append(chart.Series[0].Figures, cells.Number(p, 1))
		t.Rows = append(t.Rows, page.Line(page.Text(m.month.Name()), cells.Money(m.by), cells.Money(m.used), cells.Number(p, 1)))
		any = any || m.by != 0
	}
	if !any {
		return nil
	}
	return []page.Block{page.KeepTogether{Blocks: []page.Block{
		page.Heading{Text: "How far counts moved the shares", Level: 1},
		page.Columns{LeftSpan: 3, Left: []page.Block{chart}, Right: []page.Block{t}},
		page.Paragraph{Style: page.Note, Text: "Moved is what counts put on pieces or took off them for what was used in earlier months, both added up, as a percentage of the month's supplies. The lower, the nearer the shares were before they were counted."}}}}
}

// float is a fraction for drawing; nil where there is none.
func float(x *big.Rat) *float64 {
	if x == nil {
		return nil
	}
	f, _ := x.Float64()
	return &f
}
