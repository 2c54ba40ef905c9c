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
			with := own(p, "Profit before shop costs with what was received", report.Term{Label: words.BeforeShopCosts,
				Cents: *p.Profit, Of: in.LineOfPiece(p.Record.ID, figures.LineProfit)},
				report.Term{Label: "Received", Cents: got, Of: of})
			text = page.Say(words.Capital(p.Status)+": %s was received for it. That is other income, outside the profits "+
				"above; with it the profit before shop costs is %s.", in.Said(got, of), in.Said(with.Total(), with))
		}
		out = append(out, page.Says(page.Body, text))
	}
	return append(out, page.Says(page.Note, quickFigure(in, p).And(more)))
}

// own is a figure of a piece that adds up others.
func own(p figures.Piece, title string, terms ...report.Term) *report.Worked {
	return &report.Worked{Title: title, Piece: p.Record.ID, Terms: terms}
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
	paid := page.Spoken(in.Spoken(*rate), int64(*rate)).Opens(report.Rate{Piece: p.Record.ID,
		Name: "profit_per_hour_after_overhead"})
	switch {
	case after == 0:
		return page.Say("It paid nothing for its work: after shop costs nothing was left.")
	case after < 0:
		return page.Say("It paid nothing for its work: after shop costs it lost %s.", in.Said(-after, left))
	case short > 0:
		lacking := own(p, "Short of the wanted rate", report.Term{Label: "Work at the wanted rate", Cents: wanted(in, p),
			Of: wantedOf(in, p)}, report.Term{Label: words.AfterShopCosts, Cents: -after, Of: left})
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
	of := in.LineOfPiece(p.Record.ID, figures.LineOverhead)
	text := page.Say("Its shop costs %s are its part, by "+by+", of rent, insurance and the like in the "+
		"months of its work",
		page.Spoken(p.Overhead.Grouped(), int64(p.Overhead)).Opens(of))
	if by == "hours" && p.Hours != nil && p.Hours.Sign() > 0 {
		rate := perHour(p, "Shop costs an hour", p.Overhead)
		text = append(text, page.Say(": %s an hour", page.Spoken(rate.Cents.Grouped(), int64(rate.Cents)).Opens(rate))...)
	}
	return append(text, page.Text("."))
}

// perHour is an amount of a piece divided by its hours, rounded half to even.
func perHour(p figures.Piece, title string, c money.Cents) *report.Worked {
	rate := money.Round(new(big.Rat).Quo(c.Rat(), p.Hours))
	return &report.Worked{Title: title, Piece: p.Record.ID, Cents: rate, Words: fmt.Sprintf("%s ÷ %s %s = %s.",
		c.Grouped(), money.AtMost(p.Hours, 4), hourWord(p), rate.Grouped())}
}

// profits are the two profits and the hour of each, in one size, with how each
// follows from the one beside it.
func profits(in *report.Input, p figures.Piece) []page.KeyFigure {
	percentage := func(label string, x *big.Rat) page.SubFigure {
		return page.SubFigure{Label: label, Figure: page.Number(words.Percent(x))}
	}
	profit := cells.Optional(p.Profit).Opens(in.LineOfPiece(p.Record.ID, figures.LineProfit))
	afterAll := cells.Optional(p.ProfitAfterOverhead).Opens(in.LineOfPiece(p.Record.ID, figures.LineAfterOverhead))
	overhead := cells.Optional(&p.Overhead).Opens(in.LineOfPiece(p.Record.ID, figures.LineOverhead))
	before := page.KeyFigure{Figure: profit, Words: "profit before shop costs",
		Small: []page.SubFigure{percentage("margin", p.Margin), percentage("return on book cost", p.ReturnOnCost)}}
	after := page.KeyFigure{Figure: afterAll, Words: "profit after shop costs",
		From: []page.Term{{Figure: profit}, {By: page.Minus, Figure: overhead, Words: "shop costs"}}}
	if p.DaysHeld != nil {
		after.Small = []page.SubFigure{{Label: "held", Figure: page.Number(words.Plural(*p.DaysHeld, "day", "days"))}}
	}
	if p.ProfitPerHour == nil {
		before.Small = append(before.Small, page.SubFigure{Label: "an hour", Figure: page.Number("no hours written")})
		return []page.KeyFigure{before, after}
	}
	hours := page.Term{By: page.DividedBy, Figure: page.Number(money.AtMost(p.Hours, 4)), Words: hourWord(p)}
	hourBefore := page.KeyFigure{Figure: hourly(p.ProfitPerHour, p, "profit_per_hour"),
		Words: "an hour before shop costs", From: []page.Term{{Figure: profit}, hours}}
	hourAfter := page.KeyFigure{Figure: hourly(p.ProfitPerHourAfterOverhead, p, "profit_per_hour_after_overhead"),
		Words: "an hour after shop costs", From: []page.Term{{Figure: afterAll}, hours}}
	if target := in.Settings().TargetHourly; target > 0 {
		hourAfter.Small = []page.SubFigure{{Label: "wanted", Figure: cells.Money(target).Opens(in.WantedOf())}}
	}
	return []page.KeyFigure{before, after, hourBefore, hourAfter}
}

// hourly is a piece's profit an hour, which opens to how it is worked out.
func hourly(rate *money.Cents, p figures.Piece, name string) page.Cell {
	return cells.Optional(rate).Opens(report.Rate{Piece: p.Record.ID, Name: name})
}

// amount is a named amount of a piece, as a bridge has it.
type amount struct {
	words string
	of    figures.ID
	cents money.Cents
}

// quickFigure leads from 'sold less bought' to the profit before shop costs,
// the largest step first.
func quickFigure(in *report.Input, p figures.Piece) page.Sentence {
	costs := []amount{{"parts", figures.LineParts, p.Parts}, {"outside work", figures.LineOutsideWork, p.OutsideWork},
		{"supplies", figures.LineSupplies, p.Supplies}, {"selling costs", figures.LineSellingCosts, p.SellingCosts},
		{"trips", figures.LineTrips, p.Trips}}
	costs = slices.DeleteFunc(costs, func(c amount) bool { return c.cents == 0 })
	slices.SortStableFunc(costs, func(a, b amount) int { return money.LargestFirst(a.cents, b.cents) })
	start := words.SoldLessBought
	if len(costs) > 0 {
		start += ", no profit yet:"
	}
	text := page.Say(start+" %s", in.Said(*p.SoldLessBought, in.LineOfPiece(p.Record.ID, figures.LineSoldLess)))
	for _, c := range costs {
		sign := " − "
		if c.cents < 0 {
			sign = " + "
		}
		text = append(text, page.Text(sign+c.words+" "), page.Spoken(c.cents.Abs().Grouped(), int64(c.cents)).Opens(
			in.LineOfPiece(p.Record.ID, c.of)))
	}
	return append(text, page.Say(" = %s before shop costs.", in.Said(*p.Profit, in.LineOfPiece(p.Record.ID,
		figures.LineProfit)))...)
}

// unsold is the answer for a piece that has no profit to tell: what it must
// bring, or of one kept or given away what it cost.
func unsold(in *report.Input, p figures.Piece, more page.Sentence) []page.Block {
	hours := page.KeyFigure{Figure: page.Number(money.AtMost(money.OrZero(p.Hours), 2)), Words: "hours of work"}
	costs := p.BookCost + p.SellingCosts + p.Trips
	cost := page.KeyFigure{Figure: page.FullMoney(int64(costs)).Opens(costsSoFar(in, p)), Words: "its costs so far"}
	shop := page.KeyFigure{Figure: page.FullMoney(int64(p.Overhead)).Opens(in.LineOfPiece(p.Record.ID,
		figures.LineOverhead)),
		Words: "its shop costs so far"}
	if p.Status == "kept" || p.Status == "donated" {
		return []page.Block{page.KeyFigures{Items: []page.KeyFigure{cost, shop, hours}},
			page.Says(page.Body, page.Say("It was "+p.Status+", so it has no profit. Its book cost left the stock and stands "+
				"apart in the month's statement.").And(more))}
	}
	must := page.KeyFigure{Figure: page.FullMoney(int64(mustBring(in, p))).Opens(mustBringOf(in, p)),
		Words: "it must bring, after selling costs",
		From:  []page.Term{{Figure: cost.Figure}, {By: page.Plus, Figure: shop.Figure}}}
	items := []page.KeyFigure{must, cost, shop}
	if wage := wanted(in, p); wage > 0 {
		work := page.FullMoney(int64(wage)).Opens(wantedOf(in, p))
		items[0].From = append(items[0].From, page.Term{By: page.Plus, Figure: work})
		items = append(items, page.KeyFigure{Figure: work, Words: "its work at the wanted rate",
			From: []page.Term{{Figure: page.Number(money.AtMost(p.Hours, 4)), Words: hourWord(p)},
				{By: page.Times, Figure: cells.Money(in.Settings().TargetHourly).Opens(in.WantedOf())}}})
	}
	return []page.Block{page.KeyFigures{Items: items}, page.Says(page.Body, atAsking(in, p).And(more))}
}

// wanted is the piece's hours so far at the wanted rate, rounded half to even.
func wanted(in *report.Input, p figures.Piece) money.Cents {
	return money.Round(new(big.Rat).Mul(money.OrZero(p.Hours), in.Settings().TargetHourly.Rat()))
}

// wantedOf is what the work at the wanted rate is worked out of.
func wantedOf(in *report.Input, p figures.Piece) *report.Worked {
	return &report.Worked{Title: "Work at the wanted rate", Piece: p.Record.ID, Cents: wanted(in, p),
		Words: money.AtMost(money.OrZero(p.Hours), 4) +
			" hours × " + in.Spoken(in.Settings().TargetHourly) + " = " + in.Spoken(wanted(in, p)) + "."}
}

// costsSoFar is what a piece's costs so far add up.
func costsSoFar(in *report.Input, p figures.Piece) *report.Worked {
	out := &report.Worked{Title: "Its costs so far", Piece: p.Record.ID}
	for _, id := range []figures.ID{figures.LineBookCost, figures.LineSellingCosts, figures.LineTrips} {
		out.Terms = append(out.Terms, report.Term{Label: words.Label(figures.OfPiece, id), Cents: p.Amount(id),
			Of: in.LineOfPiece(p.Record.ID, id)})
	}
	return out
}

// mustBringOf is what that which a piece must bring adds up.
func mustBringOf(in *report.Input, p figures.Piece) *report.Worked {
	out := costsSoFar(in, p)
	out.Title = "It must bring"
	out.Terms = append(out.Terms, report.Term{Label: words.Label(figures.OfPiece, figures.LineOverhead), Cents: p.Overhead,
		Of: in.LineOfPiece(p.Record.ID, figures.LineOverhead)})
	if wage := wanted(in, p); wage > 0 {
		out.Terms = append(out.Terms, report.Term{Label: "Work at the wanted rate", Cents: wage, Of: wantedOf(in, p)})
	}
	return out
}

// mustBring is what a piece that is still here must bring, without what selling
// it will cost, so that its hours so far earn the wanted rate after shop costs.
func mustBring(in *report.Input, p figures.Piece) money.Cents {
	return p.BookCost + p.SellingCosts + p.Trips + p.Overhead + wanted(in, p)
}

// atAsking says what is missing to the figures above, and what the asking price
// would leave.
func atAsking(in *report.Input, p figures.Piece) page.Sentence {
	text := page.Say("Not sold, so it has no profit yet.")
	if p.Status == "client" {
		text = page.Say("A client's piece, still here, so it has no profit yet.")
	}
	if p.Held != 0 {
		text = text.And(page.Say("Part payments of %s are held.", in.Said(p.Held, in.LineOfPiece(p.Record.ID,
			figures.LineHeld))))
	}
	asking := in.Asking(p.Record)
	if asking == nil {
		return text
	}
	left := own(p, "Left at the asking price after shop costs", report.Term{Label: "Asking price", Cents: *asking,
		Of: report.AskingOf(p)})
	for _, x := range mustBringOf(in, p).Terms[:4] {
		if x.Cents != 0 {
			x.Cents = -x.Cents
			left.Terms = append(left.Terms, x)
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
