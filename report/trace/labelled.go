package trace

import (
	"cmp"
	"slices"

	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// Labelled is the first figure of a document that stands beside a label and
// opens; false where there is none. What is a label of its own goes before what
// only stands beside a figure.
func Labelled(d page.Document, label string) (page.Cell, bool) {
	var found page.Cell
	look := func(name string, c page.Cell) {
		if found.Of == nil && c.Of != nil && words.SameLabel(name, label) {
			found = c
		}
	}
	for _, s := range d.Sections {
		page.EachTable(s.Blocks, func(t page.Table) { openTotals(s.Title, t) })
		page.EachLabel(s.Blocks, look)
	}
	for _, s := range d.Sections {
		page.EachMention(s.Blocks, look)
	}
	return found, found.Of != nil
}

// InRow is the figure of the row with an anchor, under a column's head; false
// where there is none that opens.
func InRow(d page.Document, anchor, head string) (page.Cell, bool) {
	var found page.Cell
	eachRow(d, func(t page.Table, r page.Row) {
		at := slices.IndexFunc(t.Columns, func(c page.Column) bool { return words.SameLabel(c.Head, head) })
		if r.Anchor == anchor && at >= 0 && at < len(r.Cells) && found.Of == nil {
			found = r.Cells[at]
		}
	})
	return found, found.Of != nil
}

// RowsUnder are the names of the rows that have a figure which opens under a
// column's head, in the first table with such a column.
func RowsUnder(d page.Document, head string) []string {
	var out []string
	var first string // the table's first row: tables have no name of their own
	eachRow(d, func(t page.Table, r page.Row) {
		table := page.RowName(t.Rows[0])
		at := slices.IndexFunc(t.Columns, func(c page.Column) bool { return words.SameLabel(c.Head, head) })
		if at >= 0 && at < len(r.Cells) && r.Cells[at].Of != nil && page.RowName(r) != "" &&
			(len(out) == 0 || table == first) {
			out, first = append(out, page.RowName(r)), table
		}
	})
	return out
}

// OtherColumns are the heads of the further figures in the row of a label, where
// the first of them is the label's; none where the label names a column too.
func OtherColumns(d page.Document, label string) []string {
	var out []string
	eachRow(d, func(t page.Table, r page.Row) {
		if out != nil || !words.SameLabel(page.RowName(r), label) {
			return
		}
		for i, c := range r.Cells {
			if i < len(t.Columns) && c.Of != nil && t.Columns[i].Head != "" {
				out = append(out, t.Columns[i].Head)
			}
		}
	})
	return out[min(1, len(out)):]
}

// eachRow visits the rows of a document's tables.
func eachRow(d page.Document, visit func(page.Table, page.Row)) {
	for _, s := range d.Sections {
		page.EachTable(s.Blocks, func(t page.Table) {
			for _, r := range t.Rows {
				visit(t, r)
			}
		})
	}
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
