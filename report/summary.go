package report

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
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

// summary sums up one month's figures.
func (in *Input) summary(f figures.Figures) summary {
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
			worked.Add(worked, orZero(p.Hours))
		}
	}
	if s.sold > 0 && worked.Sign() > 0 {
		rate := money.Round(new(big.Rat).Quo(profit.Rat(), worked))
		s.perHour = &rate
	}
	for _, h := range in.Books.Hours {
		if within(h.On) {
			s.hours.Add(s.hours, orZero(h.Hours))
		}
	}
	for _, l := range f.Shelf {
		s.shelfCost += l.Closing
	}
	s.tiedUp = s.stockCost + s.shelfCost
	return s
}

// orZero is x, or zero where there is none.
func orZero(x *big.Rat) *big.Rat {
	if x == nil {
		return new(big.Rat)
	}
	return x
}

// sentence says the month in words.
func (in *Input) sentence(s summary) string {
	made := fmt.Sprintf("made a %s of %s", netName(s.net), in.spoken(s.net.Abs()))
	more, less := "more", "less"
	if s.net < 0 {
		more, less = "better", "worse" // a loss that is less could be either
	}
	sold := "sold no piece"
	if s.sold > 0 {
		sold = "sold " + plural(s.sold, "piece", "pieces")
	}
	than := ""
	if in.Before != nil {
		before := in.Before.Statement.NetProfit
		switch d := s.net - before; {
		case d > 0:
			than = fmt.Sprintf(", %s %s than the month before", in.spoken(d), more)
		case d < 0:
			than = fmt.Sprintf(", %s %s than the month before", in.spoken(-d), less)
		default:
			than = ", the same as the month before"
		}
	}
	return fmt.Sprintf("In %s the shop %s and %s%s. So far this year the %s is %s.", in.Month.To.Name(), sold, made, than, netName(in.Year.Statement.NetProfit), in.spoken(in.Year.Statement.NetProfit.Abs()))
}

// netName is what a net figure is called.
func netName(c money.Cents) string {
	if c < 0 {
		return "net loss"
	}
	return "net profit"
}

// fiveAnswers are the month's five figures with the month before and the usual.
func (in *Input) fiveAnswers(now summary) page.Block {
	var all []summary
	for _, f := range in.Last {
		all = append(all, in.summary(f))
	}
	var before *summary
	if in.Before != nil {
		b := in.summary(*in.Before)
		before = &b
	}
	amounts := func(get func(summary) *money.Cents, words string) page.Answer {
		var of []money.Cents
		for _, s := range all {
			if v := get(s); v != nil {
				of = append(of, *v)
			}
		}
		a := page.Answer{Figure: maybe(get(now)), Words: words}
		if before != nil {
			a.Beside = append(a.Beside, page.Beneath{Label: "month before", Figure: maybe(get(*before))})
		}
		if usual, ok := median(of); ok && len(of) > 2 {
			a.Beside = append(a.Beside, page.Beneath{Label: fmt.Sprintf("median of %d", len(of)), Figure: maybe(&usual)})
		}
		return a
	}
	numbers := func(get func(summary) *big.Rat, words string) page.Answer {
		var of []*big.Rat
		for _, s := range all {
			of = append(of, get(s))
		}
		a := page.Answer{Figure: page.Number(money.AtMost(get(now), 2)), Words: words}
		if before != nil {
			a.Beside = append(a.Beside, page.Beneath{Label: "month before", Figure: page.Number(money.AtMost(get(*before), 2))})
		}
		if len(of) > 2 {
			a.Beside = append(a.Beside, page.Beneath{Label: fmt.Sprintf("median of %d", len(of)), Figure: page.Number(money.AtMost(medianRat(of), 2))})
		}
		return a
	}
	return page.Answers{Items: []page.Answer{
		amounts(func(s summary) *money.Cents { return &s.net }, netName(now.net)),
		numbers(func(s summary) *big.Rat { return big.NewRat(int64(s.sold), 1) }, "pieces sold"),
		numbers(func(s summary) *big.Rat { return s.hours }, "hours worked"),
		amounts(func(s summary) *money.Cents { return s.perHour }, "profit per hour, pieces sold"),
		amounts(func(s summary) *money.Cents { return &s.tiedUp }, "tied up in pieces and shelf"),
	}}
}

// counts are the pieces that came, were finished, went, and are there.
func (in *Input) counts(s summary) page.Block {
	return page.Facts{Columns: 6, Stacked: true, Items: []page.Fact{
		{Label: "Pieces bought", Value: fmt.Sprint(s.bought)}, {Label: "Finished", Value: fmt.Sprint(s.finished)},
		{Label: "Sold", Value: fmt.Sprint(s.sold)}, {Label: "In stock", Value: fmt.Sprint(s.inStock)},
		{Label: "Tied up in pieces", Value: in.spoken(s.stockCost)}, {Label: "On the shelf", Value: in.spoken(s.shelfCost)},
	}}
}

// attention is what wants doing: at most ten lines, the largest in money
// first, each with where to look.
func (in *Input) attention() []page.Block {
	items := in.attentionItems()
	slices.SortStableFunc(items, func(a, b wanting) int { return byAmount(a.cents, b.cents) })
	if len(items) == 0 {
		return []page.Block{page.Heading{Text: "What wants doing", Level: 1}, page.Paragraph{Text: "Nothing this month."}}
	}
	t := page.Table{Caption: "What wants doing", Columns: []page.Column{
		{Head: "", Weight: 1}, {Head: "At stake", Kind: page.KindMoney}, {Head: "Look at"}}}
	for _, w := range items[:min(10, len(items))] {
		t.Rows = append(t.Rows, page.Line(page.Text(w.words), cash(w.cents), page.OnPage(w.look, w.anchor)))
	}
	if len(items) > 10 {
		t.Note = plural(len(items)-10, "more, smaller in money, is", "more, smaller in money, are") + " told in their sections."
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
func (in *Input) longInStock() []wanting {
	long := in.chosen(func(p figures.Piece) bool { return p.Status == "in stock" && in.age(p) > longInStockDays },
		func(a, b figures.Piece) int { return byAmount(a.BookCost, b.BookCost) })
	var out []wanting
	for _, p := range long[:min(longInStockTold, len(long))] {
		words := fmt.Sprintf("%s, %s has been in stock for %d days.", p.Record.ID, pieceWords(p.Record), in.age(p))
		out = append(out, wanting{words, p.BookCost, "Pieces in stock", stockAnchor})
	}
	if rest := long[len(out):]; len(rest) > 0 {
		var cost money.Cents
		for _, p := range rest {
			cost += p.BookCost
		}
		words := fmt.Sprintf("%s been in stock for over %d days.", plural(len(rest), "more piece has", "more pieces have"), longInStockDays)
		out = append(out, wanting{words, cost, "Pieces in stock", stockAnchor})
	}
	return out
}

func (in *Input) attentionItems() []wanting {
	var out []wanting
	for i, n := range in.Notes {
		if n.AsksNothing() {
			continue // told on the notes' page
		}
		words := noteWords(n)
		if where := placeWords(n.Place); where != "" {
			words = strings.TrimSuffix(words, ".") + " (" + where + ")."
		}
		out = append(out, wanting{words, money.Cents(n.MoneyCents), fmt.Sprintf("Note %d", i+1), noteAnchor(i)})
	}
	for _, p := range in.Month.Pieces {
		name := p.Record.ID + ", " + pieceWords(p.Record)
		switch {
		case in.soldIn(p) && p.Profit != nil && *p.Profit < 0:
			out = append(out, wanting{name + " sold below its costs.", p.Profit.Abs(), "Pieces sold", soldAnchor})
		}
	}
	out = append(out, in.longInStock()...)
	out = append(out, in.bankNotArrived()...)
	for _, t := range in.Month.TieOut {
		if t.Difference != 0 {
			out = append(out, wanting{"The reconciliation '" + t.Name + "' leaves a difference.", t.Difference, "Reconciliations", tiesAnchor})
		}
	}
	return out
}

// age is a piece's days in stock at the period's end.
func (in *Input) age(p figures.Piece) int { return in.Month.To.Last().DaysSince(p.Record.GotOn) }

// noteAnchor names a note's row.
func noteAnchor(i int) string { return fmt.Sprintf("note-%d", i+1) }
