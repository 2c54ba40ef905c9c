package year

import (
	"maps"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// yearTies are the year's reconciliations, a row each; their terms are in the
// workbook.
func yearTies(in *report.YearInput) []page.Block {
	t := page.Table{Columns: page.Heads{}.Wide(2, "What").Money("Reached", "Against", "Difference").
		Wide(2, "Against what")}
	for _, tie := range in.Tax.Ties {
		against := words.Against(tie)
		t.Add(page.Text(words.Capital(tie.Name)), cells.Full(tie.Reached).Opens(tieOf(in, tie)),
			cells.Full(tie.Against).Opens(againstOf(in, tie)), cells.Full(tie.Difference), page.Text(against))
	}
	t.Note = "Each is one total reached by two ways. The difference is 0.00, or something is wrong with the program " +
		"and its makers want to know. The terms are in year.xlsx, on the sheet Reconciliations."
	return []page.Block{t}
}

// tieNamed is the year's reconciliation of that name; nil where it has none.
func tieNamed(y *taxyear.Year, name string) *figures.Tie {
	for i := range y.Ties {
		if y.Ties[i].Name == name {
			return &y.Ties[i]
		}
	}
	return nil
}

// bridges go from the statement's gross and net profit, which December's 'year
// so far' has, to the form's.
func bridges(in *report.YearInput) []page.Block {
	var out []page.Block
	for _, tie := range []*figures.Tie{in.Tax.Bridge, tieNamed(in.Tax, taxyear.TieLines)} {
		if tie == nil {
			continue
		}
		t := page.Table{Span: 5, Whole: true, NoHead: true, Columns: page.Heads{}.Wide(1, "").Money("")}
		for i, x := range tie.Terms {
			if x.Cents != 0 || i == 0 {
				t.Add(page.Text(words.Capital(words.Term(tie.Name, x))), cells.Full(x.Cents).Opens(termOf(in, *tie, i)))
			}
		}
		t.AddStyled(page.Total, page.Text(words.Capital(words.Against(*tie))), cells.Full(tie.Against))
		out = append(out, t)
	}
	if len(out) == 0 {
		return nil
	}
	return append([]page.Block{page.Heading{Text: toTheForm, Level: 1}, page.Paragraph{
		Text: "The statement is that of the months together, which December's pages have as 'year so far'."}}, out...)
}

// toTheForm heads what leads from the months' statement to the form.
const toTheForm = "From the statement to the form"

// tieOf is a reconciliation's terms, each with what it is made of.
func tieOf(in *report.YearInput, t figures.Tie) *report.Worked {
	out := report.SumOf(words.Capital(t.Name))
	for i, x := range t.Terms {
		if x.Cents != 0 {
			out.Plus(words.Capital(words.Term(t.Name, x)), x.Cents, termOf(in, t, i))
		}
	}
	return out
}

// againstOf is what a reconciliation compares with.
func againstOf(in *report.YearInput, t figures.Tie) page.Ref {
	statement := func(id figures.ID) page.Ref {
		return report.Sum{Of: figures.OfStatement, ID: id, From: in.Month.From, To: in.Month.To}
	}
	switch {
	case t.Line != "":
		return lineOf(in, in.Tax.Line(t.Line))
	case t.Name == figures.TiePieces:
		return report.Sum{Of: figures.OfStock, ID: figures.LineClosing, From: in.Month.From, To: in.Month.To}
	case t.Name == figures.TieShelf:
		return shelfOf(in, "The shelf at the end", figures.LineClosing)
	case t.Name == figures.TieProfit:
		return statement(figures.LineNetProfit)
	case t.Name == figures.TieSalesTax:
		return statement(figures.LineSalesTaxOwed)
	case t.Name == taxyear.TieChannels:
		return statement(figures.LineNetReceipts)
	case t.Name == figures.TieBought:
		return boughtOf(in)
	}
	return report.InWords(words.Capital(t.Name)+": against", words.Capital(words.Against(t))+".", t.Against)
}

// termOf is what the nth term of a reconciliation is made of.
func termOf(in *report.YearInput, t figures.Tie, n int) page.Ref {
	f, x := in.Tax.Figures, t.Terms[n]
	sum := report.Sum{Of: figures.OfStatement, ID: x.ID, From: f.From, To: f.To}
	title := words.Capital(t.Name) + ": " + words.Uncapital(words.Term(t.Name, x))
	switch {
	case t.Name == figures.TiePieces:
		sum.Of = figures.OfStock
		return sum
	case t.Name == figures.TieShelf:
		return shelfOf(in, title, x.ID)
	case t.Name == figures.TieBought, t.Name == figures.TieSalesTax:
		return allTimeOf(in, title, x.ID)
	case t.Name == figures.TieProfit && x.ID == figures.TermProfits:
		return profitsOf(in, title)
	case t.Name == figures.TieProfit:
		return in.ProfitTerm(title, x.ID)
	case t.Name == taxyear.TieMonths && n < len(in.Tax.Months):
		sum.From, sum.To = in.Tax.Months[n].From, in.Tax.Months[n].To
		return sum
	case x.ID == taxyear.TermNotStaying:
		return report.InWords(title, "A step from the statement to the form; its records are those of the form's lines.",
			x.Cents)
	case x.ID == figures.LineNetProfit, t.Name == taxyear.TieGross:
		return sum
	case t.Name == taxyear.TieStock:
		return heldOf(in, title, figures.LineClosingStock, n)
	case t.Name == taxyear.TieOpening:
		return heldOf(in, title, figures.LineOpeningStock, n)
	case t.Name == taxyear.TieChannels && n/2 < len(in.Tax.Channels):
		if n%2 == 1 {
			return givenBackOf(in, in.Tax.Channels[n/2])
		}
		return receivedOf(in, in.Tax.Channels[n/2])
	case x.ID == figures.TermCorrections:
		return report.InWords(title, "Corrections to closed months of earlier years, each under what is corrected.", x.Cents)
	case len(x.Entries) > 0:
		return entriesOf(in, title, x.Entries)
	}
	return takenOf(in, x.ID)
}

// entriesOf is records' amounts, one by one.
func entriesOf(in *report.YearInput, title string, list []figures.Entry) *report.Worked {
	out := report.SumOf(title)
	for _, e := range list {
		if e.Cents != 0 {
			out.Recorded(strings.Join(strings.Fields(in.Day(e.On)+" "+e.What), " "), e.Cents, e.At)
		}
	}
	return out
}

// takenOf is an amount of the books as a line of the form takes it; nil where
// none does.
func takenOf(in *report.YearInput, id figures.ID) page.Ref {
	for i := range in.Tax.Lines {
		l := &in.Tax.Lines[i]
		for _, p := range l.Parts {
			if p.Amount == id {
				return partOf(in, l, p)
			}
		}
	}
	return nil
}

// shelfOf is a line of the shelf, supply by supply; what left it takes away.
func shelfOf(in *report.YearInput, title string, id figures.ID) *report.Worked {
	out := report.SumOf(title)
	for _, l := range in.Tax.Figures.Shelf {
		c := l.Amount(id)
		if id == figures.LineUsed || id == figures.LineLost {
			c = -c
		}
		if c != 0 {
			out.Terms = append(out.Terms, report.Term{Label: l.Supply.Name, Cents: c, Of: in.LineOfSupply(l.Supply.Name, id),
				Link: report.SupplyAnchor(l.Supply.Name)})
		}
	}
	return out
}

// profitsOf is the profit before shop costs of each piece sold in the year.
func profitsOf(in *report.YearInput, title string) *report.Worked {
	out := report.SumOf(title)
	for _, p := range in.Chosen(func(p figures.Piece) bool { return in.SoldIn(p) && p.Profit != nil }, report.BySale) {
		out.Plus(p.Record.ID, *p.Profit, report.Brief{Sum: in.LineOfPiece(p.Record.ID, figures.LineProfit)})
	}
	return out
}

// boughtOf is what was paid for supplies over all time, record by record.
func boughtOf(in *report.YearInput) *report.Worked {
	out := report.SumOf("Paid for supplies over all time")
	for _, o := range in.Books.Openings {
		if !o.Deducted {
			out.Recorded(o.Supply, o.Cost, o.At)
		}
	}
	for _, p := range in.Books.Purchases {
		if p.On.InMonth() <= in.Month.To {
			out.Recorded(p.Supply, p.Total(), p.At)
		}
	}
	return out
}

// allTimeOf is a term that counts from the books' first month: of supplies
// bought, or of the sales tax.
func allTimeOf(in *report.YearInput, title string, id figures.ID) page.Ref {
	switch id {
	case figures.TermOnShelf:
		return shelfOf(in, title, figures.LineClosing)
	case figures.LineShelfLosses:
		first := in.Month.From
		for _, p := range in.Postings {
			first = min(first, p.Month)
		}
		return report.Sum{Of: figures.OfStatement, ID: id, From: first, To: in.Month.To}
	case figures.TermInStock, figures.TermInLeft:
		return suppliesOf(in, title, id == figures.TermInStock)
	}
	out := report.SumOf(title)
	add := func(term figures.ID, counts bool, day string, c money.Cents, at fault.Place) {
		if id == term && counts && c != 0 {
			out.Recorded(day, c, at)
		}
	}
	for _, x := range in.Books.Sales {
		came, day := x.On.InMonth() <= in.Month.To, in.Day(x.On)
		add(figures.TermCollected, came && !givesBack(x), day, x.SalesTax, x.At)
		add(figures.TermRefunded, came && givesBack(x), day, x.SalesTax, x.At)
	}
	for _, x := range in.Books.TaxPaid {
		came, day := x.On.InMonth() <= in.Month.To, in.Day(x.On)
		add(figures.TermPaidOver, came, day, x.Amount, x.At)
		add(figures.TermKeptTax, came, day, x.Kept, x.At)
	}
	return out
}

// suppliesOf is what supplies have put into each piece that is still here, or
// into each that has left.
func suppliesOf(in *report.YearInput, title string, here bool) *report.Worked {
	stays := map[string]bool{}
	for _, x := range in.Tax.Stock {
		stays[x.Piece.Record.ID] = true
	}
	put := map[string]money.Cents{}
	for _, p := range in.Postings {
		if p.From == ledger.Shelf && p.Piece != "" && p.Month <= in.Month.To {
			put[p.Piece] += p.Cents
		}
	}
	out := report.SumOf(title)
	for _, id := range slices.Sorted(maps.Keys(put)) {
		of := in.LineOfPiece(id, figures.LineSupplies)
		switch {
		case put[id] == 0 || here != stays[id]:
		case here:
			out.Plus(id, put[id], of)
		default:
			out.Plus(id, put[id], report.Brief{Sum: of})
		}
	}
	return out
}

// heldOf is the nth part of the stock in a line: the shop's own pieces, work on
// clients' pieces, the shelf. At the year's start the pieces are one part.
func heldOf(in *report.YearInput, title string, id figures.ID, n int) *report.Worked {
	out := &report.Worked{Title: title}
	w, ok := takenOf(in, id).(*report.Worked)
	if !ok {
		return out
	}
	for _, x := range w.Terms {
		piece := in.Find(x.Label)
		part := 0
		switch {
		case piece == nil && id == figures.LineOpeningStock:
			part = 1
		case piece == nil:
			part = 2
		case piece.Record.How == ledger.Client && id == figures.LineClosingStock:
			part = 1
		}
		if part == n {
			out.Terms = append(out.Terms, x)
		}
	}
	return out
}
