package report

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// answer is what an owner asks a sheet first, and the sentence that takes the
// usual answer to the true one.
func (in *Input) answer(p figures.Piece) []page.Block {
	if p.Profit == nil {
		return in.unsold(p)
	}
	perHour := page.Answer{Figure: maybe(p.ProfitPerHour), Words: "per hour of work, over " + hoursWords(p.Hours)}
	if p.ProfitPerHour == nil {
		perHour.Words = "per hour: no hours are written down"
	}
	out := []page.Block{page.Answers{Items: []page.Answer{
		{Figure: maybe(p.Profit), Words: "after everything", Beside: []page.Beneath{{Label: "after its share of overhead", Figure: maybe(p.ProfitAfterOverhead)}}},
		perHour,
		{Figure: maybe(p.SoldLessBought), Words: "sold less bought, as most reckon it"},
	}}}
	out = append(out, page.Paragraph{Text: in.between(p)})
	if p.Status != "sold" {
		words := capital(p.Status) + ": it brought nothing more."
		if p.ReceivedWhenLost != 0 {
			words = fmt.Sprintf("%s: %s was received for it. That is other income, outside the profit above; together they make %s.",
				capital(p.Status), in.spoken(p.ReceivedWhenLost), in.spoken(*p.Profit+p.ReceivedWhenLost))
		}
		out = append(out, page.Paragraph{Text: words})
	}
	return out
}

// between says what stands between 'sold less bought' and 'after everything'.
func (in *Input) between(p figures.Piece) string {
	type cost struct {
		words string
		cents money.Cents
	}
	costs := []cost{{"parts", p.Parts}, {"outside work", p.OutsideWork}, {"supplies", p.Supplies}, {"selling costs", p.SellingCosts}, {"trips", p.Trips}}
	costs = slices.DeleteFunc(costs, func(c cost) bool { return c.cents == 0 })
	if len(costs) == 0 {
		return "Nothing stands between the two: no parts, work, supplies, selling costs or trips are written down for it."
	}
	slices.SortStableFunc(costs, func(a, b cost) int { return byAmount(a.cents, b.cents) })
	words := make([]string, len(costs))
	for i, c := range costs {
		words[i] = c.words + " " + in.spoken(c.cents)
	}
	return fmt.Sprintf("Between the two stand %s: %s.", in.spoken(*p.SoldLessBought-*p.Profit), listed(words))
}

// unsold is the answer for a piece that has no profit to tell.
func (in *Input) unsold(p figures.Piece) []page.Block {
	items := []page.Answer{
		{Figure: page.FullMoney(int64(p.BookCost)), Words: "book cost so far"},
		{Figure: page.Number(money.AtMost(orZero(p.Hours), 2)), Words: "hours so far"},
		{Figure: page.FullMoney(int64(p.Held)), Words: "part payments held"},
	}
	words := "It is not sold, so there is no profit to tell yet. To be worth its costs, it must bring more than " +
		in.spoken(p.BookCost+p.SellingCosts+p.Trips) + " after selling costs still to come."
	switch p.Status {
	case "kept", "donated":
		words = "It was " + p.Status + ", so it has no profit. Its book cost left the stock and is told apart in the month's statement."
	case "client":
		words = "It is a client's and still here, so there is no profit to tell yet."
	}
	return []page.Block{page.Answers{Items: items}, page.Paragraph{Text: words}}
}

// moneyTable is the money column: what came in, what it cost, what is left.
func (in *Input) moneyTable(p figures.Piece, mine []ledger.Posting) page.Block {
	from := map[line][]fault.Place{}
	for _, x := range mine {
		if l, _ := lineOf(x); l != noLine {
			from[l] = append(from[l], x.Source...)
		}
	}
	t := page.Table{Caption: "Money, and where it went", Columns: []page.Column{
		{Head: "", Weight: 1}, {Head: "Amount", Kind: page.KindMoney}, {Head: "From the records", Small: true, Weight: 2}}}
	row := func(style page.RowStyle, name string, c money.Cents, l line) {
		t.Rows = append(t.Rows, page.Styled(style, page.Text(name), cash(c), page.Text(briefSources(from[l]))))
	}
	sold := p.Profit != nil
	if sold {
		row(page.Normal, "Receipts", p.Receipts, receiptsLine)
	}
	for _, l := range []struct {
		line
		cents money.Cents
	}{{acquisitionLine, p.Acquisition}, {partsLine, p.Parts}, {outsideLine, p.OutsideWork}, {suppliesLine, p.Supplies}} {
		name := l.name()
		if sold && l.line == acquisitionLine {
			name = "less: acquisition"
		}
		row(page.Normal, name, l.cents, l.line)
	}
	if !sold {
		row(page.GrandTotal, "Book cost so far", p.BookCost, noLine)
		row(page.Quiet, "Selling costs so far", p.SellingCosts, sellingLine)
		row(page.Quiet, "Trips so far", p.Trips, tripsLine)
		row(page.Quiet, "Overhead, its share so far", p.Overhead, overheadLine)
		row(page.Quiet, "Part payments held", p.Held, receiptsLine)
		return t
	}
	row(page.Normal, sellingLine.name(), p.SellingCosts, sellingLine)
	row(page.Normal, tripsLine.name(), p.Trips, tripsLine)
	row(page.GrandTotal, "Profit, after everything", *p.Profit, noLine)
	row(page.Quiet, overheadLine.name(), p.Overhead, overheadLine)
	row(page.Quiet, "After overhead", *p.ProfitAfterOverhead, noLine)
	return t
}

// briefSources is sources where they are few; else where to look.
func briefSources(places []fault.Place) string {
	s := sources(places)
	if len([]rune(s)) > 60 {
		return "told one by one below"
	}
	return s
}

// timeTable is the piece's hours by task.
func (in *Input) timeTable(p figures.Piece) page.Block {
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
	t := page.Table{Caption: "Time", Columns: []page.Column{{Head: "", Weight: 1}, {Head: "Hours", Kind: page.KindNumber}}}
	tasks := make([]string, 0, len(byTask))
	for task := range byTask {
		tasks = append(tasks, task)
	}
	slices.SortFunc(tasks, func(a, b string) int {
		if c := byTask[b].Cmp(byTask[a]); c != 0 {
			return c
		}
		return strings.Compare(a, b)
	})
	for _, task := range tasks {
		t.Rows = append(t.Rows, page.Line(page.Text(task), hoursCell(byTask[task])))
	}
	t.Rows = append(t.Rows, page.Styled(page.Total, page.Text("All hours"), number(orZero(p.Hours), 2)))
	return t
}

// recordsTable is every record but supplies behind the money column, line by
// line.
func (in *Input) recordsTable(mine []ledger.Posting) []page.Block {
	t := page.Table{Caption: "The records behind it", Columns: []page.Column{
		{Head: "Date", Kind: page.KindDate}, {Head: "What", Weight: 3}, {Head: "Amount", Kind: page.KindMoney}, {Head: "Record", Small: true, Weight: 1}}}
	for l := receiptsLine; l <= receivedLine; l++ {
		if l == suppliesLine {
			continue
		}
		var rows []page.Row
		for _, x := range mine {
			if at, cents := lineOf(x); at == l {
				rows = append(rows, page.Line(page.Date(x.Date.String()), page.Text(what(x)), cash(cents), page.Text(sources(x.Source))))
			}
		}
		if len(rows) > 0 {
			t.Rows = append(t.Rows, page.Styled(page.Group, page.Text(l.name())))
			t.Rows = append(t.Rows, rows...)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}
