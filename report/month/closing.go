package month

import (
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// trips are the period's drives, one line each with its cost for all pieces.
func trips(in *report.Input) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "Purpose", Weight: 2}, {Head: "For", Weight: 1},
		{Head: words.Capital(in.Settings().DistanceUnit()), Kind: page.KindNumber}, {Head: "Tolls", Kind: page.KindMoney},
		{Head: "Cost", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	cost := map[fault.Place]money.Cents{}
	for _, p := range in.InMonth() {
		if p.Reason == ledger.ReasonTrip && len(p.Source) > 0 {
			cost[p.Source[0]] += p.Cents
		}
	}
	trips := slices.Clone(in.Books.Trips)
	slices.SortStableFunc(trips, func(a, b ledger.Trip) int {
		if c := a.On.Compare(b.On); c != 0 {
			return c
		}
		return a.At.Compare(b.At)
	})
	var sum, tolls money.Cents
	for _, x := range trips {
		if !in.Within(x.On) {
			continue
		}
		t.Rows = append(t.Rows, page.Line(page.Date(x.On.String()), page.Text(words.Trip(x)), page.Text(words.TripFor(x)), cells.Number(x.Miles, 1), cells.Money(x.Tolls), cells.Money(cost[x.At]), page.Text(x.At.Short())))
		sum, tolls = sum+cost[x.At], tolls+x.Tolls
	}
	if len(t.Rows) == 0 {
		return []page.Block{page.Paragraph{Text: "No trip is written down for " + in.Month.To.Name() + "."}}
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All trips"), page.Empty(), page.Empty(), page.Empty(), cells.Money(tolls), cells.Money(sum)))
	return []page.Block{cells.WithoutBlank(t, "Tolls")}
}

// ties are the reconciliations: the terms on the way, the two totals, and the
// difference, which must be 0.00.
func ties(in *report.Input) []page.Block { return report.TieBlocks(in.Month.TieOut) }

// absentTables says what the tables that are not there leave out.
func absentTables(in *report.Input) []page.Block {
	if len(in.Absent) == 0 {
		return nil
	}
	out := []page.Block{page.Heading{Text: "Tables that are not there", Level: 1}}
	for _, text := range in.Absent {
		out = append(out, page.Paragraph{Style: page.Note, Text: text})
	}
	return out
}

// monthCautions are the cautions of every supply on the shelf in the period.
func monthCautions(in *report.Input) []page.Block {
	var called []report.Caution
	for _, c := range in.LetteredCautions() {
		var supplies []string
		for _, l := range in.Month.Shelf {
			if (c.Usual == nil || c.Usual.When.MadeBefore == 0) && c.Of(l.Supply) {
				supplies = append(supplies, l.Supply.Name)
			}
		}
		if len(supplies) == 0 {
			continue
		}
		if len(supplies) > 8 {
			supplies = append(supplies[:8], fmt.Sprintf("%d more", len(supplies)-8))
		}
		c.Source += ". On the shelf: " + words.List(supplies) + "."
		called = append(called, c)
	}
	return in.CautionBlocks(called)
}
