package month

import (
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

// summary is a month in the few figures of page 1.
type summary struct {
	month     calendar.Month
	net       money.Cents
	receipts  money.Cents
	gross     money.Cents
	bought    int
	finished  int
	sold      int
	inStock   int
	hours     *big.Rat     // all hours worked in the month
	perHour   *money.Cents // profit of the pieces sold by their hours; nil without hours
	tiedUp    money.Cents  // pieces at book cost and the shelf
	stockCost money.Cents
	shelfCost money.Cents
}

// summaryOf sums up one month's figures.
func summaryOf(in *report.Input, f figures.Figures) summary {
	s := summary{month: f.To, net: f.Statement.NetProfit, receipts: f.Statement.NetReceipts, gross: f.Statement.GrossProfit,
		hours: new(big.Rat), stockCost: f.Stock.Closing}
	within := func(d calendar.Date) bool { return !d.IsZero() && d.InMonth() >= f.From && d.InMonth() <= f.To }
	var profit money.Cents
	worked := new(big.Rat)
	for _, p := range f.Pieces {
		if p.Record.How == ledger.Client {
			continue
		}
		if within(p.Record.GotOn) {
			s.bought++
		}
		if within(p.Record.FinishedOn) {
			s.finished++
		}
		if p.Status == "in stock" {
			s.inStock++
		}
		if p.Status == "sold" && within(p.SoldOn) && p.Profit != nil {
			s.sold++
			if p.Hours == nil || p.Hours.Sign() == 0 {
				continue // no hours written down: its profit cannot be told per hour
			}
			profit += *p.Profit
			worked.Add(worked, money.OrZero(p.Hours))
		}
	}
	if s.sold > 0 && worked.Sign() > 0 {
		rate := money.Round(new(big.Rat).Quo(profit.Rat(), worked))
		s.perHour = &rate
	}
	for _, h := range in.Books.Hours {
		if within(h.On) {
			s.hours.Add(s.hours, money.OrZero(h.Hours))
		}
	}
	for _, l := range f.Shelf {
		s.shelfCost += l.Closing
	}
	s.tiedUp = s.stockCost + s.shelfCost
	return s
}

// sentence says the month in words.
func sentence(in *report.Input, s summary) string {
	made := fmt.Sprintf("made a %s of %s", words.NetName(s.net), in.Spoken(s.net.Abs()))
	more, less := "more", "less"
	if s.net < 0 {
		more, less = "better", "worse" // a loss that is less could be either
	}
	sold := "sold no piece"
	if s.sold > 0 {
		sold = "sold " + words.Plural(s.sold, "piece", "pieces")
	}
	than := ""
	if in.Before != nil {
		before := in.Before.Statement.NetProfit
		switch d := s.net - before; {
		case d > 0:
			than = fmt.Sprintf(", %s %s than the month before", in.Spoken(d), more)
		case d < 0:
			than = fmt.Sprintf(", %s %s than the month before", in.Spoken(-d), less)
		default:
			than = ", the same as the month before"
		}
	}
	return fmt.Sprintf("In %s the shop %s and %s%s. So far this year the %s is %s.", in.Month.To.Name(), sold, made, than, words.NetName(in.Year.Statement.NetProfit), in.Spoken(in.Year.Statement.NetProfit.Abs()))
}

// fiveAnswers are the month's five figures with the month before and the usual.
func fiveAnswers(in *report.Input, now summary) page.Block {
	var all []summary
	for _, f := range in.Last {
		all = append(all, summaryOf(in, f))
	}
	var before *summary
	if in.Before != nil {
		b := summaryOf(in, *in.Before)
		before = &b
	}
	amounts := func(get func(summary) *money.Cents, text string) page.KeyFigure {
		var of []money.Cents
		for _, s := range all {
			if v := get(s); v != nil {
				of = append(of, *v)
			}
		}
		a := page.KeyFigure{Figure: cells.Optional(get(now)), Words: text}
		if before != nil {
			a.Small = append(a.Small, page.SubFigure{Label: "month before", Figure: cells.Optional(get(*before))})
		}
		if usual, ok := money.Median(of); ok && len(of) > 2 {
			a.Small = append(a.Small, page.SubFigure{Label: fmt.Sprintf("median of %d", len(of)), Figure: cells.Optional(&usual)})
		}
		return a
	}
	numbers := func(get func(summary) *big.Rat, text string) page.KeyFigure {
		var of []*big.Rat
		for _, s := range all {
			of = append(of, get(s))
		}
		a := page.KeyFigure{Figure: page.Number(money.AtMost(get(now), 2)), Words: text}
		if before != nil {
			a.Small = append(a.Small, page.SubFigure{Label: "month before", Figure: page.Number(money.AtMost(get(*before), 2))})
		}
		if len(of) > 2 {
			a.Small = append(a.Small, page.SubFigure{Label: fmt.Sprintf("median of %d", len(of)), Figure: page.Number(money.AtMost(money.MedianRat(of), 2))})
		}
		return a
	}
	return page.KeyFigures{Items: []page.KeyFigure{
		amounts(func(s summary) *money.Cents { return &s.net }, words.NetName(now.net)),
		numbers(func(s summary) *big.Rat { return big.NewRat(int64(s.sold), 1) }, "pieces sold"),
		numbers(func(s summary) *big.Rat { return s.hours }, "hours worked"),
		amounts(func(s summary) *money.Cents { return s.perHour }, "profit per hour, pieces sold"),
		amounts(func(s summary) *money.Cents { return &s.tiedUp }, "tied up in pieces and shelf"),
	}}
}

// counts are the pieces that came, were finished, went, and are there.
func counts(in *report.Input, s summary) page.Block {
	return page.Facts{Columns: 6, Stacked: true, Items: []page.Fact{
		{Label: "Pieces bought", Value: fmt.Sprint(s.bought)}, {Label: "Finished", Value: fmt.Sprint(s.finished)},
		{Label: "Sold", Value: fmt.Sprint(s.sold)}, {Label: "In stock", Value: fmt.Sprint(s.inStock)},
		{Label: "Tied up in pieces", Value: in.Spoken(s.stockCost)}, {Label: "On the shelf", Value: in.Spoken(s.shelfCost)},
	}}
}

// attention is what wants doing: at most ten lines, the largest in money
// first, each with where to look.
func attention(in *report.Input) []page.Block {
	items := attentionItems(in)
	slices.SortStableFunc(items, func(a, b wanting) int { return money.LargestFirst(a.cents, b.cents) })
	if len(items) == 0 {
		return []page.Block{page.Heading{Text: "What wants doing", Level: 1}, page.Paragraph{Text: "Nothing this month."}}
	}
	t := page.Table{Caption: "What wants doing", Columns: []page.Column{
		{Head: "", Weight: 1}, {Head: "At stake", Kind: page.KindMoney}, {Head: "Look at"}}}
	for _, w := range items[:min(10, len(items))] {
		t.Rows = append(t.Rows, page.Line(page.Text(w.words), cells.Money(w.cents), page.OnPage(w.look, w.anchor)))
	}
	if len(items) > 10 {
		t.Note = words.Plural(len(items)-10, "more, smaller in money, is", "more, smaller in money, are") + " told in their sections."
	}
	return []page.Block{t}
}

// wanting is a thing that needs attention.
type wanting struct {
	words  string
	cents  money.Cents
	look   string
	anchor string
}

// What is worth a look among the pieces in stock: those there for so many days,
// so many told one by one, the dearest first, the rest in one line.
const (
	longInStockDays = 180
	longInStockTold = 3
)

// longInStock are the pieces that have been in stock for long.
func longInStock(in *report.Input) []wanting {
	long := in.Chosen(func(p figures.Piece) bool { return p.Status == "in stock" && in.Age(p) > longInStockDays },
		func(a, b figures.Piece) int { return money.LargestFirst(a.BookCost, b.BookCost) })
	var out []wanting
	for _, p := range long[:min(longInStockTold, len(long))] {
		text := fmt.Sprintf("%s, %s has been in stock for %d days.", p.Record.ID, words.Piece(p.Record), in.Age(p))
		out = append(out, wanting{text, p.BookCost, "Pieces in stock", stockAnchor})
	}
	if rest := long[len(out):]; len(rest) > 0 {
		var cost money.Cents
		for _, p := range rest {
			cost += p.BookCost
		}
		text := fmt.Sprintf("%s been in stock for over %d days.", words.Plural(len(rest), "more piece has", "more pieces have"), longInStockDays)
		out = append(out, wanting{text, cost, "Pieces in stock", stockAnchor})
	}
	return out
}

func attentionItems(in *report.Input) []wanting {
	var out []wanting
	for i, n := range in.Notes {
		if n.AsksNothing {
			continue // told on the notes' page
		}
		text := words.Note(n)
		if where := words.Place(n.Place); where != "" {
			text = strings.TrimSuffix(text, ".") + " (" + where + ")."
		}
		out = append(out, wanting{text, money.Cents(n.MoneyCents), fmt.Sprintf("Note %d", i+1), report.NoteAnchor(i)})
	}
	for _, p := range in.Month.Pieces {
		name := p.Record.ID + ", " + words.Piece(p.Record)
		switch {
		case in.SoldIn(p) && p.Profit != nil && *p.Profit < 0:
			out = append(out, wanting{name + " sold below its costs.", p.Profit.Abs(), "Pieces sold", soldAnchor})
		}
	}
	out = append(out, longInStock(in)...)
	out = append(out, bankNotArrived(in)...)
	for _, t := range in.Month.TieOut {
		if t.Difference != 0 {
			out = append(out, wanting{"The reconciliation '" + t.Name + "' leaves a difference.", t.Difference, "Reconciliations", report.TiesAnchor})
		}
	}
	return out
}
