// Package month composes the month's report (month.pdf): the month at a glance,
// the statement, then the lists each of its lines is made of.
package month

import (
	"fmt"

	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
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
	cautionsAnchor    = "cautions"
)

// Doc is the month's report (month.pdf), from whole to part: the month
// at a glance, the statement, then the lists that each of its lines is made of.
func Doc(in report.Input) page.Document {
	d := in.Document("Month report")
	d.Subject = "Costs, sales and stock of " + d.Period
	d.Sections = []page.Section{
		glance(&in, d),
		{Title: "Statement", Anchor: statementAnchor, NewPage: true, Blocks: statement(&in)},
		{Title: "Pieces sold", Anchor: soldAnchor, NewPage: true, Blocks: sold(&in)},
		{Title: "Pieces in stock", Anchor: stockAnchor, Blocks: inStock(&in)},
		{Title: "The shelf", Anchor: shelfAnchor, Blocks: shelf(&in)},
		{Title: "How supplies were spread over the pieces", Head: "Supplies by piece", Anchor: spreadAnchor, Blocks: spread(&in)},
		{Title: "Trips", Anchor: tripsAnchor, Blocks: trips(&in)},
		{Title: "Bank", Anchor: bankAnchor, Blocks: bank(&in)},
		{Title: "Commissions", Anchor: commissionsAnchor, Blocks: []page.Block{page.KeepTogether{Blocks: commissions(&in)}}},
		{Title: "What changed against the month before", Head: "What changed", Anchor: changedAnchor, Blocks: changed(&in)},
		{Title: "Reconciliations", Anchor: report.TiesAnchor, Blocks: ties(&in)},
		{Title: "Notes", Anchor: report.NotesAnchor, Blocks: append(in.NoteBlocks(), absentTables(&in)...)},
		{Title: "Cautions", Anchor: cautionsAnchor, Blocks: monthCautions(&in)},
	}
	d.Sections = append(d.Sections, corrected(&in)...)
	return d
}

// glance is page 1: the month in a sentence, in five figures, beside its
// twelve months, and what wants doing.
func glance(in *report.Input, d page.Document) page.Section {
	title := d.Period
	right := "Month report"
	if d.Banner != "" {
		right = d.Banner + " · " + right
	}
	s := page.Section{Title: "The month at a glance", Head: "At a glance", Untitled: true}
	s.Blocks = []page.Block{page.Title{Text: title, Under: d.Shop, Right: right}}
	if len(in.Refused) > 0 {
		s.Blocks = append(s.Blocks, refused(in)...)
	}
	now := summaryOf(in, in.Month)
	s.Blocks = append(s.Blocks,
		page.Paragraph{Style: page.Lead, Text: sentence(in, now)},
		fiveAnswers(in, now), monthBars(in))
	s.Blocks = append(s.Blocks, attention(in)...)
	s.Blocks = append(s.Blocks, counts(in, now))
	if in.Tally != "" {
		s.Blocks = append(s.Blocks, page.Paragraph{Style: page.Note, Text: in.Tally})
	}
	return s
}

// refused are the rows a draft leaves out.
func refused(in *report.Input) []page.Block {
	out := []page.Block{page.Paragraph{Text: fmt.Sprintf(
		"This is a draft. The records have %s left out until put right:", words.Plural(len(in.Refused), "problem, whose line is", "problems, whose lines are"))}}
	for _, p := range in.Refused {
		out = append(out, page.Paragraph{Style: page.Caution, Text: p.String()})
	}
	return out
}
