package piece

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// answer is what an owner asks a sheet first, and the sentence that takes the
// usual answer to the true one.
func answer(in *report.Input, p figures.Piece) []page.Block {
	if p.Profit == nil {
		return unsold(in, p)
	}
	perHour := page.KeyFigure{Figure: cells.Optional(p.ProfitPerHour), Words: "per hour of work, over " + words.Hours(p.Hours)}
	if p.ProfitPerHour == nil {
		perHour.Words = "per hour: no hours are written down"
	}
	var profit page.KeyFigure
	profit.Small, perHour.Small = ratios(in, p)
	profit.Figure, profit.Words = cells.Optional(p.Profit), "after everything"
	out := []page.Block{page.KeyFigures{Items: []page.KeyFigure{profit,
		perHour,
		{Figure: cells.Optional(p.SoldLessBought), Words: "sold less bought, as most reckon it"},
	}}}
	out = append(out, page.Paragraph{Text: between(in, p)})
	if p.Status != "sold" {
		text := words.Capital(p.Status) + ": it brought nothing more."
		if p.ReceivedWhenLost != 0 {
			text = fmt.Sprintf("%s: %s was received for it. That is other income, outside the profit above; together they make %s.",
				words.Capital(p.Status), in.Spoken(p.ReceivedWhenLost), in.Spoken(*p.Profit+p.ReceivedWhenLost))
		}
		out = append(out, page.Paragraph{Text: text})
	}
	return out
}

// between says what stands between 'sold less bought' and 'after everything'.
func between(in *report.Input, p figures.Piece) string {
	type cost struct {
		words string
		cents money.Cents
	}
	costs := []cost{{"parts", p.Parts}, {"outside work", p.OutsideWork}, {"supplies", p.Supplies}, {"selling costs", p.SellingCosts}, {"trips", p.Trips}}
	costs = slices.DeleteFunc(costs, func(c cost) bool { return c.cents == 0 })
	if len(costs) == 0 {
		return "Nothing stands between the two: no parts, work, supplies, selling costs or trips are written down for it."
	}
	slices.SortStableFunc(costs, func(a, b cost) int { return money.LargestFirst(a.cents, b.cents) })
	text := make([]string, len(costs))
	for i, c := range costs {
		text[i] = c.words + " " + in.Spoken(c.cents)
	}
	return fmt.Sprintf("Between the two stand %s: %s.", in.Spoken(*p.SoldLessBought-*p.Profit), words.List(text))
}

// unsold is the answer for a piece that has no profit to tell.
func unsold(in *report.Input, p figures.Piece) []page.Block {
	items := []page.KeyFigure{
		{Figure: page.FullMoney(int64(p.BookCost)), Words: "book cost so far"},
		{Figure: page.Number(money.AtMost(money.OrZero(p.Hours), 2)), Words: "hours so far"},
		{Figure: page.FullMoney(int64(p.Held)), Words: "part payments held"},
	}
	text := "It is not sold, so it has no profit yet. To be worth its costs it must bring more than " +
		in.Spoken(p.BookCost+p.SellingCosts+p.Trips) + " after selling costs still to come."
	switch p.Status {
	case "kept", "donated":
		text = "It was " + p.Status + ", so it has no profit. Its book cost left the stock and is told apart in the month's statement."
	case "client":
		text = "It is a client's and still here, so there is no profit to tell yet."
	}
	return []page.Block{page.KeyFigures{Items: items}, page.Paragraph{Text: text}}
}

// step is a row of the money table: a line with its amount, and the stretch
// of the build-up that it is.
type step struct {
	style    page.RowStyle
	name     string
	cents    money.Cents
	line     words.Line // whose records stand beside it
	from, to money.Cents
	solid    bool // an outcome, not a step towards it
}

// steps are the rows: for a piece that is gone from receipts down to profit,
// for one that is still there up to its book cost.
func steps(p figures.Piece) []step {
	costs := []step{{name: words.AcquisitionLine.Name(), cents: p.Acquisition, line: words.AcquisitionLine}, {name: words.PartsLine.Name(), cents: p.Parts, line: words.PartsLine},
		{name: words.OutsideLine.Name(), cents: p.OutsideWork, line: words.OutsideLine}, {name: words.SuppliesLine.Name(), cents: p.Supplies, line: words.SuppliesLine}}
	later := []step{{name: words.SellingLine.Name(), cents: p.SellingCosts, line: words.SellingLine}, {name: words.TripsLine.Name(), cents: p.Trips, line: words.TripsLine}}
	var out []step
	var at money.Cents
	if p.Profit == nil {
		for _, c := range costs {
			c.from, c.to = at, at+c.cents
			at = c.to
			out = append(out, c)
		}
		out = append(out, step{style: page.GrandTotal, name: "Book cost so far", cents: p.BookCost, to: p.BookCost, solid: true})
		// What comes later is told as far as there is any.
		later = append(later, step{name: "Overhead", cents: p.Overhead, line: words.OverheadLine})
		for _, c := range later {
			c.name += " so far"
			out = laterStep(out, c)
		}
		return laterStep(out, step{name: "Part payments held", cents: p.Held, line: words.ReceiptsLine})
	}
	out = append(out, step{name: words.ReceiptsLine.Name(), cents: p.Receipts, line: words.ReceiptsLine, to: p.Receipts, solid: true})
	at = p.Receipts
	for _, c := range append(costs, later...) {
		c.from, c.to = at, at-c.cents
		at = c.to
		out = append(out, c)
	}
	out[1].name = "less: acquisition"
	return append(out, step{style: page.GrandTotal, name: words.Unbroken("Profit, after everything"), cents: *p.Profit, to: *p.Profit, solid: true},
		step{style: page.Quiet, name: words.OverheadLine.Name(), cents: p.Overhead, line: words.OverheadLine, from: *p.Profit, to: *p.Profit - p.Overhead},
		step{style: page.Quiet, name: "After overhead", cents: *p.ProfitAfterOverhead, to: *p.ProfitAfterOverhead})
}

// laterStep adds a line of what is no part of the book cost, where it is
// anything.
func laterStep(out []step, c step) []step {
	if c.cents == 0 {
		return out
	}
	c.style, c.to = page.Quiet, c.cents
	return append(out, c)
}

// moneyTable is the money column, what came in, what it cost, what is left,
// with each line's stretch of the build-up beside its amount.
func moneyTable(in *report.Input, p figures.Piece, mine []ledger.Posting) page.Block {
	from := map[words.Line][]fault.Place{}
	for _, x := range mine {
		if l, _ := words.LineOf(x); l != words.NoLine {
			from[l] = append(from[l], x.Source...)
		}
	}
	all := steps(p)
	var ends []float64
	for _, s := range all {
		ends = append(ends, float64(s.from), float64(s.to))
	}
	t := page.Table{Caption: "Money, and where it went", Columns: []page.Column{
		{Head: ""}, {Head: "Amount", Kind: page.KindMoney}, {Kind: page.KindDrawn, Weight: 1, Scale: page.ScaleOf(ends...)}, {Head: "From the records", Small: true}}}
	for i, s := range all {
		d := page.Drawn{Bar: &page.Interval{From: float64(s.from), To: float64(s.to)}, Pale: !s.solid}
		d.Joined = s.style == page.Normal && i+1 < len(all) && (all[i+1].style == page.Normal || p.Profit != nil || all[i+1].style == page.GrandTotal)
		t.Rows = append(t.Rows, page.Styled(s.style, page.Text(s.name), cells.Money(s.cents), page.Draw(d), page.Text(briefSources(from[s.line]))))
	}
	return t
}

// briefSources is sources where they are few; else where to look.
func briefSources(places []fault.Place) string {
	s := words.Sources(places)
	if len([]rune(s)) > 44 {
		return "told one by one below"
	}
	return s
}

// timeTable is the piece's hours by task, the most first, each with its bar.
func timeTable(in *report.Input, p figures.Piece) page.Block {
	byTask := hoursByTask(in, p)
	tasks := slices.Collect(maps.Keys(byTask))
	slices.SortFunc(tasks, func(a, b string) int {
		if c := byTask[b].Cmp(byTask[a]); c != 0 {
			return c
		}
		return strings.Compare(a, b)
	})
	scale := page.ScaleOf()
	for _, task := range tasks {
		hours, _ := byTask[task].Float64()
		scale = page.ScaleOf(scale.Lo, scale.Hi, hours)
	}
	t := page.Table{Caption: "Time", Columns: []page.Column{{Head: ""}, {Head: "Hours", Kind: page.KindNumber}, {Kind: page.KindDrawn, Weight: 1, Scale: scale}}}
	for _, task := range tasks {
		hours, _ := byTask[task].Float64()
		t.Rows = append(t.Rows, page.Line(page.Text(task), cells.Hours(byTask[task]), page.Draw(page.Drawn{Bar: &page.Interval{To: hours}, Pale: true})))
	}
	t.Rows = append(t.Rows, page.Styled(page.Total, page.Text("All hours"), cells.Number(money.OrZero(p.Hours), 2)))
	return t
}

// hoursByTask is the piece's exact hours of each task up to the period's end.
func hoursByTask(in *report.Input, p figures.Piece) map[string]*big.Rat {
	byTask := map[string]*big.Rat{}
	for i, h := range in.Books.Hours {
		if i >= len(in.HoursByPiece) || h.On.InMonth() > in.Month.To || in.HoursByPiece[i][p.Record.ID] == nil {
			continue
		}
		task := h.Task
		if task == "" {
			task = "no task named"
		}
		if byTask[task] == nil {
			byTask[task] = new(big.Rat)
		}
		byTask[task].Add(byTask[task], in.HoursByPiece[i][p.Record.ID])
	}
	return byTask
}

// recordsTable is every record but supplies behind the money column, line by
// line.
func recordsTable(in *report.Input, mine []ledger.Posting) []page.Block {
	t := page.Table{Caption: "The other records behind it", Columns: []page.Column{
		{Head: "Line"}, {Head: "Date", Kind: page.KindDate}, {Head: "What", Weight: 1, Small: true}, {Head: "Amount", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	for _, l := range words.PieceLines() {
		if l == words.SuppliesLine {
			continue
		}
		name := l.Name()
		for _, x := range mine {
			if at, cents := words.LineOf(x); at == l {
				t.Rows = append(t.Rows, page.Line(page.Text(name), page.Date(x.Date.String()), page.Text(words.What(x)), cells.Money(cents), page.Text(words.Sources(x.Source))))
				name = ""
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Whole = len(t.Rows) <= fewRecords
	return []page.Block{t}
}

// fewRecords is how many rows are kept on one page: three of them alone on a
// second would say nothing of what they are.
const fewRecords = 12
