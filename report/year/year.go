// Package year composes a tax year's cost records (year.pdf) and the text of
// the folder handed to a preparer. They are records, not advice.
package year

import (
	"fmt"
	"slices"

	"piecebook/ledger"
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
	recordsAnchor = "keeping"
)

// Doc is the year's cost records (year.pdf): the net figure and what is
// missing first, then the form's lines, then the lists that each is made of.
func Doc(in report.YearInput) page.Document {
	d := in.Document("Cost records of the year")
	d.Period = fmt.Sprint(in.Tax.Year) // also of a year whose books begin in December
	d.Subject = "Cost records of " + d.Period + " for a licensed preparer"
	d.Sections = []page.Section{cover(&in, d)}
	add := func(section page.Section) {
		if len(section.Blocks) > 0 {
			d.Sections = append(d.Sections, section)
		}
	}
	add(page.Section{Title: "The form's lines", Head: "Lines", Anchor: linesAnchor, NewPage: fitsCover(&in),
		Blocks: formLines(&in)})
	add(page.Section{Title: "Cost of what was sold", Anchor: taxyear.SecCost, NewPage: true, Blocks: costLines(&in)})
	add(page.Section{Title: "Income by channel", Head: "Income", Anchor: taxyear.SecIncome, Blocks: income(&in)})
	add(page.Section{Title: "Expenses", Anchor: taxyear.SecExpenses, Blocks: expenses(&in)})
	add(page.Section{Title: "Payments to others", Head: "Payees", Anchor: taxyear.SecPayees, Blocks: payees(&in)})
	add(page.Section{Title: "Equipment", Anchor: taxyear.SecEquipment, Blocks: equipmentRegister(&in)})
	add(page.Section{Title: "Use of the home", Head: "Home", Anchor: taxyear.SecHome, Blocks: homeUse(&in)})
	add(page.Section{Title: "Sales tax", Anchor: taxyear.SecSalesTax, Blocks: salesTaxList(&in)})
	add(page.Section{Title: "Pieces that went unsold", Head: "Unsold", Anchor: taxyear.SecGone, Blocks: goneList(&in)})
	add(page.Section{Title: "Pieces in stock at " + in.Tax.End(), Head: "Stock", Anchor: taxyear.SecStock,
		Blocks: stockList(&in)})
	add(page.Section{Title: "The shelf at " + in.Tax.End(), Head: "Shelf", Anchor: taxyear.SecShelf,
		Blocks: shelfList(&in)})
	add(page.Section{Title: "Mileage log", Anchor: taxyear.SecMileage, Blocks: mileageLog(&in)})
	add(page.Section{Title: "Costs without a receipt", Head: "Receipts", Anchor: taxyear.SecPapers,
		Blocks: noReceipt(&in)})
	add(page.Section{Title: "Reconciliations", Anchor: report.TiesAnchor, Blocks: yearTies(&in)})
	add(page.Section{Title: "Where the rules and line numbers come from, and how long to keep papers",
		Head: "Sources and keeping", Anchor: recordsAnchor, Blocks: keeping(&in)})
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
		page.Says(page.Lead, yearSentence(in, in.Said)), yearAnswers(in))
	if text := in.Cautions.RecordsOnly; text != "" {
		if y.Table.Money.Code == in.Settings().Currency {
			text += " The lines are those of " + y.Table.Form + "."
		}
		s.Blocks = append(s.Blocks, page.Paragraph{Style: page.Caution, Text: text})
	}
	s.Blocks = append(s.Blocks, missingList(in, "What is missing", in.Missing(), "Nothing is missing that these "+
		"records could tell.")...)
	s.Blocks = append(s.Blocks, missingList(in, "For the preparer to decide", y.Remarks, "")...)
	return s
}

// fitsCover says that what is missing and what is to be decided fit on page 1,
// so that the lines can begin on the next; else they follow where it ends.
func fitsCover(in *report.YearInput) bool {
	const letters, lines = 100, 40 // of a line there, and of the page
	n := 0
	for _, m := range slices.Concat(in.Missing(), in.Tax.Remarks) {
		n += 1 + len(words.YearNote(m.Note))/letters
	}
	return n <= lines
}

// treatment is how stock and supplies were treated, as chosen in settings.toml.
func treatment(in *report.YearInput) []page.Block {
	out := []page.Block{page.Heading{Text: "How it was treated", Level: 1}}
	set := in.Settings()
	for _, c := range []templates.Treatment{in.Law.Treatment("tax_supplies", set.TaxSupplies),
		in.Law.Treatment("tax_stock", set.TaxStock)} {
		if c.Words != "" {
			out = append(out, page.Paragraph{Text: c.Words, Tail: c.Source + "."})
		}
	}
	out = append(out, page.Paragraph{Text: "A sale counts on the day it was made (sold on in Sales), a part payment on " +
		"its own day; costs on the day they were paid. The day a channel paid the money out changes nothing here: a " +
		"sale of December paid out in January stands in December. Whether it counts otherwise is the preparer's to " +
		"decide. The owner's own work is never a cost."})
	if in.Tally != "" {
		out = append(out, page.Paragraph{Style: page.Note, Text: in.Tally})
	}
	return out
}

// yearSentence says the year in one sentence, and where the months' reports have
// another net profit; said is how its amounts are written.
func yearSentence(in *report.YearInput, said func(money.Cents, page.Ref) page.Cell) page.Sentence {
	y := in.Tax
	own, clients := 0, ""
	n := 0
	for _, p := range y.Figures.Pieces {
		switch {
		case !in.SoldIn(p):
		case p.Record.How == ledger.Client:
			n++
		default:
			own++
		}
	}
	if n > 0 {
		clients = ", finished work on " + words.Plural(n, "client's piece", "clients' pieces")
	}
	st := y.Figures.Statement
	of := func(id figures.ID) page.Ref {
		return report.Sum{Of: figures.OfStatement, ID: id, From: y.Figures.From, To: y.Figures.To}
	}
	text := page.Say(span(y)+" the shop sold "+words.Plural(own, "piece", "pieces")+clients+", received %s and made a "+
		words.NetName(y.Net())+" of %s", said(st.GrossReceipts, of(figures.LineGrossReceipts)),
		said(y.Net().Abs(), lineOf(in, y.Line(y.Table.Holds.Profit))))
	text = append(text, page.Text(" (line "+y.Table.Holds.Profit+words.After(", ", y.Table.Words.Net)))
	if st.NetProfit != y.Net() {
		text = append(text, page.Say("; %s in the months' reports", said(st.NetProfit, of(figures.LineNetProfit)))...)
	}
	return append(text, page.Text(")."))
}

// span is the time the year's records cover: the year, or its months so far.
func span(y *taxyear.Year) string {
	first := y.Months[0].From
	switch {
	case y.Whole():
		return fmt.Sprintf("In %d", y.Year)
	case y.Last == 0:
		return fmt.Sprintf("In %d so far", y.Year)
	case first >= y.Last:
		return "In " + y.Last.Name() + ", the year so far,"
	case first+1 == y.Last:
		return fmt.Sprintf("In %s and %s, the year so far,", first.Of(), y.Last.Name())
	}
	return fmt.Sprintf("From %s to %s, the year so far,", first.Of(), y.Last.Name())
}

func yearAnswers(in *report.YearInput) page.Block {
	y := in.Tax
	answer := func(line, text string) page.KeyFigure {
		return page.KeyFigure{Figure: cells.Full(y.Amount(line)).Opens(lineOf(in, y.Line(line))),
			Words: text + ", line " + line}
	}
	// An amount may be one of several that its line takes.
	taken := func(id figures.ID, text string) page.KeyFigure {
		number, c := y.Taking(id)
		if y.Alone(id) == "" {
			text += ", in"
		} else {
			text += ","
		}
		cell := cells.Full(c)
		for _, l := range y.Lines {
			for _, p := range l.Parts {
				if p.Amount == id && p.Cents.Abs() == c.Abs() {
					cell = cell.Opens(partOf(in, &l, p))
				}
			}
		}
		return page.KeyFigure{Figure: cell, Words: text + " line " + number}
	}
	closing := "stock at the end"
	if !y.Whole() && y.Last != 0 {
		closing += " of " + y.Last.Of().String()
	}
	return page.KeyFigures{Items: []page.KeyFigure{answer(y.Table.Holds.Profit, words.NetName(y.Net())),
		taken(figures.LineGrossReceipts, "received"), answer(y.Table.Holds.Cost, "cost of what was sold"),
		answer(y.Table.Holds.Expenses, "expenses"), taken(figures.LineClosingStock, closing)}}
}

// missingList tells things, each leading to its pages.
func missingList(in *report.YearInput, heading string, list []taxyear.Missing, none string) []page.Block {
	if len(list) == 0 {
		if none == "" {
			return nil
		}
		return []page.Block{page.Heading{Text: heading, Level: 1}, page.Paragraph{Text: none}}
	}
	t := page.Table{NoHead: true, Columns: page.Heads{}.Number("").Wide(1, "").Money("")}
	for i, m := range list {
		text := words.YearNote(m.Note)
		cell := page.Text(text)
		if m.Section != "" {
			cell = page.TextTo(text, m.Section)
		}
		amount := page.Empty()
		if m.Cents != 0 {
			amount = cells.Money(m.Cents).Opens(report.InWords(fmt.Sprintf("%s, %d", heading, i+1), text, m.Cents))
		}
		t.Add(cells.Count(i+1), cell, amount)
	}
	return []page.Block{page.Heading{Text: heading, Level: 1}, t}
}

// formLines is the form's lines in its order.
func formLines(in *report.YearInput) []page.Block {
	y := in.Tax
	t := page.Table{Columns: page.Heads{}.Text("Line").Wide(2, "What stands on it, in our words").
		Money("Of which", "Amount").Text("Look at")}
	part := ""
	for _, l := range y.Lines {
		if l.Part != part {
			part = l.Part
			t.AddStyled(page.Group, page.Text("Part "+part))
		}
		parts := filled(l)
		if len(parts) < 2 || ofCost(in, l) {
			parts = nil
		}
		row := addLine(in, &t, l, parts, y.Table.Holds.Profit)
		row.Cells = append(row.Cells, lineLink(in, l))
	}
	t.Note = y.Table.Outside + " Each amount is a sum of records: piecebook why line " + y.Table.Holds.Profit + " " +
		fmt.Sprint(y.Year) + " tells them, line by line, each with its record."
	out := []page.Block{page.Paragraph{Text: fmt.Sprintf("%s, tax year %d.", y.Table.Form, y.Year)}}
	if y.Table.Check != "" {
		out = append(out, page.Paragraph{Style: page.Caution, Text: y.Table.Check})
	}
	return append(out, t, page.Paragraph{Style: page.Note, Link: recordsAnchor, Text: y.Table.Words.Numbers +
		" Where each rule and line number comes from is on the page of sources."})
}

// addLine adds a line of the form, above it those of its parts; the last one has
// a double rule.
func addLine(in *report.YearInput, t *page.Table, l taxyear.Line, parts []taxyear.Part, last string) *page.Row {
	for _, p := range parts {
		t.AddStyled(page.Quiet, page.Empty(), page.Text(words.Capital(p.Plain())),
			cells.Money(p.Cents).Opens(partOf(in, &l, p)))
	}
	style := page.Normal
	switch {
	case l.Line == last:
		style = page.GrandTotal
	case len(l.Adds) > 1:
		style = page.Subtotal
	}
	return t.AddStyled(style, page.Text(l.Line), page.Text(l.Label), page.Empty(),
		cells.Money(l.Cents).Opens(lineOf(in, &l)))
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
		return page.TextTo("Cost", taxyear.SecCost)
	case len(l.Takes) > 0:
		return page.TextTo("Expenses", taxyear.SecExpenses)
	}
	return page.Empty()
}

// ofCost says that a line is one of those that the cost of what was sold is made of.
func ofCost(in *report.YearInput, l taxyear.Line) bool {
	return slices.Contains(in.Tax.Table.Under(in.Tax.Table.Holds.Cost), l.Line)
}

// costLines is the cost of what was sold as a roll-forward on the form's lines, each
// line's parts above it, and where the same cost is reached from what was sold.
func costLines(in *report.YearInput) []page.Block {
	y := in.Tax
	t := page.Table{Columns: page.Heads{}.Text("Line").Wide(1, "What").Money("Of which", "Amount")}
	for _, l := range y.Lines {
		parts := l.Parts
		if len(l.Takes) < 2 {
			parts = nil
		}
		if ofCost(in, l) {
			addLine(in, &t, l, parts, y.Table.Holds.Cost)
		}
	}
	return slices.Concat([]page.Block{t}, bridges(in), treatment(in))
}
