// Package month composes the month's report (month.pdf) in five pages: the
// month and what to do next; stock and channels; the statement; the shelf;
// trips, payouts, checks, notes and cautions.
package month

import (
	"fmt"
	"slices"

	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// The anchors of the month's sections, for links between them.
const (
	stockAnchor     = "stock"
	statementAnchor = report.StatementAnchor
	shelfAnchor     = "shelf"
	restAnchor      = "rest"
	payoutsAnchor   = "payouts"
	clientsAnchor   = "clients"
)

// Doc is the month's report (month.pdf). A page's section that has nothing to
// say is left out, and short ones share a page.
func Doc(in report.Input) page.Document {
	d := in.Document("Month report")
	d.Subject = "Costs, sales and stock of " + d.Period
	d.Sections = []page.Section{glance(&in, d)}
	add := func(s page.Section) {
		if len(s.Blocks) > 0 {
			s.NewPage, s.Joins, s.Long = true, true, s.Blocks
			d.Sections = append(d.Sections, s)
		}
	}
	add(page.Section{Title: "Stock and channels", Anchor: stockAnchor, Blocks: append(stock(&in), channels(&in)...)})
	add(page.Section{Title: "Statement", Anchor: statementAnchor, Blocks: append(statement(&in), changed(&in)...)})
	add(page.Section{Title: "The shelf", Anchor: shelfAnchor, Blocks: shelf(&in)})
	add(rest(&in))
	add(page.Section{Title: "Supplies by piece", IfRoom: true, Blocks: spread(&in)})
	return d
}

// glance is page 1: the month in a sentence, in figures that follow from each
// other, beside its twelve months, the pieces sold, and what to do next.
func glance(in *report.Input, d page.Document) page.Section {
	right := "Month report"
	if d.Banner != "" {
		right = d.Banner + " · " + right
	}
	s := page.Section{Title: "The month", Untitled: true}
	s.Blocks = []page.Block{page.Title{Text: d.Period, Under: d.Shop, Right: right}}
	if len(in.Refused) > 0 {
		s.Blocks = append(s.Blocks, refused(in)...)
	}
	now := summaryOf(in, in.Month)
	s.Blocks = append(s.Blocks, page.Says(page.Lead, sentence(in, now)))
	s.Blocks = slices.Concat(s.Blocks, keyFigures(in, now), monthBars(in))
	// Where all has no room on one page, what to do next stays on it.
	s.Long = slices.Concat(s.Blocks, doNext(in), sold(in))
	s.Blocks = slices.Concat(s.Blocks, sold(in), doNext(in))
	return s
}

// refused are the rows a draft leaves out.
func refused(in *report.Input) []page.Block {
	out := []page.Block{page.Paragraph{Text: fmt.Sprintf("This is a draft. The records have %s left out until put right:",
		words.Plural(len(in.Refused), "problem, whose line is", "problems, whose lines are"))}}
	for _, p := range in.Refused {
		out = append(out, page.Paragraph{Style: page.Caution, Text: p.String()})
	}
	return out
}
