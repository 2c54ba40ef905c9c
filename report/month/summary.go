package month

import (
	"cmp"
	"fmt"
	"math/big"
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

// summary is a month in the figures of page 1. Clients' pieces count in its
// money, not among the pieces.
type summary struct {
	receipts money.Cents // net of refunds, with other income
	costs    money.Cents // of pieces sold and of the month
	net      money.Cents
	tiedUp   money.Cents // pieces at book cost and the shelf
	sold     int
	timed    int          // of these, how many have hours written down
	after    money.Cents  // the timed ones' profit after shop costs
	hours    *big.Rat     // the timed ones'
	anHour   *money.Cents // after ÷ hours, half-even; nil without hours

	of opens
}

// opens is what each figure of a summary is made of.
type opens struct{ receipts, costs, net, tiedUp, after, anHour page.Ref }

// summaryOf sums up one month's figures.
func summaryOf(in *report.Input, f figures.Figures) summary {
	st := f.Statement
	s := summary{receipts: st.NetReceipts + st.OtherIncome, net: st.NetProfit, tiedUp: f.Stock.Closing,
		hours: new(big.Rat)}
	s.costs = s.receipts - s.net
	after := &report.Worked{Title: "Profit after shop costs of the pieces sold in " + f.To.Name()}
	for _, p := range soldIn(f) {
		s.sold++
		if p.ProfitAfterOverhead == nil || p.Hours == nil || p.Hours.Sign() == 0 {
			continue
		}
		s.timed++
		s.after += *p.ProfitAfterOverhead
		after.Terms = append(after.Terms, report.Term{Label: p.Record.ID + ", " + p.Record.Kind,
			Cents: *p.ProfitAfterOverhead, Of: asOf(in, f, p.Record.ID), Link: report.SheetAnchor(p.Record.ID)})
		s.hours.Add(s.hours, p.Hours)
	}
	if s.hours.Sign() > 0 {
		rate := money.Round(new(big.Rat).Quo(s.after.Rat(), s.hours))
		s.anHour = &rate
	}
	for _, l := range f.Shelf {
		s.tiedUp += l.Closing
	}
	s.of = opensOf(in, f, s, after)
	return s
}

// opensOf is what the figures of a month's summary are made of.
func opensOf(in *report.Input, f figures.Figures, s summary, after *report.Worked) opens {
	line := func(id figures.ID, label string) report.Term {
		return report.Term{Label: label, Cents: f.Statement.Amount(id), Of: ofStatement(f, id)}
	}
	held := tiedUpOf(in, f)
	out := opens{net: ofStatement(f, figures.LineNetProfit), tiedUp: held, after: after,
		receipts: &report.Worked{Title: "Receipts and other income of " + f.To.Name(), Terms: []report.Term{
			line(figures.LineNetReceipts, words.Label(figures.OfStatement, figures.LineNetReceipts)),
			line(figures.LineOtherIncome, words.Label(figures.OfStatement, figures.LineOtherIncome))}},
		costs: &report.Worked{Title: "Costs of " + f.To.Name(), Terms: []report.Term{
			line(figures.LineCostOfSales, "Cost of the pieces sold"), line(figures.LineAllCosts, "All other costs")}}}
	if f.Statement.OtherIncome == 0 {
		out.receipts = ofStatement(f, figures.LineNetReceipts)
	}
	if s.anHour != nil {
		out.anHour = hourOf("An hour after shop costs, "+f.To.Name(), s.after, s.hours, *s.anHour, after)
	}
	return out
}

// tiedUpOf is what is tied up at a month's end, piece by piece and supply by
// supply. That of the month before is what this month opened with.
func tiedUpOf(in *report.Input, f figures.Figures) page.Ref {
	end := f.To.Name()
	shelf := &report.Worked{Title: "The shelf at the end of " + end}
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
	return &report.Worked{Title: "Tied up in pieces and shelf at the end of " + end, Terms: []report.Term{
		{Label: "Pieces at book cost", Cents: f.Stock.Closing, Of: ofStock(period, id)},
		{Label: "The shelf", Cents: shelf.Total(), Of: shelf}}}
}

// asOf is a piece's profit after shop costs as a month has it.
func asOf(in *report.Input, f figures.Figures, piece string) page.Ref {
	of := report.Sum{Of: figures.OfPiece, ID: figures.LineAfterOverhead, Subject: piece, To: f.To}
	if f.To != in.Month.To {
		return report.Brief{Sum: of}
	}
	return of
}

// hourOf is an hour's profit: the profit, divided by the hours.
func hourOf(title string, after money.Cents, hours *big.Rat, rate money.Cents, of *report.Worked) *report.Worked {
	return &report.Worked{Title: title, Cents: rate, Words: fmt.Sprintf("%s ÷ %s hours = %s.", after.Grouped(),
		money.AtMost(hours, 4),
		rate.Grouped()), Terms: []report.Term{{Label: words.AfterShopCosts, Cents: after, Of: of}}}
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
	text := page.Say("In "+in.Month.To.Name()+" the shop "+sold+" and made a "+words.NetName(s.net)+" of %s",
		in.Said(s.net.Abs(), s.of.net))
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
	if s.anHour == nil || wanted <= 0 {
		return nil
	}
	text := page.Say("An hour on the pieces sold came to %s after shop costs, ", in.Said(*s.anHour, s.of.anHour))
	short := wanted - *s.anHour
	from := &report.Worked{Title: "An hour after shop costs beside the wanted hour", Terms: []report.Term{
		{Label: "Wanted an hour", Cents: wanted, Of: in.WantedOf()},
		{Label: "less: an hour after shop costs", Cents: -*s.anHour, Of: s.of.anHour}}}
	far := in.Said(short.Abs(), from)
	switch {
	case short > 0:
		return append(text, page.Say("%s short of the %s wanted.", far, in.Said(wanted, in.WantedOf()))...)
	case short < 0:
		return append(text, page.Say("%s over the %s wanted.", far, in.Said(wanted, in.WantedOf()))...)
	}
	return append(text, page.Text("just what is wanted."))
}

// against is how the month's result differs from the month before's, and why.
func against(in *report.Input, s summary) page.Sentence {
	if in.Before == nil {
		return nil
	}
	more, less := "more", "less"
	if s.net < 0 {
		more, less = "better", "worse" // a loss that is less could be either
	}
	before := in.Before.To.Of().String()
	d := s.net - in.Before.Statement.NetProfit
	from := twoMonths(in, words.NetProfit, figures.LineNetProfit)
	switch {
	case d > 0:
		return append(page.Say(", %s "+more+" than in "+before, in.Said(d, from)), cause(in, d, from)...)
	case d < 0:
		return append(page.Say(", %s "+less+" than in "+before, in.Said(-d, from)), cause(in, d, from)...)
	}
	return page.Say(", the same as in " + before)
}

// twoMonths is a line of the statement less what it was in the month before.
func twoMonths(in *report.Input, name string, id figures.ID) *report.Worked {
	return &report.Worked{Title: name + " against " + in.Before.To.Name(), Terms: []report.Term{
		{Label: in.Month.To.Name(), Cents: in.Month.Statement.Amount(id), Of: ofStatement(in.Month, id)},
		{Label: "less: " + in.Before.To.Name(), Cents: -in.Before.Statement.Amount(id), Of: ofStatement(*in.Before, id)}}}
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
	gross := in.Month.Statement.GrossProfit - in.Before.Statement.GrossProfit
	most := move{"receipts less the cost of the pieces sold", gross, gross,
		twoMonths(in, "Receipts less the cost of the pieces sold", figures.LineGrossProfit)}
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
		back := &report.Worked{Title: "What the other lines together took back", Terms: []report.Term{
			{Label: words.Capital(most.name), Cents: most.net, Of: most.of},
			{Label: "less: the change of net profit", Cents: -d, Of: from}}}
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
		k.amount(now, "", receipts, func(s summary) (*money.Cents, page.Ref) { return &s.receipts, s.of.receipts }),
		k.amount(now, page.Minus, "costs", func(s summary) (*money.Cents, page.Ref) { return &s.costs, s.of.costs }),
		k.amount(now, page.Equals, words.NetName(now.net),
			func(s summary) (*money.Cents, page.Ref) { return &s.net, s.of.net }),
		k.amount(now, "", "tied up in pieces and shelf",
			func(s summary) (*money.Cents, page.Ref) { return &s.tiedUp, s.of.tiedUp }),
	}}}, holding(in)...)
	if now.anHour == nil {
		return out
	}
	of := "hours on " + words.Plural(now.sold, "piece", "pieces") + " sold"
	if now.timed < now.sold {
		of = fmt.Sprintf("hours on %d of %d pieces sold", now.timed, now.sold)
	}
	wanted := page.KeyFigure{Figure: cells.Money(in.Settings().TargetHourly).Opens(in.WantedOf()), Words: "wanted an hour"}
	items := []page.KeyFigure{
		k.amount(now, "", "profit after shop costs", func(s summary) (*money.Cents, page.Ref) {
			if s.timed == 0 {
				return nil, nil
			}
			return &s.after, s.of.after
		}),
		page.KeyFigure{By: page.DividedBy, Figure: page.Number(hoursThatDivide(now)), Words: of},
		k.amount(now, page.Equals, "an hour after shop costs",
			func(s summary) (*money.Cents, page.Ref) { return s.anHour, s.of.anHour }),
	}
	if in.Settings().TargetHourly > 0 {
		items = append(items, wanted)
	}
	return append(out, page.KeyFigures{Items: items, Across: 4})
}

// hoursThatDivide are hours with as many decimals, two to four, as a
// calculator needs to come to the rate printed beside them.
func hoursThatDivide(s summary) string {
	for decimals := 2; decimals < 4; decimals++ {
		text := money.AtMost(s.hours, decimals)
		shown, ok := new(big.Rat).SetString(text)
		if ok && shown.Sign() > 0 && money.Round(shown.Quo(s.after.Rat(), shown)) == *s.anHour {
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

func (k comparing) amount(now summary, by page.Operator, text string,
	get func(summary) (*money.Cents, page.Ref)) page.KeyFigure {
	cell := func(s summary) page.Cell {
		c, of := get(s)
		return cells.Optional(c).Opens(of)
	}
	out := page.KeyFigure{Figure: cell(now), Words: text, By: by}
	if k.before != nil {
		out.Small = append(out.Small, page.SubFigure{Label: k.in.Before.To.Of().String(),
			Figure: cell(*k.before)})
	}
	var of []money.Cents
	usually, months := &report.Worked{Title: "Median of " + text}, k.in.MonthsBefore()
	for i, s := range k.earlier {
		if v, ref := get(s); v != nil {
			of = append(of, *v)
			usually.Terms = append(usually.Terms, report.Term{Label: months[i].To.Name(), Cents: *v, Of: ref})
		}
	}
	if usual, ok := money.Median(of); ok && len(of) >= report.UsualOf {
		medianWords(usually)
		usually.Cents = usual
		out.Small = append(out.Small, page.SubFigure{Label: "usual",
			Figure: cells.Optional(&usual).Opens(usually)})
	}
	return out
}

// medianWords puts months in the order of their amounts and says how the median
// is found.
func medianWords(w *report.Worked) {
	slices.SortStableFunc(w.Terms, func(a, b report.Term) int { return cmp.Compare(a.Cents, b.Cents) })
	w.Words = "The middle one of these amounts; of an even number half the sum of the two in the middle."
}

// Answer is the month in one line, for a terminal: February 2026: net profit
// $889.48, 7 sold, $12.54 an hour after shop costs.
func Answer(in report.Input) string {
	s := summaryOf(&in, in.Month)
	text := fmt.Sprintf("%s: %s %s, %d sold", in.Month.To.Name(), words.NetName(s.net), in.Spoken(s.net.Abs()), s.sold)
	if s.anHour != nil {
		text += fmt.Sprintf(", %s an hour after shop costs", in.Spoken(*s.anHour))
	}
	return text
}

// day is a day as the month's pages have it.
func day(in *report.Input, d calendar.Date) page.Cell { return page.Date(in.Day(d)) }
