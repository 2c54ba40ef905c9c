package trace

import (
	"fmt"
	"maps"
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

// termsOf is a figure as the sum of others.
func (o *opener) termsOf(terms []report.Term) page.Detail {
	if len(terms) == 0 {
		return page.Detail{Figure: cells.Full(0), Blocks: nothingPosted}
	}
	t := o.terms(terms)
	figure := cells.Full((&report.Worked{Terms: terms}).Total())
	t.AddStyled(page.GrandTotal, page.Text("Together"), figure)
	return page.Detail{Figure: figure, Blocks: []page.Block{t}}
}

// nothingPosted is what stands where a figure has no postings.
var nothingPosted = []page.Block{page.Paragraph{Text: "Nothing was posted under it."}}

// terms is a row for each term, with its records where any has some.
func (o *opener) terms(terms []report.Term) page.Table {
	t := page.Table{NoHead: true, Columns: page.Heads{}.Wide(1, "").Money("")}
	for _, x := range o.shortened(terms) {
		label := x.Label
		if brief, ok := x.Of.(report.Brief); ok {
			label += ": " + o.arithmetic(brief.Sum)
			x.Of, x.Source = nil, nil
			for p := range o.under(brief.Sum) {
				x.Source = append(x.Source, p.Source...)
			}
		}
		row := page.Line(page.TextTo(label, x.Link), cells.Money(x.Cents).Opens(x.Of))
		if len(x.Source) > 0 {
			row.Cells = append(row.Cells, page.Text(words.Sources(x.Source)))
		}
		t.Rows = append(t.Rows, row)
	}
	if slices.ContainsFunc(t.Rows, func(r page.Row) bool { return len(r.Cells) > 2 }) {
		t.NoHead = false
		t.Columns = []page.Column{whatColumn, amountColumn, recordColumn}
	}
	return t
}

// arithmetic is what a line adds up: receipts 190.00 − acquisition 18.00.
func (o *opener) arithmetic(s report.Sum) string {
	var out strings.Builder
	for _, leaf := range figures.Leaves(s.Of, s.ID) {
		part := s
		part.ID = leaf.ID
		cents := money.Cents(leaf.Sign) * o.total(part)
		switch {
		case cents == 0:
			continue
		case out.Len() > 0 && cents < 0:
			out.WriteString(" − ")
		case out.Len() > 0:
			out.WriteString(" + ")
		case cents < 0:
			out.WriteString("− ")
		}
		out.WriteString(words.Uncapital(words.Label(s.Of, leaf.ID)) + " " + cents.Abs().Grouped())
	}
	return out.String()
}

// worked is a figure's arithmetic: terms that add up to it, or a sentence with
// the figures in it.
func (o *opener) worked(w *report.Worked) page.Detail {
	if w.Words == "" {
		d := o.termsOf(w.Terms)
		d.Title = w.Title
		return d
	}
	d := page.Detail{Title: w.Title, Blocks: []page.Block{page.Paragraph{Text: w.Words}}}
	if w.Cents != 0 {
		d.Figure = cells.Full(w.Cents)
	}
	if len(w.Terms) > 0 {
		d.Blocks = append(d.Blocks, o.terms(w.Terms))
	}
	return d
}

// posting is a posting's row: its day, its arithmetic and its records. A share
// leads to its whole, a piece to its sheet, a day of the period to the
// statement.
func (o *opener) posting(p ledger.Posting, columns []page.Column) page.Row {
	row := page.Row{Cells: make([]page.Cell, 0, len(columns))}
	for _, c := range columns {
		cell := page.Empty()
		switch c.Head {
		case dateColumn.Head:
			cell = page.Date(o.in.Day(p.Date))
			if p.Month == o.in.Month.To {
				cell.Link = report.StatementAnchor
			}
		case whatColumn.Head:
			said := words.WhatOf(p)
			if p.Supply != "" || p.How.Method == ledger.Overhead {
				said = words.OfWhole(p)
			}
			cell = page.Text(said.String())
			if p.Of != nil && len(p.Of.Lines)+len(p.Of.Months) > 0 {
				whole := page.Cell{Text: said.Whole, Of: report.Whole{Shared: p.Of}}
				cell.Said = page.Sentence{page.Text(said.Before), whole, page.Text(said.After)}
			}
		case pieceColumn.Head:
			cell = page.TextTo(p.Piece, report.SheetAnchor(p.Piece))
		case supplyColumn.Head:
			cell = page.TextTo(p.Supply, report.SupplyAnchor(p.Supply))
		case amountColumn.Head:
			cell = cells.Money(p.Cents)
			if of := o.cost(p); of != nil {
				cell.Of = of
			}
		case recordColumn.Head:
			cell = page.Text(words.AllSources(recordsOf(o.in, p)))
		}
		row.Cells = append(row.Cells, cell)
	}
	return row
}

var supplyColumn = page.Column{Head: "Supply"}

// list is postings under each other; many of months before the period are a row
// for each month and reason.
func (o *opener) list(title string, postings []ledger.Posting) page.Detail {
	d := page.Detail{Title: title, Figure: cells.Full(total(postings))}
	if len(postings) == 0 {
		d.Blocks = nothingPosted
		return d
	}
	rows := &ledgerTable{o: o, Table: page.Table{Columns: slices.Clone(listColumns)}}
	earlier := map[calendar.Month][]ledger.Posting{}
	var now []ledger.Posting
	for _, p := range postings {
		if p.Month < o.in.Month.From {
			earlier[p.Month] = append(earlier[p.Month], p)
		} else {
			now = append(now, p)
		}
	}
	if len(postings)-len(now) <= mostElsewhere {
		now = postings
	} else {
		for _, m := range slices.Sorted(maps.Keys(earlier)) {
			rows.byReason(page.Text(m.Name()), earlier[m])
		}
	}
	rows.take(now)
	t := withoutEmpty(rows.Table, pieceColumn.Head, supplyColumn.Head)
	t.AddSum(page.GrandTotal, "Together", amountColumn.Head).Cells[len(t.Columns)-2] = d.Figure
	d.Blocks = []page.Block{t}
	return d
}

// listColumns are the columns of a list of postings.
var listColumns = []page.Column{dateColumn, whatColumn, pieceColumn, supplyColumn, amountColumn, recordColumn}

// cost is what the book cost that a piece left or came back at is made of; nil
// where the posting is of something else.
func (o *opener) cost(p ledger.Posting) page.Ref {
	if p.Piece == "" || p.Month != o.in.Month.To ||
		p.How.Method != ledger.BookCost && p.How.Method != ledger.BookCostBefore {
		return nil
	}
	of := report.Sum{Of: figures.OfPiece, ID: figures.LineBookCost, Subject: p.Piece, To: p.Month}
	if p.How.Method == ledger.BookCostBefore {
		of.To--
	}
	if o.total(of) != p.Cents {
		return nil
	}
	return of
}

// withoutEmpty drops the named columns in which no row says anything.
func withoutEmpty(t page.Table, heads ...string) page.Table {
	for c := len(t.Columns) - 1; c >= 0; c-- {
		if !slices.Contains(heads, t.Columns[c].Head) ||
			slices.ContainsFunc(t.Rows, func(r page.Row) bool { return r.Cells[c].Text != "" }) {
			continue
		}
		t.Columns = slices.Delete(t.Columns, c, c+1)
		for i := range t.Rows {
			t.Rows[i].Cells = slices.Delete(t.Rows[i].Cells, c, c+1)
		}
	}
	return t
}

// whole is a total that was shared: where it came from, and all its parts.
func (o *opener) whole(s *ledger.Shared) page.Detail {
	d := page.Detail{Title: wholeTitle(s), Figure: cells.Full(s.Total)}
	if len(s.Drawn) > 0 {
		t := page.Table{Caption: "Taken, oldest first",
			Columns: page.Heads{}.Wide(1, "What").Money("Comes to").With(recordColumn)}
		t.Rows = o.stock.drawnRows(s)[1:]
		d.Blocks = append(d.Blocks, t)
	} else if len(s.Source) > 0 {
		d.Blocks = append(d.Blocks, page.Paragraph{Text: "Record: " + words.AllSources(s.Source) + "."})
	}
	if s.Reason == ledger.ReasonBoughtAgain {
		d.Blocks = append(d.Blocks, spanTable(s))
	} else if len(s.Lines) > 0 {
		d.Blocks = append(d.Blocks, o.tables([]*ledger.Shared{s}, false)...)
	}
	return d
}

// wholeTitle says what was shared.
func wholeTitle(s *ledger.Shared) string {
	switch text := words.Total(s); {
	case s.Supply != "":
		return fmt.Sprintf("%s, %s", s.Supply, words.Months(s.Span()))
	case text != "":
		return words.Capital(text)
	}
	return words.Capital(string(s.Reason))
}

// titleInMonth is it among others of its month.
func titleInMonth(s *ledger.Shared) string {
	if from, to := s.Span(); s.Supply != "" && from == to {
		return s.Supply
	}
	return wholeTitle(s)
}

// spanTable is the months of a span that was estimated again, each shared by
// itself.
func spanTable(s *ledger.Shared) page.Table {
	t := page.Table{Caption: "Estimated again, month by month",
		Columns: page.Heads{}.Text("Month").Money("Shared").Number("Over").Text("By")}
	for _, call := range s.Calls() {
		t.Add(page.Text(words.Months(call.Span())), cells.Money(call.Total).Opens(report.Whole{Shared: call}),
			page.Number(money.AtMost(call.Weight(), 4)), page.Text(words.SharedBy(call)))
	}
	return t
}

// shortened are terms of which those of many pieces that are not in the file are
// one: what they come to at the end of a month before, in that month's own file.
func (o *opener) shortened(terms []report.Term) []report.Term {
	elsewhere := func(x report.Term) bool {
		brief, ok := x.Of.(report.Brief)
		return ok && !o.here[brief.Subject] && brief.To != 0 && brief.To < o.in.Month.From
	}
	var out, others []report.Term
	for _, x := range terms {
		if elsewhere(x) {
			others = append(others, x)
		} else {
			out = append(out, x)
		}
	}
	if len(others) <= mostElsewhere {
		return terms
	}
	var sum report.Term
	for _, x := range others {
		brief := x.Of.(report.Brief)
		sum.Cents += x.Cents
		sum.Label = fmt.Sprintf("%d other pieces, each in the report of %s", len(others), brief.To.Name())
		for p := range o.under(brief.Sum) {
			sum.Source = append(sum.Source, p.Source...)
		}
	}
	return append(out, sum)
}
