package piece

import (
	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// step is a row of the money table: a line with its amount, and the stretch
// of the build-up that it is.
type step struct {
	style    page.RowStyle
	name     string
	cents    money.Cents
	line     words.Line // whose records stand beside it
	from, to money.Cents
	solid    bool // an outcome, not a step towards it
}

// ladder is steps being added, each cost beginning where the last one ended.
type ladder struct {
	steps []step
	at    money.Cents
}

// cost adds a line that takes away, or in a build-up adds; a line of nothing is
// left out.
func (l *ladder) cost(line words.Line, name string, cents money.Cents, by money.Cents) {
	if cents == 0 {
		return
	}
	l.steps = append(l.steps, step{name: name, cents: cents, line: line, from: l.at, to: l.at + by*cents})
	l.at += by * cents
}

// result adds a sum of what stands above it.
func (l *ladder) result(style page.RowStyle, name string, cents money.Cents) {
	l.steps = append(l.steps, step{style: style, name: words.Unbroken(name), cents: cents, to: cents, solid: true})
}

// soldSteps go from receipts down to both profits.
func soldSteps(p figures.Piece) []step {
	l := ladder{at: p.Receipts, steps: []step{{name: words.ReceiptsLine.Name(), cents: p.Receipts,
		line: words.ReceiptsLine, to: p.Receipts, solid: true}}}
	for _, c := range costsOf(p) {
		l.cost(c.line, c.line.Name(), c.cents, -1)
	}
	l.result(page.Total, "Profit before shop costs", *p.Profit)
	l.cost(words.OverheadLine, words.OverheadLine.Name(), p.Overhead, -1)
	l.result(page.GrandTotal, "Profit after shop costs", *p.ProfitAfterOverhead)
	return l.steps
}

// unsoldSteps go up from the acquisition to the costs so far and, of a piece
// that can still be sold, to what it must bring.
func unsoldSteps(in *report.Input, p figures.Piece) []step {
	var l ladder
	costs := costsOf(p)
	for _, c := range costs[:4] {
		l.cost(c.line, c.line.Name(), c.cents, 1)
	}
	l.result(page.Total, "Book cost so far", p.BookCost)
	for _, c := range costs[4:] {
		l.cost(c.line, c.line.Name()+" so far", c.cents, 1)
	}
	l.cost(words.OverheadLine, words.OverheadLine.Name()+", so far", p.Overhead, 1)
	if p.Status == "kept" || p.Status == "donated" {
		return l.steps
	}
	if wage := wanted(in, p); wage > 0 {
		l.cost(words.NoLine, "Work at the wanted rate", wage, 1)
	}
	l.result(page.GrandTotal, "It must bring", mustBring(in, p))
	if p.Held != 0 {
		l.steps = append(l.steps, step{style: page.Quiet, name: "Part payments held", cents: p.Held, line: words.ReceiptsLine,
			to: p.Held})
	}
	return l.steps
}

// lineAmount is a line of the sheet with its amount.
type lineAmount struct {
	line  words.Line
	cents money.Cents
}

// costsOf are the lines of cost in order: first the four of the book cost.
func costsOf(p figures.Piece) []lineAmount {
	return []lineAmount{{words.AcquisitionLine, p.Acquisition}, {words.PartsLine, p.Parts},
		{words.OutsideLine, p.OutsideWork},
		{words.SuppliesLine, p.Supplies}, {words.SellingLine, p.SellingCosts}, {words.TripsLine, p.Trips}}
}

// sourceLetters is how long the records beside a line may be: they never wrap.
const sourceLetters = 29

// moneyTable is the money from receipts to profit, or for a piece that is not
// sold up to what it must bring, with each line's stretch of the build-up and
// its records.
func moneyTable(in *report.Input, p figures.Piece, mine []ledger.Posting) page.Table {
	from := map[words.Line][]fault.Place{}
	for _, x := range mine {
		if l, _ := words.LineOf(x); l != words.NoLine {
			from[l] = append(from[l], x.Source...)
		}
	}
	all := unsoldSteps(in, p)
	if p.Profit != nil {
		all = soldSteps(p)
	}
	var ends []float64
	for _, s := range all {
		ends = append(ends, float64(s.from), float64(s.to))
	}
	t := page.Table{Caption: "Money", Columns: []page.Column{
		{Head: ""}, {Head: "Amount", Kind: page.KindMoney}, {Kind: page.KindDrawn, Weight: 1, Scale: page.ScaleOf(ends...)},
		{Head: "Records", Small: true, OneLine: true}}}
	for i, s := range all {
		d := page.Drawn{Bar: &page.Interval{From: float64(s.from), To: float64(s.to)}, Pale: !s.solid}
		d.Joined = i+1 < len(all) && s.style != page.Quiet && all[i+1].style != page.Quiet
		records := words.BriefSources(from[s.line], sourceLetters)
		if s.line == words.SuppliesLine {
			records = "each supply below"
		}
		t.Rows = append(t.Rows, page.Styled(s.style, page.Text(s.name), cells.Money(s.cents), page.Draw(d),
			page.Text(records)))
	}
	return t
}

// recordsTable is every record but supplies behind the money, line by line: on
// the second page of a sheet that has one.
func recordsTable(in *report.Input, mine []ledger.Posting) []page.Block {
	t := page.Table{Caption: "The other records behind it", Columns: []page.Column{
		{Head: "Line"}, {Head: "Date", Kind: page.KindDate}, {Head: "What", Weight: 1},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Records", Small: true, OneLine: true}}}
	for _, l := range words.PieceLines() {
		if l == words.SuppliesLine {
			continue
		}
		name := l.Name()
		for _, x := range mine {
			if at, cents := words.LineOf(x); at == l {
				t.Rows = append(t.Rows, page.Line(page.Text(name), page.Date(in.Day(x.Date)), page.Text(words.What(x)),
					cells.Money(cents), page.Text(words.BriefSources(x.Source, sourceLetters))))
				name = ""
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}
