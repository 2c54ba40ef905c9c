package report

import (
	"fmt"

	"piecebook/report/page"
)

// The anchors of the month's sections, for links between them.
const (
	statementAnchor   = "statement"
	soldAnchor        = "sold"
	stockAnchor       = "stock"
	shelfAnchor       = "shelf"
	spreadAnchor      = "spread"
	tripsAnchor       = "trips"
	bankAnchor        = "bank"
	changedAnchor     = "changed"
	commissionsAnchor = "commissions"
	tiesAnchor        = "ties"
	notesAnchor       = "notes"
	cautionsAnchor    = "cautions"
)

// MonthDoc is the month's report (month.pdf), from whole to part: the month
// at a glance, the statement, then the lists that each of its lines is made of.
func MonthDoc(in Input) page.Document {
	d := in.document("Month report")
	d.Subject = "Costs, sales and stock of " + d.Period
	d.Sections = []page.Section{
		in.glance(d),
		{Title: "Statement", Anchor: statementAnchor, NewPage: true, Blocks: in.statement()},
		{Title: "Pieces sold", Anchor: soldAnchor, NewPage: true, Blocks: in.sold()},
		{Title: "Pieces in stock", Anchor: stockAnchor, Blocks: in.inStock()},
		{Title: "The shelf", Anchor: shelfAnchor, Blocks: in.shelf()},
		{Title: "How supplies were spread over the pieces", Head: "Supplies by piece", Anchor: spreadAnchor, Blocks: in.spread()},
		{Title: "Trips", Anchor: tripsAnchor, Blocks: in.trips()},
		{Title: "Bank", Anchor: bankAnchor, Blocks: in.bank()},
		{Title: "Commissions", Anchor: commissionsAnchor, Blocks: []page.Block{page.Together{Blocks: in.commissions()}}},
		{Title: "What changed against the month before", Head: "What changed", Anchor: changedAnchor, Blocks: in.changed()},
		{Title: "Reconciliations", Anchor: tiesAnchor, Blocks: in.ties()},
		{Title: "Notes", Anchor: notesAnchor, Blocks: append(in.notes(), in.absentTables()...)},
		{Title: "Cautions", Anchor: cautionsAnchor, Blocks: in.monthCautions()},
	}
	return d
}

// glance is page 1: the month in a sentence, in five figures, beside its
// twelve months, and what wants doing.
func (in *Input) glance(d page.Document) page.Section {
	title := d.Period
	right := "Month report"
	if d.Banner != "" {
		right = d.Banner + " · " + right
	}
	s := page.Section{Title: "The month at a glance", Head: "At a glance", Untitled: true}
	s.Blocks = []page.Block{page.Title{Text: title, Under: d.Shop, Right: right}}
	if len(in.Refused) > 0 {
		s.Blocks = append(s.Blocks, in.refused()...)
	}
	now := in.summary(in.Month)
	s.Blocks = append(s.Blocks,
		page.Paragraph{Style: page.Lead, Text: in.sentence(now)},
		in.fiveAnswers(now), in.monthBars())
	s.Blocks = append(s.Blocks, in.attention()...)
	s.Blocks = append(s.Blocks, in.counts(now))
	if in.Tally != "" {
		s.Blocks = append(s.Blocks, page.Paragraph{Style: page.Note, Text: in.Tally})
	}
	return s
}

// refused are the rows a draft leaves out.
func (in *Input) refused() []page.Block {
	out := []page.Block{page.Paragraph{Text: fmt.Sprintf(
		"This is a draft. The records have %s left out until put right:", plural(len(in.Refused), "problem, whose line is", "problems, whose lines are"))}}
	for _, p := range in.Refused {
		out = append(out, page.Paragraph{Style: page.Caution, Text: p.String()})
	}
	return out
}
