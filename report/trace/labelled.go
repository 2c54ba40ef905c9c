package trace

import (
	"cmp"

	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// Labelled is the first figure of a document that stands beside a label and
// opens; false where there is none.
func Labelled(d page.Document, label string) (page.Cell, bool) {
	var found page.Cell
	for _, s := range d.Sections {
		page.EachTable(s.Blocks, func(t page.Table) { openTotals(s.Title, t) })
		page.EachLabel(s.Blocks, func(name string, c page.Cell) {
			if found.Of == nil && c.Of != nil && words.SameLabel(name, label) {
				found = c
			}
		})
	}
	return found, found.Of != nil
}

// Figure is what a figure of a document is made of, as a document of its own.
func Figure(in report.Input, c page.Cell) page.Document {
	o := newOpener(in)
	detail := o.detail(o.settled(c.Of))
	d := in.Document("Why")
	d.Subject = detail.Title
	d.Sections = []page.Section{{Title: detail.Title + ": " + cmp.Or(c.Text, in.Spoken(money.Cents(c.Cents))),
		Blocks: detail.Blocks}}
	return d
}
