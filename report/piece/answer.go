package piece

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// answer is what an owner asks a sheet first: both profits and the hour of
// each, and under them the usual quick figure with what lies between; and more.
func answer(in *report.Input, p figures.Piece, more page.Sentence) []page.Block {
	if p.Profit == nil {
		return unsold(in, p, more)
	}
	var out []page.Block
	if text := verdict(in, p); len(text) > 0 {
		out = append(out, page.Says(page.Lead, text))
	}
	out = append(out, page.KeyFigures{Items: profits(in, p)})
	if p.Status != "sold" {
		text := page.Say(words.Capital(p.Status) + ": it brought nothing more.")
		if got := p.ReceivedWhenLost; got != 0 {
			of := in.LineOfPiece(p.Record.ID, figures.LineReceived)
			with := own(p, "Profit before shop costs with what was received").Plus(words.BeforeShopCosts, *p.Profit,
				in.LineOfPiece(p.Record.ID, figures.LineProfit)).Plus("Received", got, of)
			text = page.Say(words.Capital(p.Status)+": %s was received for it. That is other income, outside the profits "+
				"above; with it the profit before shop costs is %s.", in.Said(got, of), in.Said(with.Total(), with))
		}
		out = append(out, page.Says(page.Body, text))
	}
	return append(out, page.Says(page.Note, quickFigure(in, p).And(more)))
}

// own is a figure of a piece that adds up others.
func own(p figures.Piece, title string) *report.Worked {
	return &report.Worked{Title: title, Piece: p.Record.ID}
}

// verdict says of a piece that was sold whether its work was paid at the wanted
// rate, and what was lacking; blank where no rate is wanted or no hours are
// written down.
func verdict(in *report.Input, p figures.Piece) page.Sentence {
	target, rate := in.Settings().TargetHourly, p.ProfitPerHourAfterOverhead
	if p.Status != "sold" || rate == nil || target <= 0 {
		return nil
	}
	after, short := *p.ProfitAfterOverhead, wanted(in, p)-*p.ProfitAfterOverhead
	left := in.LineOfPiece(p.Record.ID, figures.LineAfterOverhead)
	paid := page.Spoken(in.Spoken(*rate), int64(*rate)).Opens(report.RateAfter(p))
	switch {
	case after == 0:
		return page.Say("It paid nothing for its work: after shop costs nothing was left.")
	case after < 0:
		return page.Say("It paid nothing for its work: after shop costs it lost %s.", in.Said(-after, left))
	case short > 0:
		lacking := own(p, "Short of the wanted rate").Plus("Work at the wanted rate", wanted(in, p), wantedOf(in, p)).
			Plus(words.AfterShopCosts, -after, left)
		return page.Say("It paid %s an hour after shop costs, %s wanted: %s short in all.", paid,
			in.Said(target, in.WantedOf()), in.Said(short, lacking))
	}
	return page.Say("It paid %s an hour after shop costs; %s was wanted.", paid, in.Said(target, in.WantedOf()))
}

// shopCosts says what a piece's shop costs are; blank where it has none.
func shopCosts(in *report.Input, p figures.Piece) page.Sentence {
	if p.Overhead == 0 {
		return nil
	}
	by := cmp.Or(in.Settings().OverheadBy, "hours")
	text := page.Say("Its shop costs %s are its part, by "+by+", of rent, insurance and the like in the months of its "+
		"work", cells.Bare(p.Overhead, in.LineOfPiece(p.Record.ID, figures.LineOverhead)))
	if by == "hours" && p.Hours != nil && p.Hours.Sign() > 0 {
		rate := perHour(p, "Shop costs an hour", p.Overhead)
		text = append(text, page.Say(": %s an hour", cells.Bare(rate.Cents, rate))...)
	}
	return append(text, page.Text("."))
}

// perHour is an amount of a piece divided by its hours, rounded half to even.
func perHour(p figures.Piece, title string, c money.Cents) *report.Worked {
	rate, out := money.Round(new(big.Rat).Quo(c.Rat(), p.Hours)), own(p, title)
	out.Cents, out.Words = rate, fmt.Sprintf("%s ÷ %s %s = %s.", c.Grouped(), money.AtMost(p.Hours, 4), hourWord(p),
		rate.Grouped())
	return out
}

// profits are the two profits and the hour of each, in one size, with how each
// follows from the one beside it.
func profits(in *report.Input, p figures.Piece) []page.KeyFigure {
	small := func(label, text string) page.SubFigure {
		return page.SubFigure{Label: label, Figure: page.Number(text)}
	}
	profit, afterAll := in.LineCell(p, figures.LineProfit), in.LineCell(p, figures.LineAfterOverhead)
	overhead := cells.Full(p.Overhead).Opens(in.LineOfPiece(p.Record.ID, figures.LineOverhead))
	before := page.KeyFigure{Figure: profit, Words: "profit before shop costs", Small: []page.SubFigure{
		small("margin", words.Percent(p.Margin)), small("return on book cost", words.Percent(p.ReturnOnCost))}}
	after := page.KeyFigure{Figure: afterAll, Words: "profit after shop costs",
		From: []page.Term{{Figure: profit}, {By: page.Minus, Figure: overhead, Words: "shop costs"}}}
	if p.DaysHeld != nil {
		after.Small = []page.SubFigure{small("held", words.Plural(*p.DaysHeld, "day", "days"))}
	}
	if p.ProfitPerHour == nil {
		before.Small = append(before.Small, small("an hour", "no hours written"))
		return []page.KeyFigure{before, after}
	}
	hours := page.Term{By: page.DividedBy, Figure: page.Number(money.AtMost(p.Hours, 4)), Words: hourWord(p)}
	rate := cells.Optional(p.ProfitPerHour).Opens(report.Rate{Piece: p.Record.ID, Name: "profit_per_hour"})
	hourBefore := page.KeyFigure{Figure: rate, Words: "an hour before shop costs",
		From: []page.Term{{Figure: profit}, hours}}
	hourAfter := page.KeyFigure{Figure: report.HourAfter(p), Words: "an hour after shop costs",
		From: []page.Term{{Figure: afterAll}, hours}}
	if target := in.Settings().TargetHourly; target > 0 {
		hourAfter.Small = []page.SubFigure{{Label: "wanted", Figure: cells.Money(target).Opens(in.WantedOf())}}
	}
	return []page.KeyFigure{before, after, hourBefore, hourAfter}
}

// quickFigure leads from 'sold less bought' to the profit before shop costs,
// the largest step first.
func quickFigure(in *report.Input, p figures.Piece) page.Sentence {
	costs := slices.DeleteFunc([]figures.ID{figures.LineParts, figures.LineOutsideWork, figures.LineSupplies,
		figures.LineSellingCosts, figures.LineTrips}, func(id figures.ID) bool { return p.Amount(id) == 0 })
	slices.SortStableFunc(costs, func(a, b figures.ID) int { return money.LargestFirst(p.Amount(a), p.Amount(b)) })
	start := words.SoldLessBought
	if len(costs) > 0 {
		start += ", no profit yet:"
	}
	text := page.Say(start+" %s", in.SaidLine(p, figures.LineSoldLess))
	for _, id := range costs {
		sign := " − "
		if p.Amount(id) < 0 {
			sign = " + "
		}
		text = append(text, page.Text(sign+words.Uncapital(label(id))+" "),
			cells.Bare(p.Amount(id).Abs(), in.LineOfPiece(p.Record.ID, id)))
	}
	return append(text, page.Say(" = %s before shop costs.", in.SaidLine(p, figures.LineProfit))...)
}

// unsold is the answer for a piece that has no profit to tell: what it must
// bring, or of one kept or given away what it cost.
func unsold(in *report.Input, p figures.Piece, more page.Sentence) []page.Block {
	key := func(c money.Cents, of page.Ref, words string) page.KeyFigure {
		return page.KeyFigure{Figure: cells.Full(c).Opens(of), Words: words}
	}
	costs := costsSoFar(in, p)
	cost := key(costs.Total(), costs, "its costs so far")
	shop := key(p.Overhead, in.LineOfPiece(p.Record.ID, figures.LineOverhead), "its shop costs so far")
	if p.Status == "kept" || p.Status == "donated" {
		hours := page.KeyFigure{Figure: page.Number(money.AtMost(money.OrZero(p.Hours), 2)), Words: "hours of work"}
		return []page.Block{page.KeyFigures{Items: []page.KeyFigure{cost, shop, hours}},
			page.Says(page.Body, page.Say("It was "+p.Status+", so it has no profit. Its book cost left the stock and stands "+
				"apart in the month's statement.").And(more))}
	}
	of := mustBring(in, p)
	must := key(of.Total(), of, "it must bring, after selling costs")
	must.From = []page.Term{{Figure: cost.Figure}, {By: page.Plus, Figure: shop.Figure}}
	items := []page.KeyFigure{must, cost, shop}
	if wage := wanted(in, p); wage > 0 {
		work := key(wage, wantedOf(in, p), "its work at the wanted rate")
		items[0].From = append(items[0].From, page.Term{By: page.Plus, Figure: work.Figure})
		work.From = []page.Term{{Figure: page.Number(money.AtMost(p.Hours, 4)), Words: hourWord(p)},
			{By: page.Times, Figure: cells.Money(in.Settings().TargetHourly).Opens(in.WantedOf())}}
		items = append(items, work)
	}
	return []page.Block{page.KeyFigures{Items: items}, page.Says(page.Body, atAsking(in, p).And(more))}
}

// wanted is the piece's hours so far at the wanted rate, rounded half to even.
func wanted(in *report.Input, p figures.Piece) money.Cents {
	return money.Round(new(big.Rat).Mul(money.OrZero(p.Hours), in.Settings().TargetHourly.Rat()))
}

// wantedOf is what the work at the wanted rate is worked out of.
func wantedOf(in *report.Input, p figures.Piece) *report.Worked {
	out := own(p, "Work at the wanted rate")
	out.Cents, out.Words = wanted(in, p), money.AtMost(money.OrZero(p.Hours), 4)+" hours × "+
		in.Spoken(in.Settings().TargetHourly)+" = "+in.Spoken(wanted(in, p))+"."
	return out
}

// costsSoFar is what a piece's costs so far add up.
func costsSoFar(in *report.Input, p figures.Piece) *report.Worked {
	out := own(p, "Its costs so far")
	for _, id := range []figures.ID{figures.LineBookCost, figures.LineSellingCosts, figures.LineTrips} {
		out.Plus(label(id), p.Amount(id), in.LineOfPiece(p.Record.ID, id))
	}
	return out
}

// mustBring is what a piece that is still here must bring, without what selling
// it will cost, so that its hours so far earn the wanted rate after shop costs.
func mustBring(in *report.Input, p figures.Piece) *report.Worked {
	out := costsSoFar(in, p).Plus(label(figures.LineOverhead), p.Overhead,
		in.LineOfPiece(p.Record.ID, figures.LineOverhead))
	out.Title = "It must bring"
	if wage := wanted(in, p); wage > 0 {
		out.Plus("Work at the wanted rate", wage, wantedOf(in, p))
	}
	return out
}

// atAsking says what is missing to the figures above, and what the asking price
// would leave.
func atAsking(in *report.Input, p figures.Piece) page.Sentence {
	text := page.Say("Not sold, so it has no profit yet.")
	if p.Status == "client" {
		text = page.Say("A client's piece, still here, so it has no profit yet.")
	}
	if p.Held != 0 {
		text = text.And(page.Say("Part payments of %s are held.", in.SaidLine(p, figures.LineHeld)))
	}
	asking := in.Asking(p.Record)
	if asking == nil {
		return text
	}
	left := own(p, "Left at the asking price after shop costs").Plus("Asking price", *asking, report.AskingOf(p))
	for _, x := range mustBring(in, p).Terms[:4] {
		if x.Cents != 0 {
			left.Plus(x.Label, -x.Cents, x.Of)
		}
	}
	text = text.And(page.Say("At the asking price of %s it would leave %s after shop costs",
		in.Said(*asking, report.AskingOf(p)), in.Said(left.Total(), left)))
	if hours := money.OrZero(p.Hours); hours.Sign() > 0 {
		rate := perHour(p, "An hour at the asking price", left.Total())
		text = append(text, page.Say(", %s an hour", in.Said(rate.Cents, rate))...)
	}
	return append(text, page.Text(", less the costs of selling it."))
}

// hourWord is what stands after a piece's hours.
func hourWord(p figures.Piece) string {
	if money.AtMost(money.OrZero(p.Hours), 4) == "1" {
		return "hour"
	}
	return "hours"
}
