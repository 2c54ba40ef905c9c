// Package year composes a tax year's cost records (year.pdf) and the text of
// the folder handed to a preparer. They are records, not advice.
package year

import (
	"fmt"
	"slices"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
	"piecebook/templates"
)

// The anchors of the year's own sections.
const (
	linesAnchor   = "lines"
	expenseAnchor = "expenses"
	recordsAnchor = "keeping"
)

// Doc is the year's cost records (year.pdf): the net figure and what is
// missing first, then the form's lines, then the lists that each is made of.
func Doc(in report.YearInput) page.Document {
	d := in.Document("Cost records of the year")
	d.Period = fmt.Sprint(in.Tax.Year) // also of a year whose books begin in December
	d.Subject = "Cost records of " + d.Period + " for a licensed preparer"
	d.Sections = []page.Section{
		cover(&in, d),
		{Title: "The form's lines", Head: "Lines", Anchor: linesAnchor, NewPage: true, Blocks: formLines(&in)},
		{Title: "Cost of what was sold", Head: "Cost of sales", Anchor: taxyear.SecCost, NewPage: true, Blocks: costLines(&in)},
		{Title: "Income by channel", Head: "Income", Anchor: taxyear.SecIncome, NewPage: true, Blocks: income(&in)},
		{Title: "What channels reported", Head: "Channels", Anchor: taxyear.SecChannels, Blocks: reported(&in)},
		{Title: "Expenses, record by record", Head: "Expenses", Anchor: expenseAnchor, NewPage: true, Blocks: expenseRecords(&in)},
		{Title: "Pieces in stock at the year's end", Head: "Stock", Anchor: taxyear.SecStock, NewPage: true, Blocks: stockList(&in)},
		{Title: "The shelf at the year's end", Head: "Shelf", Anchor: taxyear.SecShelf, Blocks: shelfList(&in)},
		{Title: "Pieces that went unsold", Head: "Unsold", Anchor: taxyear.SecGone, Blocks: goneList(&in)},
		{Title: "Mileage log", Anchor: taxyear.SecMileage, NewPage: true, Blocks: mileageLog(&in)},
		{Title: "Equipment", Anchor: taxyear.SecEquipment, Blocks: equipmentRegister(&in)},
		{Title: "Sales tax", Anchor: taxyear.SecSalesTax, Blocks: salesTaxList(&in)},
		{Title: "Outside work, by who did it", Head: "Outside work", Anchor: taxyear.SecWorkers, Blocks: workersList(&in)},
		{Title: "Receipts", Anchor: taxyear.SecPapers, NewPage: true, Blocks: paperLists(&in)},
		{Title: "Reconciliations", Anchor: report.TiesAnchor, Blocks: yearTies(&in)},
		{Title: "Notes", Anchor: report.NotesAnchor, Blocks: in.NoteBlocks()},
		{Title: "Where the rules and line numbers come from, and how long to keep papers", Head: "Sources and keeping", Anchor: recordsAnchor, Blocks: keeping(&in)},
	}
	return d
}

// cover is page 1: the year in one sentence and five figures, what is missing
// while it can still be found, and what a preparer has to decide.
func cover(in *report.YearInput, d page.Document) page.Section {
	y := in.Tax
	s := page.Section{Title: "The year at a glance", Head: "At a glance", Untitled: true}
	right := "Cost records of the year"
	if d.Banner != "" {
		right = d.Banner + " · " + right
	}
	s.Blocks = append(s.Blocks, page.Title{Text: d.Period, Under: d.Shop, Right: right},
		page.Paragraph{Style: page.Lead, Text: yearSentence(in)},
		yearAnswers(in))
	if text := in.Cautions.RecordsOnly; text != "" {
		s.Blocks = append(s.Blocks, page.Paragraph{Style: page.Caution, Text: text + " The lines are those of " +
			y.Table.Form + "; the current instructions and a licensed preparer decide what goes on them."})
	}
	s.Blocks = append(s.Blocks, missingList(in, "What is missing", in.Missing(), "Nothing is missing that these "+
		"records could tell.")...)
	s.Blocks = append(s.Blocks, missingList(in, "For the preparer to decide", y.Remarks, "")...)
	s.Blocks = append(s.Blocks, page.Heading{Text: "How it was treated", Level: 1})
	set := in.Settings()
	for _, c := range []templates.Treatment{in.Law.Treatment("tax_supplies", set.TaxSupplies),
		in.Law.Treatment("tax_stock", set.TaxStock)} {
		if c.Words != "" {
			s.Blocks = append(s.Blocks, page.Paragraph{Text: c.Words, Tail: c.Source + "."})
		}
	}
	s.Blocks = append(s.Blocks, page.Paragraph{Text: "Money counts on the day it came or was paid; part " +
		"payments too. The " +
		"owner's own work is never a cost."})
	if in.Tally != "" {
		s.Blocks = append(s.Blocks, page.Paragraph{Style: page.Note, Text: in.Tally})
	}
	return s
}

// yearSentence says the year in one sentence.
func yearSentence(in *report.YearInput) string {
	y := in.Tax
	n := 0
	for _, p := range y.Figures.Pieces {
		if in.SoldIn(p) {
			n++
		}
	}
	return fmt.Sprintf("In %d the shop sold %s, received %s and made a %s of %s (line %s%s).", y.Year,
		words.Plural(n, "piece", "pieces"),
		in.Spoken(y.Figures.Statement.GrossReceipts), words.NetName(y.Net()), in.Spoken(y.Net().Abs()), y.Table.Holds.Profit,
		words.After(", ", y.Table.Words.Net))
}

func yearAnswers(in *report.YearInput) page.Block {
	y := in.Tax
	answer := func(line, text string) page.KeyFigure {
		return page.KeyFigure{Figure: page.FullMoney(int64(y.Amount(line))), Words: text + ", line " + line}
	}
	return page.KeyFigures{Items: []page.KeyFigure{answer(y.Table.Holds.Profit, words.NetName(y.Net())),
		answer(y.Number(figures.LineGrossReceipts), "received"), answer(y.Table.Holds.Cost, "cost of sales"),
		answer(y.Table.Holds.Expenses, "expenses"), answer(y.Number(figures.LineClosingStock), "stock at the end")}}
}

// missingList tells things, each leading to its pages.
func missingList(in *report.YearInput, heading string, list []taxyear.Missing, none string) []page.Block {
	if len(list) == 0 {
		if none == "" {
			return nil
		}
		return []page.Block{page.Heading{Text: heading, Level: 1}, page.Paragraph{Text: none}}
	}
	t := page.Table{NoHead: true, Columns: []page.Column{{Kind: page.KindNumber}, {Weight: 1}, {Kind: page.KindMoney}}}
	for i, m := range list {
		cell := page.Text(m.Words)
		if m.Section != "" {
			cell = page.TextTo(m.Words, m.Section)
		}
		amount := page.Empty()
		if m.Cents != 0 {
			amount = cells.Money(m.Cents)
		}
		t.Rows = append(t.Rows, page.Line(cells.Count(i+1), cell, amount))
	}
	return []page.Block{page.Heading{Text: heading, Level: 1}, t}
}

// formLines is the form's lines in its order.
func formLines(in *report.YearInput) []page.Block {
	y := in.Tax
	t := page.Table{Columns: []page.Column{{Head: "Line"}, {Head: "What stands on it, in our words", Weight: 2},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Look at", Small: true}}}
	part := ""
	for _, l := range y.Lines {
		if l.Part != part {
			part = l.Part
			t.Rows = append(t.Rows, page.Styled(page.Group, page.Text("Part "+part)))
		}
		style := page.Normal
		if len(l.Adds) > 1 {
			style = page.Subtotal
		}
		if l.Line == y.Table.Holds.Profit {
			style = page.GrandTotal
		}
		row := page.Styled(style, page.Text(l.Line), page.Text(l.Label), cells.Money(l.Cents), lineLink(in, l))
		if l.Check != "" && l.Cents != 0 {
			row.Note = "Check the printed form. " + l.Check
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = y.Table.Outside + " Each amount is a sum of postings: piecebook why line " + y.Table.Holds.Profit + " " +
		fmt.Sprint(y.Year) + " tells them, line by line, each with its record."
	out := []page.Block{page.Paragraph{Text: fmt.Sprintf("%s, tax year %d.", y.Table.Form, y.Year)}}
	if y.Table.Check != "" {
		out = append(out, page.Paragraph{Style: page.Caution, Text: y.Table.Check})
	}
	return append(out, t, page.Paragraph{Style: page.Note, Link: recordsAnchor, Text: y.Table.Words.Numbers +
		" Where each rule and line number comes from is on the page of sources."})
}

// linePages are the pages that have the records of what a line takes.
var linePages = []struct {
	id          figures.ID
	title, page string
}{
	{figures.LineGrossReceipts, "Income", taxyear.SecIncome}, {figures.LineRefunds, "Income", taxyear.SecIncome}, {figures.LineOtherIncome, "Income", taxyear.SecIncome},
	{figures.LineTrips, "Mileage log", taxyear.SecMileage}, {figures.LineDepreciation, "Equipment", taxyear.SecEquipment},
}

// lineLink leads from a line to the pages with its records.
func lineLink(in *report.YearInput, l taxyear.Line) page.Cell {
	for _, x := range linePages {
		if in.Tax.Number(x.id) == l.Line {
			return page.TextTo(x.title, x.page)
		}
	}
	switch {
	case ofCost(in, l):
		return page.TextTo("Cost of sales", taxyear.SecCost)
	case len(l.Takes) > 0:
		return page.TextTo("Expenses", expenseAnchor)
	}
	return page.Empty()
}

// ofCost says that a line is one of those that cost of sales is made of.
func ofCost(in *report.YearInput, l taxyear.Line) bool {
	return slices.Contains(in.Tax.Table.Under(in.Tax.Table.Holds.Cost), l.Line)
}

// costLines is cost of goods sold as a roll-forward on the form's lines, each
// line's parts above it, and where the same cost is reached from what was sold.
func costLines(in *report.YearInput) []page.Block {
	y := in.Tax
	t := page.Table{Columns: []page.Column{{Head: "Line"}, {Head: "What", Weight: 1},
		{Head: "Of which", Kind: page.KindMoney}, {Head: "Amount", Kind: page.KindMoney}}}
	for _, l := range y.Lines {
		if !ofCost(in, l) {
			continue
		}
		style := page.Normal
		if len(l.Adds) > 1 {
			style = page.Subtotal
		}
		if l.Line == y.Table.Holds.Cost {
			style = page.GrandTotal
		}
		if len(l.Takes) > 1 {
			for _, x := range l.Parts {
				t.Rows = append(t.Rows, page.Styled(page.Quiet, page.Empty(), page.Text(words.Capital(x.Name)),
					cells.Money(x.Cents)))
			}
		}
		t.Rows = append(t.Rows, page.Styled(style, page.Text(l.Line), page.Text(l.Label), page.Empty(), cells.Money(l.Cents)))
	}
	out := []page.Block{t}
	if tie := tieNamed(in, taxyear.TieCost); tie != nil {
		out = append(out, page.Paragraph{Text: "Reached from what was sold and lost it is the same: see Reconciliations, " +
			tie.Name + "."})
	}
	out = append(out, turnover(in))
	return append(out, page.Paragraph{Style: page.Note, Text: in.Cautions.RecordsOnly})
}

// turnover is each month's part of the pieces' roll-forward, so that the
// year's lines can be followed to the month packs.
func turnover(in *report.YearInput) page.Block {
	t := page.Table{Caption: "Month by month", Columns: append([]page.Column{{Head: "Month", Weight: 1}},
		page.Cols(page.KindMoney, "Acquired", "Parts", "Outside work", "Supplies bought", "Cost of pieces sold",
			"Shelf losses", "Pieces lost", "Kept or donated")...)}
	var sum [8]money.Cents
	for _, m := range in.Tax.Months {
		var bought money.Cents
		for _, s := range m.Shelf {
			bought += s.Bought
		}
		st := m.Statement
		row := page.Line(page.Text(m.To.Of().String()))
		for i, c := range []money.Cents{m.Stock.Acquired, m.Stock.Parts, m.Stock.OutsideWork, bought, st.CostOfPiecesSold,
			st.ShelfLosses, st.PiecesLost, st.KeptOrDonated} {
			row.Cells = append(row.Cells, cells.Money(c))
			sum[i] += c
		}
		t.Rows = append(t.Rows, row)
	}
	total := page.Styled(page.GrandTotal, page.Text("The year"))
	for _, c := range sum {
		total.Cells = append(total.Cells, cells.Money(c))
	}
	t.Rows = append(t.Rows, total)
	t.Note = "As the months' own pages have them."
	if lines := in.Tax.Table.Under(in.Tax.Table.Holds.Cost); in.Tax.WhenUsed && len(lines) > 0 {
		t.Note += fmt.Sprintf(" Supplies that do not stay on the piece are in these amounts, though not in the form's "+
			"lines %s to %s.", lines[0], lines[len(lines)-1])
	}
	return t
}
