// Package kinds composes the pages and JSON on kinds of furniture: which are
// worth buying again, and the most to pay for a piece in view.
package kinds

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// The steps that estimates are shown in: they are not sure to the cent.
const (
	tenth = 10  // cents, of amounts an hour
	whole = 100 // of offers
)

// estimated is an estimate in cents as a cell, to the given step; empty where
// it is not known.
func estimated(cents float64, step int64) page.Cell {
	if c, ok := kinds.Rounded(cents, step); ok {
		return page.FullMoney(int64(c))
	}
	return page.Empty()
}

// guess is an estimate within a sentence.
func guess(in *report.Input, cents float64, step int64) string {
	c, ok := kinds.Rounded(cents, step)
	switch {
	case !ok:
		return "not known"
	case step == whole:
		// Whole units are spoken without their zero cents.
		s := page.Amount(int64(c), page.Sign(in.Month.Currency), true)
		return strings.TrimSuffix(strings.Replace(s, ".00)", ")", 1), ".00")
	}
	return in.Spoken(c)
}

// chance is a chance as a percentage; what is nearly sure is not called sure.
func chance(x float64) string {
	switch {
	case math.IsNaN(x):
		return page.Dash
	case x > 0 && x < 0.01:
		return "under 1 %"
	case x < 1 && x > 0.99:
		return "over 99 %"
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}

// Doc is which kinds are worth flipping (kinds.pdf): the answer and its
// ranking, then money, time, channels, commissions and coverage.
func Doc(in report.Input, r kinds.Report) page.Document {
	d := kindsDocument(&in, r)
	d.Sections = []page.Section{
		{Title: "Which kinds are worth it", Head: "At a glance", Untitled: true, Blocks: append([]page.Block{kindsTitle(&in, r)}, kindsAnswer(&in, r)...)},
		{Title: "Every piece", Anchor: "every-piece", Blocks: everyPiece(&in, r)},
		{Title: "Money by kind", Anchor: "kinds-money", NewPage: true, Blocks: kindsMoney(&in, r)},
		{Title: "How fast they sell", Anchor: "kinds-time", Blocks: kindsTime(&in, r)},
		{Title: "Where they sell", Anchor: "kinds-channels", Blocks: kindsChannels(&in, r)},
		{Title: "Commissions", Anchor: "kinds-commissions", Blocks: kindsClients(&in, r)},
		{Title: "What a container really does", Head: "Coverage", Anchor: "kinds-coverage", Blocks: kindsCoverage(&in, r)},
		{Title: "How it is reckoned", Anchor: "kinds-how", Blocks: kindsHow(&in, r)},
	}
	return d
}

// Glance is the answer and the ranking alone, for a terminal.
func Glance(in report.Input, r kinds.Report) page.Document {
	d := kindsDocument(&in, r)
	d.Sections = []page.Section{{Blocks: kindsAnswer(&in, r)}}
	return d
}

func kindsDocument(in *report.Input, r kinds.Report) page.Document {
	d := in.Document("Kinds")
	d.Period = fmt.Sprintf("%s, up to the end of %s", r.Scope, r.End.Name())
	d.Subject = "Which kinds of furniture are worth the work"
	return d
}

func kindsTitle(in *report.Input, r kinds.Report) page.Block {
	return page.Title{Text: "Which kinds are worth it", Under: in.Settings().Shop,
		Right: words.Capital(r.Scope.String()) + ", up to the end of " + r.End.Name()}
}

// kindsAnswer is the answer in words, the ranking, and the kinds too few to tell.
func kindsAnswer(in *report.Input, r kinds.Report) []page.Block {
	out := []page.Block{page.Paragraph{Style: page.Lead, Text: kindsSentence(in, r)}}
	if ranked := rankedOf(r); len(ranked) > 0 {
		out = append(out, ranking(in, r, ranked))
		if text := drawingWords(in, r, ranked); text != "" {
			out = append(out, page.Paragraph{Text: text})
		}
	}
	if few := fewOf(r); len(few) > 0 {
		out = append(out, tooFew(in, few))
	}
	if text := untimed(r); text != "" {
		out = append(out, page.Paragraph{Style: page.Note, Text: text})
	}
	return out
}

func rankedOf(r kinds.Report) []kinds.Kind {
	var out []kinds.Kind
	for _, k := range r.Kinds {
		if k.Estimate.Ranked {
			out = append(out, k)
		}
	}
	return out
}

// fewOf are the kinds with something sold or lost, too little to rank.
func fewOf(r kinds.Report) []kinds.Kind {
	var out []kinds.Kind
	for _, k := range r.Kinds {
		if !k.Estimate.Ranked && len(k.Judged) > 0 {
			out = append(out, k)
		}
	}
	return out
}

// kindsSentence is the answer in words.
func kindsSentence(in *report.Input, r kinds.Report) string {
	ranked := rankedOf(r)
	target := in.Spoken(r.Target)
	switch {
	case len(r.Shop.Judged) == 0:
		return fmt.Sprintf("Nothing has been sold yet in this time (%s), so no kind can be told from another.", r.Scope)
	case r.Shop.Timed == 0:
		return "No hours are written down for any piece sold, so nothing can be said of an hour. The money by kind is below; write hours in Hours to have the kinds ranked."
	case len(ranked) == 0:
		return fmt.Sprintf("No kind has %d sold with hours yet: too few to tell one from another.", kinds.FewestSales)
	}
	best := ranked[0]
	e := best.Estimate
	verdict, expect := "pays best", fmt.Sprintf("expect about %s an hour", guess(in, e.Expected, tenth))
	if e.Expected < 0 {
		verdict, expect = "loses least", fmt.Sprintf("expect a loss of about %s an hour", guess(in, -e.Expected, tenth))
	}
	text := fmt.Sprintf("Of the %d kinds with enough sold, %s %s: %s", len(ranked), best.Name, verdict, expect)
	if len(ranked) == 1 {
		text = fmt.Sprintf("Only %s has enough sold to be told: %s", best.Name, expect)
	}
	if !e.Known {
		return text + "; all pieces brought the same, so how sure that is cannot be told."
	}
	text += fmt.Sprintf(", between %s and %s with nine chances in ten. ", guess(in, e.Low, tenth), guess(in, e.High, tenth))
	likely := 0
	for _, k := range ranked {
		if k.Estimate.Beats > 0.5 {
			likely++
		}
	}
	switch {
	case len(ranked) == 1:
		text += fmt.Sprintf("The chance that it pays your %s an hour is %s.", target, chance(e.Beats))
	case likely == 0:
		text += fmt.Sprintf("No kind is more likely than not to pay your %s an hour; for %s the chance is %s.", target, best.Name, chance(e.Beats))
	case likely == len(ranked):
		text += fmt.Sprintf("Every one of them is likelier than not to pay your %s an hour.", target)
	default:
		text += fmt.Sprintf("%s more likely than not to pay your %s an hour.", oneOrMore(likely, ranked), target)
	}
	return text
}

func oneOrMore(n int, ranked []kinds.Kind) string {
	var names []string
	for _, k := range ranked {
		if k.Estimate.Beats > 0.5 {
			names = append(names, k.Name)
		}
	}
	if n == 1 {
		return "Only " + names[0] + " is"
	}
	return words.Capital(words.List(names)) + " are"
}

// ranking is the kinds with enough sold, best first.
func ranking(in *report.Input, r kinds.Report, ranked []kinds.Kind) page.Block {
	t := page.Table{Caption: "Profit an hour, best first", Columns: []page.Column{{Head: "Kind", Weight: 1}, {Head: "Pieces", Kind: page.KindNumber},
		{Head: "As it was", Kind: page.KindMoney}, {Head: "Give or take", Kind: page.KindMoney}, {Head: "Expect", Kind: page.KindMoney},
		{Head: "From", Kind: page.KindMoney}, {Head: "To", Kind: page.KindMoney}, {Head: "Chance of " + guess(in, float64(r.Target), whole), Kind: page.KindNumber}}}
	for _, k := range ranked {
		e := k.Estimate
		row := page.Line(page.Text(k.Name), cells.Count(k.Timed), cells.Optional(k.PerHour), estimated(e.Error, tenth), estimated(e.Expected, tenth),
			page.Empty(), page.Empty(), page.Empty())
		if e.Known {
			row.Cells[5], row.Cells[6], row.Cells[7] = estimated(e.Low, tenth), estimated(e.High, tenth), page.Text(chance(e.Beats))
		}
		t.Rows = append(t.Rows, row)
	}
	t.Columns[7].Kind, t.Columns[7].Align = page.KindText, page.AlignRight
	t.Note = "As it was: profit of all its pieces ÷ their hours, failures included, give or take what its pieces' own scatter makes of it. " +
		"Expect: what the next ones should bring, which is what to buy by; from and to hold it with nine chances in ten."
	return t
}

// drawingWords says in two sentences what the drawing in did.
func drawingWords(in *report.Input, r kinds.Report, ranked []kinds.Kind) string {
	if !r.Shop.Estimate.Known || len(ranked) < 2 {
		return ""
	}
	most := slices.MaxFunc(ranked, func(a, b kinds.Kind) int { return byMove(a, b) })
	move := drawnBy(most)
	shop := guess(in, r.Shop.Estimate.Expected, tenth)
	first := fmt.Sprintf("A few sales can flatter a kind or wrong it, so each is drawn toward the shop's own average over its kinds, %s an hour: the further, the fewer and the more scattered its pieces are.", shop)
	if math.Abs(move) < tenth {
		return first + " It moved no kind by as much as ten cents."
	}
	return fmt.Sprintf("%s It moved %s most, from %s to %s, because %s.", first, most.Name,
		in.Spoken(*most.PerHour), guess(in, most.Estimate.Expected, tenth), fewness(most))
}

// fewness is why a kind was drawn in.
func fewness(k kinds.Kind) string {
	text := fmt.Sprintf("only %d were sold", k.Timed)
	switch {
	case k.Estimate.Sales < k.Timed:
		text = fmt.Sprintf("its %d pieces went in only %s", k.Timed, words.Plural(k.Estimate.Sales, "sale", "sales"))
	case k.Sold != k.Timed:
		text = fmt.Sprintf("it rests on only %d pieces", k.Timed)
	}
	if k.Estimate.Error > 0 {
		text += " and they differ"
	}
	return text
}

// drawnBy is how far the drawing in moved a kind, in cents.
func drawnBy(k kinds.Kind) float64 {
	if k.PerHour == nil {
		return 0
	}
	return k.Estimate.Expected - float64(*k.PerHour)
}

func byMove(a, b kinds.Kind) int {
	x, y := math.Abs(drawnBy(a)), math.Abs(drawnBy(b))
	switch {
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return strings.Compare(b.Name, a.Name)
}

// tooFew are the kinds that are told apart, unranked.
func tooFew(in *report.Input, few []kinds.Kind) page.Block {
	t := page.Table{Caption: "Too few to tell", Whole: true, Columns: []page.Column{{Head: "Kind", Weight: 1}, {Head: "Sold or lost", Kind: page.KindNumber},
		{Head: "Profit", Kind: page.KindMoney}, {Head: "Hours", Kind: page.KindNumber}, {Head: "An hour", Kind: page.KindMoney}}}
	for _, k := range few {
		t.Rows = append(t.Rows, page.Line(page.Text(k.Name), cells.Count(len(k.Judged)), page.FullMoney(int64(k.Result)), cells.Hours(k.Hours), cells.Optional(k.PerHour)))
	}
	t.Note = fmt.Sprintf("Under %d with hours, luck weighs more than the kind.", kinds.FewestSales)
	return t
}

// untimed says what pieces without hours do to the figures.
func untimed(r kinds.Report) string {
	n := len(r.Shop.Judged) - r.Shop.Timed
	if n == 0 || r.Shop.Timed == 0 {
		return ""
	}
	return fmt.Sprintf("%s no hours written down: left out of everything that is told by the hour, and in everything else.", words.Plural(n, "piece sold has", "pieces sold have"))
}

// everyPiece is every judged piece of every kind as a dot.
func everyPiece(in *report.Input, r kinds.Report) []page.Block {
	d := page.Dots{Of: "Kind", Points: "Profit per hour", Rings: true, Target: page.Level{At: float64(r.Target), Label: "wanted " + guess(in, float64(r.Target), whole)}}
	for _, k := range r.Kinds {
		row := page.DotRow{Label: k.Name}
		var rates []money.Cents
		for _, x := range k.Judged {
			if x.Timed() {
				rate := perHourOf(x)
				rates, row.Points = append(rates, rate), append(row.Points, int64(rate))
			}
		}
		if middle, ok := money.Median(rates); ok {
			row.Median = page.FullMoney(int64(middle))
			d.Rows = append(d.Rows, row)
		}
	}
	if len(d.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "No piece with hours has been sold, so there is nothing to show by the hour."}}
	}
	return []page.Block{d}
}
