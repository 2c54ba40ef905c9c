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
	line     figures.ID // whose records stand beside it
	from, to money.Cents
	solid    bool // an outcome, not a step towards it
	of       page.Ref
}

// ladder is steps being added, each cost beginning where the last one ended.
type ladder struct {
	in    *report.Input
	p     figures.Piece
	steps []step
	at    money.Cents
}

// cost adds a line that takes away, or in a build-up adds; a line of nothing is
// left out.
func (l *ladder) cost(line figures.ID, more string, by money.Cents) {
	l.step(line, label(line)+more, l.p.Amount(line), by, l.in.LineOfPiece(l.p.Record.ID, line))
}

func (l *ladder) step(line figures.ID, name string, cents, by money.Cents, of page.Ref) {
	if cents != 0 {
		l.steps = append(l.steps, step{name: name, cents: cents, line: line, from: l.at, to: l.at + by*cents, of: of})
		l.at += by * cents
	}
}

// result adds a sum of what stands above it.
func (l *ladder) result(style page.RowStyle, name string, cents money.Cents, of page.Ref) {
	l.steps = append(l.steps, step{style: style, name: words.Unbroken(name), cents: cents, to: cents, solid: true, of: of})
}

// line is a line of the piece as a result.
func (l *ladder) line(style page.RowStyle, name string, id figures.ID) {
	l.result(style, name, l.p.Amount(id), l.in.LineOfPiece(l.p.Record.ID, id))
}

// soldSteps go from receipts down to both profits.
func soldSteps(in *report.Input, p figures.Piece) []step {
	l := ladder{in: in, p: p, at: p.Receipts}
	l.line(page.Normal, label(figures.LineReceipts), figures.LineReceipts)
	l.steps[0].line = figures.LineReceipts
	into, beside := costLines()
	for _, id := range append(into, beside...) {
		l.cost(id, "", -1)
	}
	l.line(page.Total, words.BeforeShopCosts, figures.LineProfit)
	l.cost(figures.LineOverhead, "", -1)
	l.line(page.GrandTotal, words.AfterShopCosts, figures.LineAfterOverhead)
	return l.steps
}

// unsoldSteps go up from the acquisition to the costs so far and, of a piece
// that can still be sold, to what it must bring.
func unsoldSteps(in *report.Input, p figures.Piece) []step {
	l := ladder{in: in, p: p}
	into, beside := costLines()
	for _, id := range into {
		l.cost(id, "", 1)
	}
	l.line(page.Total, "Book cost so far", figures.LineBookCost)
	for _, id := range beside {
		l.cost(id, " so far", 1)
	}
	l.cost(figures.LineOverhead, ", so far", 1)
	if p.Status == "kept" || p.Status == "donated" {
		return l.steps
	}
	if wage := wanted(in, p); wage > 0 {
		l.step("", "Work at the wanted rate", wage, 1, wantedOf(in, p))
	}
	must := mustBring(in, p)
	l.result(page.GrandTotal, "It must bring", must.Total(), must)
	if p.Held != 0 {
		l.steps = append(l.steps, step{style: page.Quiet, name: words.PartPaymentsHeld, cents: p.Held,
			line: figures.LineReceipts, to: p.Held, of: in.LineOfPiece(p.Record.ID, figures.LineHeld)})
	}
	return l.steps
}

// costLines are the lines of cost in order: those of the book cost, and those
// beside it.
func costLines() (into, beside []figures.ID) {
	for _, leaf := range figures.Leaves(figures.OfPiece, figures.LineProfit) {
		switch {
		case figures.InSum(figures.OfPiece, figures.LineBookCost, leaf.ID):
			into = append(into, leaf.ID)
		case leaf.Sign < 0:
			beside = append(beside, leaf.ID)
		}
	}
	return into, beside
}

func label(id figures.ID) string { return words.Label(figures.OfPiece, id) }

// lineOf is the line of its piece's sheet that a posting counts in, and its
// amount with the line's sign. What only moves a piece's cost between accounts
// (sold, returned, removed, late) counts in none: the cost itself is in its own
// line already.
func lineOf(p *ledger.Posting) (figures.ID, money.Cents) {
	l, sign := figures.LineOf(figures.OfPiece, p)
	if l == nil {
		return "", 0
	}
	return l.ID, money.Cents(sign) * p.Cents
}

// sourceLetters is how long the records beside a line may be: they never wrap.
const sourceLetters = 29

// moneyTable is the money from receipts to profit, or for a piece that is not
// sold up to what it must bring, with each line's stretch of the build-up and
// its records.
func moneyTable(in *report.Input, p figures.Piece, mine []*ledger.Posting) page.Table {
	from := map[figures.ID][]fault.Place{}
	for _, x := range mine {
		if l, _ := lineOf(x); l != "" && l != figures.LineSupplies {
			from[l] = append(from[l], x.Source...)
		}
	}
	all := unsoldSteps(in, p)
	if p.Profit != nil {
		all = soldSteps(in, p)
	}
	var ends []float64
	for _, s := range all {
		ends = append(ends, float64(s.from), float64(s.to))
	}
	t := page.Table{Caption: "Money", Columns: page.Heads{}.Text("").Money("Amount").Drawn(1, page.ScaleOf(ends...), "").
		With(page.Column{Head: "Records", Small: true, OneLine: true})}
	for i, s := range all {
		d := page.Drawn{Bar: &page.Interval{From: float64(s.from), To: float64(s.to)}, Pale: !s.solid}
		d.Joined = i+1 < len(all) && s.style != page.Quiet && all[i+1].style != page.Quiet
		records := "each supply below"
		if s.line != figures.LineSupplies {
			records = words.BriefSources(from[s.line], sourceLetters)
		}
		t.AddStyled(s.style, page.Text(s.name), cells.Money(s.cents).Opens(s.of), page.Draw(d), page.Text(records))
	}
	return t
}

// recordsTable is every record but supplies behind the money, line by line: on
// the second page of a sheet that has one.
func recordsTable(in *report.Input, mine []*ledger.Posting) []page.Block {
	t := page.Table{Caption: "The other records behind it", Columns: page.Heads{}.Text("Line").Date("Date").
		Wide(1, "What").Money("Amount").With(page.Column{Head: "Records", Small: true, OneLine: true})}
	for _, l := range figures.LinesOf(figures.OfPiece) {
		if l.ID == figures.LineSupplies || l.Sum != nil || l.Again {
			continue
		}
		name := label(l.ID)
		for _, x := range mine {
			if at, cents := lineOf(x); at == l.ID {
				t.Add(page.Text(name), page.Date(in.Day(x.Date)), page.Text(words.What(*x)),
					cells.Money(cents), page.Text(words.BriefSources(x.Source, sourceLetters)))
				name = ""
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}
