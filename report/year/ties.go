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
	"piecebook/report/page"
	"piecebook/report/words"
)

// yearTies are the year's reconciliations, a row each; their terms are in the
// workbook.
func yearTies(in *report.YearInput) []page.Block {
	t := page.Table{Columns: []page.Column{{Head: "What", Weight: 2}, {Head: "Reached", Kind: page.KindMoney},
		{Head: "Against", Kind: page.KindMoney}, {Head: "Difference", Kind: page.KindMoney}, {Head: "Against what",
			Weight: 2}}}
	for _, tie := range in.Tax.Ties {
		against := words.Against(tie)
		t.Rows = append(t.Rows, page.Line(page.Text(words.Capital(tie.Name)),
			page.FullMoney(int64(tie.Reached)).Opens(tieOf(in, tie)),
			page.FullMoney(int64(tie.Against)).Opens(againstOf(in, tie)), page.FullMoney(int64(tie.Difference)),
			page.Text(against)))
	}
	t.Note = "Each is one total reached by two ways. The difference is 0.00, or something is wrong with the " +
		"program and its " +
		"makers want to know. The terms are in year.xlsx, on the sheet Reconciliations."
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
		t := page.Table{Span: 5, Whole: true, NoHead: true, Columns: []page.Column{{Weight: 1}, {Kind: page.KindMoney}}}
		for i, x := range tie.Terms {
			if x.Cents != 0 || i == 0 {
				t.Rows = append(t.Rows, page.Line(page.Text(words.Capital(words.Term(tie.Name, x))),
					page.FullMoney(int64(x.Cents)).Opens(termOf(in, *tie, i))))
			}
		}
		t.Rows = append(t.Rows, page.Styled(page.Total, page.Text(words.Capital(words.Against(*tie))),
			page.FullMoney(int64(tie.Against))))
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
	out := &report.Worked{Title: words.Capital(t.Name)}
	for i, x := range t.Terms {
		if x.Cents != 0 {
			out.Terms = append(out.Terms, report.Term{Label: words.Capital(words.Term(t.Name, x)), Cents: x.Cents,
				Of: termOf(in, t, i)})
		}
	}
	return out
}

// againstOf is what a reconciliation compares with.
func againstOf(in *report.YearInput, t figures.Tie) page.Ref {
	f := in.Tax.Figures
	statement := report.Sum{Of: figures.OfStatement, From: f.From, To: f.To}
	switch {
	case t.Line != "":
		return lineOf(in, in.Tax.Line(t.Line))
	case t.Name == figures.TiePieces:
		return report.Sum{Of: figures.OfStock, ID: figures.LineClosing, From: f.From, To: f.To}
	case t.Name == figures.TieShelf:
		return shelfOf(in, "The shelf at the end", figures.LineClosing)
	case t.Name == figures.TieProfit:
		statement.ID = figures.LineNetProfit
		return statement
	case t.Name == figures.TieSalesTax:
		statement.ID = figures.LineSalesTaxOwed
		return statement
	case t.Name == taxyear.TieChannels:
		statement.ID = figures.LineNetReceipts
		return statement
	case t.Name == figures.TieBought:
		return boughtOf(in)
	}
	return inWords(words.Capital(t.Name)+": against", words.Capital(words.Against(t))+".", t.Against)
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
		return inWords(title, "A step from the statement to the form; its records are those of the form's lines.", x.Cents)
	case x.ID == figures.LineNetProfit, t.Name == taxyear.TieGross:
		return sum
	case t.Name == taxyear.TieStock:
		return heldOf(in, title, figures.LineClosingStock, n)
	case t.Name == taxyear.TieOpening:
		return heldOf(in, title, figures.LineOpeningStock, n)
	case t.Name == taxyear.TieChannels && n/2 < len(in.Tax.Channels):
		return receivedOf(in, in.Tax.Channels[n/2], n%2 == 1)
	case x.ID == figures.TermCorrections:
		return inWords(title, "Corrections to closed months of earlier years, each under what is corrected.", x.Cents)
	case len(x.Entries) > 0:
		return entriesOf(in, title, x.Entries)
	}
	return takenOf(in, x.ID)
}

// entriesOf is records' amounts, one by one.
func entriesOf(in *report.YearInput, title string, list []figures.Entry) *report.Worked {
	out := &report.Worked{Title: title}
	for _, e := range list {
		if e.Cents != 0 {
			out.Terms = append(out.Terms, report.Term{Label: strings.Join(strings.Fields(in.Day(e.On)+" "+e.What), " "),
				Cents: e.Cents, Source: []fault.Place{e.At}})
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

// shelfOf is a line of the shelf, supply by supply.
func shelfOf(in *report.YearInput, title string, id figures.ID) *report.Worked {
	out := &report.Worked{Title: title}
	for _, l := range in.Tax.Figures.Shelf {
		c := map[figures.ID]money.Cents{figures.LineOpening: l.Opening, figures.LineBought: l.Bought,
			figures.LineUsed: -l.Used,
			figures.LineLost: -l.Lost, figures.LineClosing: l.Closing}[id]
		if c != 0 {
			out.Terms = append(out.Terms, report.Term{Label: l.Supply.Name, Cents: c, Of: in.LineOfSupply(l.Supply.Name, id),
				Link: report.SupplyAnchor(l.Supply.Name)})
		}
	}
	return out
}

// profitsOf is the profit before shop costs of each piece sold in the year.
func profitsOf(in *report.YearInput, title string) *report.Worked {
	out := &report.Worked{Title: title}
	for _, p := range in.Chosen(func(p figures.Piece) bool { return in.SoldIn(p) && p.Profit != nil }, report.BySale) {
		out.Terms = append(out.Terms, report.Term{Label: p.Record.ID, Cents: *p.Profit,
			Of: report.Brief{Sum: in.LineOfPiece(p.Record.ID, figures.LineProfit)}})
	}
	return out
}

// boughtOf is what was paid for supplies over all time, record by record.
func boughtOf(in *report.YearInput) *report.Worked {
	out := &report.Worked{Title: "Paid for supplies over all time"}
	add := func(supply string, c money.Cents, at fault.Place) {
		out.Terms = append(out.Terms, report.Term{Label: supply, Cents: c, Source: []fault.Place{at}})
	}
	for _, o := range in.Books.Openings {
		if !o.Deducted {
			add(o.Supply, o.Cost, o.At)
		}
	}
	for _, p := range in.Books.Purchases {
		if p.On.InMonth() <= in.Month.To {
			add(p.Supply, p.Total(), p.At)
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
	out := &report.Worked{Title: title}
	add := func(label string, c money.Cents, at fault.Place) {
		if c != 0 {
			out.Terms = append(out.Terms, report.Term{Label: label, Cents: c, Source: []fault.Place{at}})
		}
	}
	for _, x := range in.Books.Sales {
		if x.On.InMonth() <= in.Month.To && givesBack(x) == (id == figures.TermRefunded) && (id == figures.TermCollected ||
			id == figures.TermRefunded) {
			add(in.Day(x.On), x.SalesTax, x.At)
		}
	}
	for _, x := range in.Books.TaxPaid {
		switch {
		case x.On.InMonth() > in.Month.To:
		case id == figures.TermPaidOver:
			add(in.Day(x.On), x.Amount, x.At)
		case id == figures.TermKeptTax:
			add(in.Day(x.On), x.Kept, x.At)
		}
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
	out := &report.Worked{Title: title}
	for _, id := range slices.Sorted(maps.Keys(put)) {
		if put[id] == 0 || here != stays[id] {
			continue
		}
		x := report.Term{Label: id, Cents: put[id], Of: in.LineOfPiece(id, figures.LineSupplies)}
		if !here {
			x.Of = report.Brief{Sum: in.LineOfPiece(id, figures.LineSupplies)}
		}
		out.Terms = append(out.Terms, x)
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
