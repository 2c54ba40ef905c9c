// Package kinds composes the pages and JSON on kinds of furniture: which are
// worth buying again, and the most to pay for a piece in view.
package kinds

import (
	"cmp"
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
		return cells.Full(c)
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
		return page.Short(int64(c), page.Sign(in.Month.Currency))
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

// chanceCell is a chance in a table.
func chanceCell(x float64) string {
	switch {
	case x < 0.01:
		return "< 1 %"
	case x > 0.99:
		return "> 99 %"
	}
	return chance(x)
}

// Doc is which kinds are worth flipping (kinds.pdf): the answer, the ranking
// and the channels, then every piece, money, time, commissions and coverage.
func Doc(in report.Input, r kinds.Report) page.Document {
	d := kindsDocument(&in, r)
	d.Sections = []page.Section{
		{Title: "Which kinds are worth it", Head: "At a glance", Untitled: true, Blocks: append([]page.Block{kindsTitle(&in,
			r)}, kindsAnswer(&in, r)...)},
		{Title: "Where they sell", Anchor: "kinds-channels", Blocks: kindsChannels(&in, r)},
		{Title: "The next ones", Anchor: "kinds-next", Blocks: nextOnes(&in, r)},
		{Title: "Every piece", Anchor: "every-piece", Blocks: everyPiece(&in, r)},
		{Title: "Money by kind", Anchor: "kinds-money", Blocks: kindsMoney(&in, r)},
		{Title: "How fast they sell", Anchor: "kinds-time", Blocks: kindsTime(&in, r)},
		{Title: "Commissions", Anchor: "kinds-commissions", Blocks: kindsClients(&in, r)},
		{Title: "What a container really does", Head: "Coverage", Anchor: "kinds-coverage", Blocks: kindsCoverage(&in, r)},
		{Title: "How it is worked out", Anchor: "kinds-how", Blocks: kindsHow(&in, r)},
	}
	return d
}

// Glance is the answer, the ranking and the channels alone, for a terminal; the
// money by kind too where no hours are written down to rank kinds by.
func Glance(in report.Input, r kinds.Report) page.Document {
	d := kindsDocument(&in, r)
	d.Sections = []page.Section{{Blocks: kindsAnswer(&in, r)}, {Title: "Where they sell", Blocks: kindsChannels(&in, r)}}
	if len(r.Shop.Judged) > 0 && r.Shop.Timed == 0 {
		d.Sections = append(d.Sections, page.Section{Title: "Money by kind", Blocks: kindsMoney(&in, r)})
	}
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

// kindsAnswer is the answer in words, the ranking, and the kinds with few sales.
func kindsAnswer(in *report.Input, r kinds.Report) []page.Block {
	out := []page.Block{page.Paragraph{Style: page.Lead, Text: kindsSentence(in, r)}}
	if costs := costsWords(in, r); costs != "" {
		out = append(out, page.Paragraph{Text: costs})
	}
	if ranked := kindsWhere(r, true); len(ranked) > 0 {
		out = append(out, ranking(in, r, ranked))
	}
	// Without hours there is nothing to estimate an hour from.
	if few := kindsWhere(r, false); len(few) > 0 && r.Shop.Timed > 0 {
		out = append(out, fewSales(in, r, few))
	}
	if text := untimed(r); text != "" {
		out = append(out, page.Paragraph{Style: page.Note, Text: text})
	}
	return out
}

// kindsWhere are the kinds with something sold or lost that are ranked, or not.
func kindsWhere(r kinds.Report, ranked bool) []kinds.Kind {
	return slices.DeleteFunc(slices.Clone(r.Kinds), func(k kinds.Kind) bool {
		return k.Estimate.Ranked != ranked || len(k.Judged) == 0
	})
}

// after is an amount an hour less the usual shop costs of one.
func after(r kinds.Report, cents float64) float64 { return cents - float64(r.Costs.AnHour) }

// kindsSentence is the answer in words.
func kindsSentence(in *report.Input, r kinds.Report) string {
	ranked := kindsWhere(r, true)
	switch {
	case len(r.Shop.Judged) == 0:
		return fmt.Sprintf("Nothing has been sold yet in this time (%s), so there is nothing to compare.", r.Scope)
	case r.Shop.Timed == 0:
		return "No hours are written down for any piece sold, so nothing can be said of an hour. The money by kind is " +
			"below; write hours in Hours to have the kinds ranked."
	case len(ranked) == 0:
		return fmt.Sprintf("No kind has %d sales with hours yet, too few to rank them.", kinds.FewestSales)
	}
	best := ranked[0]
	e := best.Estimate
	verdict, about, before, then := "pays best", "about", e.Expected, after(r, e.Expected)
	if e.Expected < 0 {
		verdict, about, before, then = "loses least", "a loss of about", -before, -then
	}
	average := fmt.Sprintf("%s %s an hour before shop costs, %s after", about, guess(in, before, tenth),
		guess(in, then, tenth))
	text := fmt.Sprintf("Of the %d kinds with enough sales, %s %s in the long run: %s", len(ranked), best.Name, verdict,
		average)
	if len(ranked) == 1 {
		text = fmt.Sprintf("Only %s has enough sales to be ranked: in the long run %s", best.Name, average)
	}
	if !e.Known {
		return text + "; all pieces brought the same, so there is no telling how sure that is."
	}
	text += fmt.Sprintf(" (between %s and %s after, with nine chances in ten). ", guess(in, after(r, e.Low), tenth),
		guess(in, after(r, e.High), tenth))
	return text + targetWords(in, r, ranked) + contenderWords(r)
}

// targetWords says which kinds reach the wanted rate.
func targetWords(in *report.Input, r kinds.Report, ranked []kinds.Kind) string {
	var likely []string
	for _, k := range ranked {
		if k.Estimate.Beats > 0.5 {
			likely = append(likely, k.Name)
		}
	}
	wanted := fmt.Sprintf("your %s an hour after shop costs", in.Spoken(r.Target))
	switch best := ranked[0]; {
	case len(ranked) == 1:
		return fmt.Sprintf("The chance that it reaches %s is %s.", wanted, chance(best.Estimate.Beats))
	case len(likely) == 0:
		return fmt.Sprintf("No kind is more likely than not to reach %s; for %s the chance is %s.", wanted, best.Name,
			chance(best.Estimate.Beats))
	case len(likely) == len(ranked):
		return fmt.Sprintf("Each of them is more likely than not to reach %s.", wanted)
	case len(likely) == 1:
		return fmt.Sprintf("Only %s is more likely than not to reach %s.", likely[0], wanted)
	}
	return fmt.Sprintf("%s are more likely than not to reach %s.", words.Capital(words.List(likely)), wanted)
}

// contenderWords says that several kinds may yet be the best one.
func contenderWords(r kinds.Report) string {
	contenders := r.Contenders()
	if len(contenders) < 2 {
		return ""
	}
	var names []string
	for _, k := range contenders {
		names = append(names, k.Name)
	}
	return fmt.Sprintf(" It is too early to say which kind is best: with nine chances in ten it is one of these %d: %s.",
		len(names), words.List(names))
}

// costsWords says what the usual shop costs are, and of a trend.
func costsWords(in *report.Input, r kinds.Report) string {
	if !r.Costs.Known {
		return ""
	}
	text := fmt.Sprintf("Usual shop costs are %s an hour: %s of rent, trips without a piece and the like over %s on "+
		"pieces, %s to %s.", in.Spoken(r.Costs.AnHour), in.Spoken(r.Costs.Overheads), words.Hours(r.Costs.Hours),
		r.Costs.From.Name(), r.Costs.To.Name())
	if !r.Trend.Matters() {
		return text
	}
	way := "risen"
	if r.Trend.Share < 0 {
		way = "fallen"
	}
	return text + fmt.Sprintf(" Prices have %s by about %.0f %% a year in all kinds together (the chance that there "+
		"is such a trend is %s); the averages are those of today.", way, 100*math.Abs(r.Trend.Share), chance(r.Trend.Chance))
}

// ranking is the kinds with enough sales, best first.
func ranking(in *report.Input, r kinds.Report, ranked []kinds.Kind) page.Block {
	t := page.Table{Caption: "Profit an hour in the long run, best first"}
	averages(in, r, &t, ranked)
	t.Note = "As it was: profit before shop costs of all its pieces ÷ their hours, failures included. Before and after " +
		"shop costs: the kind's long-run average, drawn toward the shop's" + drawnWords(in, r, ranked) + ". From and to " +
		"hold the average after shop costs with nine chances in ten. Best: the chance that no other kind's average is higher."
	return t
}

// averages fills a table of long-run averages.
func averages(in *report.Input, r kinds.Report, t *page.Table, of []kinds.Kind) {
	scale := page.ScaleOf(float64(r.Target))
	for _, k := range of {
		if k.Estimate.Known {
			scale = page.ScaleOf(scale.Lo, scale.Hi, after(r, k.Estimate.Low), after(r, k.Estimate.High))
		}
	}
	scale.Lines = []page.Level{{At: float64(r.Target), Label: "wanted " + guess(in, float64(r.Target), whole)}}
	t.Columns = page.Heads{}.Text("Kind").Number("Sales").Money("As it was", "Before shop costs", "After shop costs",
		"From", "To").Drawn(1, scale, "From and to").Right("Reaches "+guess(in, float64(r.Target), whole), "Best")
	for _, k := range of {
		e := k.Estimate
		row := page.Line(page.Text(k.Name), cells.Count(e.Sales), cells.Optional(k.PerHour), estimated(e.Expected, tenth),
			estimated(after(r, e.Expected), tenth))
		if e.Known {
			middle := after(r, e.Expected)
			bar := page.Draw(page.Drawn{Bar: &page.Interval{From: after(r, e.Low), To: after(r, e.High)}, Pale: true,
				Tick: &middle})
			row.Cells = append(row.Cells, estimated(after(r, e.Low), tenth), estimated(after(r, e.High), tenth), bar,
				page.Text(chanceCell(e.Beats)), page.Text(chanceCell(e.Best)))
		}
		t.Rows = append(t.Rows, row)
	}
}

// drawnWords says toward what the averages are drawn, and which moved most.
func drawnWords(in *report.Input, r kinds.Report, ranked []kinds.Kind) string {
	if !r.Shop.Estimate.Known || len(ranked) < 2 {
		return ""
	}
	text := fmt.Sprintf(" (%s before shop costs) the more, the fewer its sales and the more they differ", guess(in,
		r.Shop.Estimate.Expected, tenth))
	most := slices.MaxFunc(ranked, byMove)
	if math.Abs(drawnBy(most)) < tenth {
		return text
	}
	return text + fmt.Sprintf("; %s moved most, from %s to %s", most.Name, in.Spoken(*most.PerHour), guess(in,
		most.Estimate.Expected, tenth))
}

// drawnBy is how far the drawing in moved a kind, in cents.
func drawnBy(k kinds.Kind) float64 {
	if k.PerHour == nil {
		return 0
	}
	return k.Estimate.Expected - float64(*k.PerHour)
}

func byMove(a, b kinds.Kind) int {
	return cmp.Or(cmp.Compare(math.Abs(drawnBy(a)), math.Abs(drawnBy(b))), strings.Compare(b.Name, a.Name))
}

// tryAgain is the least chance of reaching the wanted rate that makes a kind
// with few sales worth another try.
const tryAgain = 0.2

// fewSales are the kinds with too few sales to rank, with their wide ranges.
func fewSales(in *report.Input, r kinds.Report, few []kinds.Kind) page.Block {
	t := page.Table{Caption: fmt.Sprintf("Kinds with under %d sales", kinds.FewestSales), Whole: true}
	averages(in, r, &t, few)
	var worth []string
	known := false
	for _, k := range few {
		known = known || k.Estimate.Known
		if k.Estimate.Known && k.Estimate.Beats >= tryAgain {
			worth = append(worth, k.Name)
		}
	}
	switch {
	case len(worth) > 0:
		t.Note = fmt.Sprintf("One chance in five or more of reaching what you want, at what such pieces cost so far: %s. "+
			"The command offer says what to pay for the next.", words.List(worth))
	case known:
		t.Note = "None of them has one chance in five of reaching what you want."
	}
	return t
}

// nextOnes is where the next pieces would lie, and what is unsold.
func nextOnes(in *report.Input, r kinds.Report) []page.Block {
	t := page.Table{Caption: "What they may bring an hour, after shop costs", Columns: page.Heads{}.Wide(1, "Kind").
		Money("Next piece, from", "to", "Next five, from", "to").Number("Unsold here").Money("Money in them")}
	for _, k := range r.Kinds {
		e := k.Estimate
		if !e.Known {
			continue
		}
		t.Add(page.Text(k.Name), estimated(after(r, e.Next.Low), tenth), estimated(after(r, e.Next.High), tenth),
			estimated(after(r, e.NextFive.Low), tenth), estimated(after(r, e.NextFive.High), tenth),
			cells.CountOrDash(k.InStock), cells.Money(k.TiedUp))
	}
	t.Note = "With nine chances in ten; the next five together. Pieces still unsold are in none of these figures, " +
		"which flatters a kind that has many of them."
	if len(t.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "Too little has been sold to say where the next ones may lie."}}
	}
	return []page.Block{t}
}

// untimed says what pieces without hours do to the figures.
func untimed(r kinds.Report) string {
	n := len(r.Shop.Judged) - r.Shop.Timed
	if n == 0 || r.Shop.Timed == 0 {
		return ""
	}
	return fmt.Sprintf("%s no hours written down: left out of every figure an hour, and in every other.", words.Plural(n,
		"piece sold has", "pieces sold have"))
}

// everyPiece is every judged piece of every kind as a dot.
func everyPiece(in *report.Input, r kinds.Report) []page.Block {
	wanted := page.Level{At: float64(r.Target + r.Costs.AnHour), Label: "wanted " + guess(in, float64(r.Target), whole)}
	if r.Costs.AnHour != 0 {
		wanted.Label += " and shop costs"
	}
	d := page.Dots{Of: "Kind", Points: "Profit an hour before shop costs", Rings: true, Target: wanted}
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
			row.Median = cells.Full(middle)
			d.Rows = append(d.Rows, row)
		}
	}
	if len(d.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "No piece with hours has been sold, so there is nothing to show by " +
			"the hour."}}
	}
	return []page.Block{d}
}
