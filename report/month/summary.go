package month

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// summary is a month in the figures of page 1. Clients' pieces count in its
// money, not among the pieces.
type summary struct {
	receipts figure // net of refunds, with other income
	costs    figure // of pieces sold and of the month
	net      figure
	tiedUp   figure // pieces at book cost and the shelf
	sold     int
	timed    int      // of these, how many have hours written down
	after    figure   // the timed ones' profit after shop costs; none without any
	hours    *big.Rat // the timed ones'
	anHour   figure   // after ÷ hours, half-even; none without hours
}

// figure is an amount and what it is made of, which is nil where there is none.
type figure struct {
	money.Cents
	of page.Ref
}

// workedOut is a figure that is worked out of others.
func workedOut(w *report.Worked) figure { return figure{w.Total(), w} }

// cell is the figure as a cell, empty where there is none.
func (f figure) cell() page.Cell {
	if f.of == nil {
		return page.Empty()
	}
	return cells.Full(f.Cents).Opens(f.of)
}

// summaryOf sums up one month's figures.
func summaryOf(in *report.Input, f figures.Figures) summary {
	month := f.To.Name()
	sum := func(title string, first, second figures.ID, names ...string) figure {
		w := report.SumOf(title + " of " + month)
		for i, id := range []figures.ID{first, second} {
			w.Plus(names[i], f.Statement.Amount(id), ofStatement(f, id))
		}
		return workedOut(w)
	}
	line := func(id figures.ID) figure { return figure{f.Statement.Amount(id), ofStatement(f, id)} }
	s := summary{receipts: line(figures.LineNetReceipts), net: line(figures.LineNetProfit), tiedUp: tiedUpOf(in, f),
		costs: sum("Costs", figures.LineCostOfSales, figures.LineAllCosts, "Cost of the pieces sold", "All other costs"),
		hours: new(big.Rat)}
	if f.Statement.OtherIncome != 0 {
		s.receipts = sum("Receipts and other income", figures.LineNetReceipts, figures.LineOtherIncome,
			words.Label(figures.OfStatement, figures.LineNetReceipts), words.Label(figures.OfStatement, figures.LineOtherIncome))
	}
	after := report.SumOf("Profit after shop costs of the pieces sold in " + month)
	for _, p := range soldIn(f) {
		s.sold++
		if p.ProfitAfterOverhead == nil || p.Hours == nil || p.Hours.Sign() == 0 {
			continue
		}
		s.timed++
		x := report.TermOfPiece(p, *p.ProfitAfterOverhead, asOf(in, f, p.Record.ID))
		x.Label += ", " + p.Record.Kind
		after.Terms = append(after.Terms, x)
		s.hours.Add(s.hours, p.Hours)
	}
	if s.timed > 0 {
		s.after = workedOut(after)
	}
	if s.hours.Sign() > 0 {
		s.anHour = workedOut(hourOf("An hour after shop costs, "+month, s.hours, after))
	}
	return s
}

// tiedUpOf is what is tied up at a month's end, piece by piece and supply by
// supply. That of the month before is what this month opened with.
func tiedUpOf(in *report.Input, f figures.Figures) figure {
	end := f.To.Name()
	shelf := report.SumOf("The shelf at the end of " + end)
	period, id := f, figures.LineClosing
	if f.To == in.Month.From-1 {
		period, id = in.Month, figures.LineOpening
	}
	for _, l := range f.Shelf {
		if l.Closing == 0 {
			continue
		}
		of := report.Sum{Of: figures.OfShelf, ID: id, Subject: l.Supply.Name, From: period.From, To: period.To}
		x := report.Term{Label: l.Supply.Name, Cents: l.Closing, Of: of, Link: report.SupplyAnchor(l.Supply.Name)}
		if period.To < in.Month.To {
			x.Of = report.Brief{Sum: of}
		}
		shelf.Terms = append(shelf.Terms, x)
	}
	return workedOut(report.SumOf("Tied up in pieces and shelf at the end of "+end).
		Plus("Pieces at book cost", f.Stock.Closing, ofStock(period, id)).Plus("The shelf", shelf.Total(), shelf))
}

// asOf is a piece's profit after shop costs as a month has it.
func asOf(in *report.Input, f figures.Figures, piece string) page.Ref {
	of := report.Sum{Of: figures.OfPiece, ID: figures.LineAfterOverhead, Subject: piece, To: f.To}
	if f.To != in.Month.To {
		return report.Brief{Sum: of}
	}
	return of
}

// hourOf is an hour's profit: the profit, divided by the hours, half-even.
func hourOf(title string, hours *big.Rat, profit *report.Worked) *report.Worked {
	rate := money.Round(new(big.Rat).Quo(profit.Total().Rat(), hours))
	return report.InWords(title, fmt.Sprintf("%s ÷ %s hours = %s.", profit.Total().Grouped(), money.AtMost(hours, 4),
		rate.Grouped()), rate).Plus(words.AfterShopCosts, profit.Total(), profit)
}

// The names of lines of a period's statement and roll-forwards.
func ofStatement(f figures.Figures, id figures.ID) report.Sum {
	return report.Sum{Of: figures.OfStatement, ID: id, From: f.From, To: f.To}
}

func ofStock(f figures.Figures, id figures.ID) report.Sum {
	return report.Sum{Of: figures.OfStock, ID: id, From: f.From, To: f.To}
}

// soldIn are the shop's own pieces sold in a period, by day.
func soldIn(f figures.Figures) []figures.Piece {
	within := report.Input{Month: f}
	return within.Chosen(func(p figures.Piece) bool {
		return within.SoldIn(p) && p.Record.How != ledger.Client && p.Profit != nil
	}, report.BySale)
}

// sentence says the month in words, with what made it differ from the one
// before.
func sentence(in *report.Input, s summary) page.Sentence {
	sold := "sold no piece"
	if s.sold > 0 {
		sold = "sold " + words.Plural(s.sold, "piece", "pieces")
	}
	text := page.Say("In "+in.Month.To.Name()+" the shop "+sold+" and made a "+words.NetName(s.net.Cents)+" of %s",
		in.Said(s.net.Abs(), s.net.of))
	text = append(append(text, against(in, s)...), page.Text("."))
	text = text.And(towardsWanted(in, s))
	if in.Year.From < in.Month.From {
		year := in.Year.Statement.NetProfit
		text = text.And(page.Say("So far this year the "+words.NetName(year)+" is %s.",
			in.Said(year.Abs(), ofStatement(in.Year, figures.LineNetProfit))))
	}
	return text
}

// towardsWanted says what an hour on the pieces sold came to beside what is wanted.
func towardsWanted(in *report.Input, s summary) page.Sentence {
	wanted := in.Settings().TargetHourly
	if s.anHour.of == nil || wanted <= 0 {
		return nil
	}
	text := page.Say("An hour on the pieces sold came to %s after shop costs, ", in.Said(s.anHour.Cents, s.anHour.of))
	from := report.SumOf("An hour after shop costs beside the wanted hour").Plus("Wanted an hour", wanted, in.WantedOf()).
		Less("an hour after shop costs", s.anHour.Cents, s.anHour.of)
	way := "short of"
	switch short := from.Total(); {
	case short == 0:
		return append(text, page.Text("just what is wanted."))
	case short < 0:
		way = "over"
	}
	return append(text, page.Say("%s "+way+" the %s wanted.", in.Said(from.Total().Abs(), from),
		in.Said(wanted, in.WantedOf()))...)
}

// against is how the month's result differs from the month before's, and why.
func against(in *report.Input, s summary) page.Sentence {
	if in.Before == nil {
		return nil
	}
	more, less := "more", "less"
	if s.net.Cents < 0 {
		more, less = "better", "worse" // a loss that is less could be either
	}
	before := in.Before.To.Of().String()
	from := twoMonths(in, words.NetProfit, figures.LineNetProfit)
	d := from.Total()
	switch {
	case d == 0:
		return page.Say(", the same as in " + before)
	case d < 0:
		more = less
	}
	return append(page.Say(", %s "+more+" than in "+before, in.Said(d.Abs(), from)), cause(in, d, from)...)
}

// twoMonths is a line of the statement less what it was in the month before.
func twoMonths(in *report.Input, name string, id figures.ID) *report.Worked {
	return report.SumOf(name+" against "+in.Before.To.Name()).Plus(in.Month.To.Name(), in.Month.Statement.Amount(id),
		ofStatement(in.Month, id)).Less(in.Before.To.Name(), in.Before.Statement.Amount(id), ofStatement(*in.Before, id))
}

// move is how a line moved against the month before, and what that did to net
// profit.
type move struct {
	name    string
	by, net money.Cents
	of      *report.Worked
}

// cause names the line that moved net profit most the way it went; blank where
// none did. What the pieces sold bring and what they cost move together and
// are one line here. from is what the change of net profit is made of.
func cause(in *report.Input, d money.Cents, from *report.Worked) page.Sentence {
	gross := twoMonths(in, "Receipts less the cost of the pieces sold", figures.LineGrossProfit)
	most := move{"receipts less the cost of the pieces sold", gross.Total(), gross.Total(), gross}
	for _, c := range changes(in, in.Before.To, in.Month.To) {
		if figures.InSum(figures.OfStatement, figures.LineGrossProfit, c.ID) {
			continue
		}
		// A cost that rises takes away.
		m := move{words.Uncapital(c.line), money.Cents(c.Sign) * c.total, c.total, changeOf(in, c)}
		if towards(m.net, d) > towards(most.net, d) {
			most = m
		}
	}
	if towards(most.net, d) <= 0 {
		return nil
	}
	how, part := "rose", "mostly"
	if most.by < 0 {
		how = "fell"
	}
	if 2*most.net.Abs() < d.Abs() {
		part = "in part"
	}
	by := in.Said(most.by.Abs(), most.of)
	if rest := towards(most.net, d) - d.Abs(); rest > 0 {
		back := report.SumOf("What the other lines together took back").
			Plus(words.Capital(most.name), most.net, most.of).Less("the change of net profit", d, from)
		return append(page.Sentence{page.Text(": " + most.name + " " + how + " by ")},
			page.Say("%s; the other lines together took back %s", by, in.Said(rest, back))...)
	}
	return page.Sentence{page.Text(", " + part + " because " + most.name + " " + how + " by "), by}
}

// towards is how far a move goes the way of another.
func towards(c, d money.Cents) money.Cents {
	if d < 0 {
		return -c
	}
	return c
}

// keyFigures are the month's large figures in two rows: net profit out of what
// came in and what it cost, with what these two hold, and what an hour on the
// pieces sold came to.
func keyFigures(in *report.Input, now summary) []page.Block {
	k := comparing{in: in}
	for _, f := range in.MonthsBefore() {
		k.earlier = append(k.earlier, summaryOf(in, f))
	}
	if in.Before != nil {
		before := summaryOf(in, *in.Before)
		k.before = &before
	}
	receipts := "receipts"
	if in.Month.Statement.OtherIncome != 0 {
		receipts = "receipts and other income"
	}
	out := append([]page.Block{page.KeyFigures{Across: 4, Items: []page.KeyFigure{
		k.amount(now, "", receipts, func(s summary) figure { return s.receipts }),
		k.amount(now, page.Minus, "costs", func(s summary) figure { return s.costs }),
		k.amount(now, page.Equals, words.NetName(now.net.Cents), func(s summary) figure { return s.net }),
		k.amount(now, "", "tied up in pieces and shelf", func(s summary) figure { return s.tiedUp }),
	}}}, holding(in)...)
	if now.anHour.of == nil {
		return out
	}
	of := "hours on " + words.Plural(now.sold, "piece", "pieces") + " sold"
	if now.timed < now.sold {
		of = fmt.Sprintf("hours on %d of %d pieces sold", now.timed, now.sold)
	}
	items := []page.KeyFigure{
		k.amount(now, "", "profit after shop costs", func(s summary) figure { return s.after }),
		{By: page.DividedBy, Figure: page.Number(hoursThatDivide(now)).Opens(hoursOf(in, of)), Words: of},
		k.amount(now, page.Equals, "an hour after shop costs", func(s summary) figure { return s.anHour }),
	}
	if wanted := in.Settings().TargetHourly; wanted > 0 {
		items = append(items, page.KeyFigure{Figure: cells.Money(wanted).Opens(in.WantedOf()), Words: "wanted an hour"})
	}
	return append(out, page.KeyFigures{Items: items, Across: 4})
}

// hoursOf is the hours on the pieces sold, piece by piece.
func hoursOf(in *report.Input, title string) *report.Worked {
	var parts []string
	sum := new(big.Rat)
	for _, p := range soldIn(in.Month) {
		if p.ProfitPerHourAfterOverhead != nil {
			parts = append(parts, p.Record.ID+" "+money.AtMost(p.Hours, 4))
			sum.Add(sum, p.Hours)
		}
	}
	return report.InWords(words.Capital(title), strings.Join(parts, " + ")+" = "+money.AtMost(sum, 4)+" hours.", 0)
}

// hoursThatDivide are hours with as many decimals, two to four, as a
// calculator needs to come to the rate printed beside them.
func hoursThatDivide(s summary) string {
	for decimals := 2; decimals < 4; decimals++ {
		text := money.AtMost(s.hours, decimals)
		shown, ok := new(big.Rat).SetString(text)
		if ok && shown.Sign() > 0 && money.Round(shown.Quo(s.after.Rat(), shown)) == s.anHour.Cents {
			return text
		}
	}
	return money.AtMost(s.hours, 4)
}

// comparing puts the month before and the usual under a figure.
type comparing struct {
	in      *report.Input
	before  *summary
	earlier []summary
}

func (k comparing) amount(now summary, by page.Operator, text string, get func(summary) figure) page.KeyFigure {
	out := page.KeyFigure{Figure: get(now).cell(), Words: text, By: by}
	if k.before != nil {
		out.Small = append(out.Small, page.SubFigure{Label: k.in.Before.To.Of().String(), Figure: get(*k.before).cell()})
	}
	usually, months := report.SumOf("Median of "+text), k.in.MonthsBefore()
	for i, s := range k.earlier {
		if x := get(s); x.of != nil {
			usually.Plus(months[i].To.Name(), x.Cents, x.of)
		}
	}
	if len(usually.Terms) >= report.UsualOf {
		out.Small = append(out.Small, page.SubFigure{Label: "usual",
			Figure: cells.Full(median(usually).Cents).Opens(usually)})
	}
	return out
}

// median makes months' amounts into their median: it puts them in the order of
// their amounts and says how it is found.
func median(w *report.Worked) *report.Worked {
	slices.SortStableFunc(w.Terms, func(a, b report.Term) int { return cmp.Compare(a.Cents, b.Cents) })
	var of []money.Cents
	for _, x := range w.Terms {
		of = append(of, x.Cents)
	}
	w.Cents, _ = money.Median(of)
	w.Words = "The middle one of these amounts; of an even number half the sum of the two in the middle."
	return w
}

// Answer is the month in one line, for a terminal: February 2026: net profit
// $889.48, 7 sold, $12.54 an hour after shop costs.
func Answer(in report.Input) string {
	s := summaryOf(&in, in.Month)
	text := fmt.Sprintf("%s: %s %s, %d sold", in.Month.To.Name(), words.NetName(s.net.Cents), in.Spoken(s.net.Abs()),
		s.sold)
	if s.anHour.of != nil {
		text += fmt.Sprintf(", %s an hour after shop costs", in.Spoken(s.anHour.Cents))
	}
	return text
}

// day is a day as the month's pages have it.
func day(in *report.Input, d calendar.Date) page.Cell { return page.Date(in.Day(d)) }
