package trace

import (
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

// The details that many figures are rows of: a piece's whole life, a month's
// statement, a supply's shelf. Each posting stands in them once, under the line
// that it counts in, and larger figures are rows beneath.
type (
	book       interface{ detail(*opener) page.Detail }
	pieceBook  struct{ piece string }
	monthBook  struct{ month calendar.Month }
	supplyBook struct{ supply string }
)

// inBook says that a figure is a row of such a detail, which is made where it
// is not there yet.
func (o *opener) inBook(of page.Ref) bool {
	if piece := owner(of); piece != "" {
		o.make(pieceBook{piece})
	}
	switch s := of.(type) {
	case report.Whole:
		if s.Month < o.in.Month.From && s.Reason != ledger.ReasonBoughtAgain {
			o.earlier[s.Month] = append(o.earlier[s.Month], s.Shared)
			o.rows[of] = true
		}
	case report.Sum:
		switch {
		case s.Of == figures.OfPiece && s.From == 0:
			o.make(pieceBook{s.Subject})
		case s.Of == figures.OfStatement && s.From == s.To && figures.Find(s.Of, s.ID).Over == figures.Within:
			o.make(monthBook{s.To})
		case s.Of == figures.OfShelf && s.To == o.in.Month.To:
			o.make(supplyBook{s.Subject})
		}
	}
	return o.rows[of]
}

// owner is the piece that a figure is a piece's own of; blank for none.
func owner(of page.Ref) string {
	switch x := of.(type) {
	case report.Rate:
		return x.Piece
	case report.Typed:
		return x.Piece
	case *report.Worked:
		return x.Piece
	}
	return ""
}

// make adds a book once.
func (o *opener) make(b book) {
	if !o.known[b] {
		o.known[b] = true
		o.add(b.detail(o))
	}
}

// ledgerTable is postings under the lines that they count in.
type ledgerTable struct {
	o *opener
	page.Table
	month bool // of one month, so that days need not lead to it
	brief bool // of an earlier month: postings with one reason are one row
}

// head adds a line's row with its amount; its postings follow it.
func (t *ledgerTable) head(name string, cents money.Cents, of page.Ref, indent int) {
	row := t.AddStyled(page.Subtotal, make([]page.Cell, len(t.Columns))...)
	row.Of, row.Indent = of, indent
	row.Cells[0], row.Cells[len(t.Columns)-2] = page.Text(name), cells.Full(cents)
	t.o.rows[of] = true
}

// take adds postings' rows.
func (t *ledgerTable) take(postings []ledger.Posting) {
	if t.brief && len(postings) > 1 {
		t.byReason(page.Empty(), postings)
		return
	}
	for _, p := range postings {
		row := t.o.posting(p, t.Columns)
		if t.month {
			row.Cells[0].Link = ""
		}
		t.Rows = append(t.Rows, row)
	}
}

// line adds a line with its postings; one that has none is left out.
func (t *ledgerTable) line(name string, s report.Sum, indent int) {
	t.postings(name, t.o.listed(s), s, indent)
}

// postings adds a line of postings. One alone is the line itself.
func (t *ledgerTable) postings(name string, postings []ledger.Posting, of page.Ref, indent int) {
	switch len(postings) {
	case 0:
	case 1:
		t.take(postings)
		row := &t.Rows[len(t.Rows)-1]
		what := &row.Cells[1]
		row.Of, what.Text = of, name+": "+what.Text
		if what.Said != nil {
			what.Said = append(page.Sentence{page.Text(name + ": ")}, what.Said...)
		}
		t.o.rows[of] = true
	default:
		t.head(name, total(postings), of, indent)
		t.take(postings)
	}
}

// sum adds a line that others are added up to. It is dropped where no figure
// opens to it.
func (t *ledgerTable) sum(name string, s report.Sum) {
	t.head(name, t.o.total(s), s, 0)
	t.o.sums[s] = true
}

// own adds a piece's figures that are no line of the ledger: what is typed with
// its record, what is worked out with its arithmetic in words.
func (t *ledgerTable) own(of page.Ref) {
	switch x := of.(type) {
	case report.Typed:
		t.head(x.What, x.Cents, of, 0)
		row := &t.Rows[len(t.Rows)-1]
		row.Cells[len(row.Cells)-1] = page.Text(words.Place(x.At))
	case *report.Worked:
		text := x.Words
		for _, term := range x.Terms {
			sign := " + "
			switch {
			case term.Cents == 0:
				continue
			case term.Cents < 0:
				sign = " − "
			case text == "":
				sign = ""
			}
			text += sign + words.Uncapital(term.Label) + " " + term.Cents.Abs().Grouped()
		}
		t.head(x.Title+": "+strings.TrimSpace(text), x.Total(), of, 0)
	}
}

// The columns of postings.
var (
	dateColumn   = page.Column{Head: "Date", Kind: page.KindDate}
	whatColumn   = page.Column{Head: "What", Weight: 3}
	pieceColumn  = page.Column{Head: "Piece"}
	amountColumn = page.Column{Head: "Amount", Kind: page.KindMoney}
	recordColumn = page.Column{Head: "Record", Small: true, Weight: 1}
	bookColumns  = []page.Column{dateColumn, whatColumn, pieceColumn, amountColumn, recordColumn}
)

// detail is a piece's money over its life.
func (b pieceBook) detail(o *opener) page.Detail {
	t := &ledgerTable{o: o, Table: page.Table{Columns: []page.Column{dateColumn, whatColumn, amountColumn, recordColumn}}}
	for _, line := range figures.LinesOf(figures.OfPiece) {
		s := o.in.LineOfPiece(b.piece, line.ID)
		switch line.ID {
		case figures.LineSupplies:
			o.piecesSupplies(t, s)
		case figures.LineBookCost:
			o.bookCost(t, s)
		default:
			t.ofTable(line, s)
		}
	}
	d := page.Detail{Of: b, Title: "Piece " + b.piece + ": every posting", Blocks: []page.Block{
		page.Paragraph{Text: "The sheet of " + b.piece, Link: report.SheetAnchor(b.piece)}}}
	for _, x := range o.own[b.piece] {
		t.own(x)
	}
	hours := o.rates(t, b.piece)
	d.Blocks = append(d.Blocks, t.Table)
	if len(hours) > 0 {
		d.Blocks = append(d.Blocks, hoursTable(o.in, hours))
	}
	return d
}

// ofTable adds a line of the figures' table: a sum, also one beside the others
// where it is anything, or its postings.
func (t *ledgerTable) ofTable(line *figures.Line, s report.Sum) {
	name := words.Label(s.Of, line.ID)
	switch {
	case line.Sum != nil || line.Again && t.o.total(s) != 0:
		t.sum(name, s)
	case !line.Again:
		t.line(name, s, 0)
	}
}

// piecesSupplies is a piece's supplies, each with its postings.
func (o *opener) piecesSupplies(t *ledgerTable, s report.Sum) {
	o.parts(t, s, func(p ledger.Posting) string { return p.Supply }, func(name string, _ []ledger.Posting) {
		part := s
		part.Supply = name
		t.line(name, part, 1)
	})
}

// parts is a sum with its postings in parts by name, in their order; nothing
// where it has no posting.
func (o *opener) parts(t *ledgerTable, s report.Sum, named func(ledger.Posting) string,
	print func(name string, mine []ledger.Posting)) {
	by := map[string][]ledger.Posting{}
	for _, p := range o.listed(s) {
		by[named(p)] = append(by[named(p)], p)
	}
	if len(by) == 0 {
		return
	}
	t.sum(words.Label(s.Of, s.ID), s)
	for _, name := range slices.Sorted(maps.Keys(by)) {
		print(name, by[name])
	}
}

// bookCost is a piece's book cost now, and as the period opened with it where
// that was another.
func (o *opener) bookCost(t *ledgerTable, s report.Sum) {
	name := words.Label(s.Of, s.ID)
	t.sum(name, s)
	before := s
	before.To = o.in.Month.From - 1
	if n := o.count(before); n > 0 && n < o.count(s) {
		t.sum(name+" at the end of "+before.To.Name(), before)
	}
}

// rates are a piece's profits an hour as rows, and the hours they divide by.
func (o *opener) rates(t *ledgerTable, piece string) []figures.HoursRecord {
	p := o.in.Find(piece)
	if p == nil {
		return nil
	}
	x := figures.Ratio{Piece: *p}
	for _, h := range o.in.OfPiece(piece).Hours {
		if h.Part != nil {
			x.Hours = append(x.Hours, figures.HoursRecord{On: h.On, Task: h.Task, Hours: h.Part, At: h.At})
		}
	}
	slices.SortStableFunc(x.Hours, func(a, b figures.HoursRecord) int { return a.On.Compare(b.On) })
	for _, r := range []struct {
		name, words string
		rate        *money.Cents
	}{{"profit_per_hour", words.HourBefore, p.ProfitPerHour},
		{"profit_per_hour_after_overhead", words.HourAfter, p.ProfitPerHourAfterOverhead}} {
		if r.rate != nil {
			x.Name = r.name
			t.head(r.words, *r.rate, report.Rate{Piece: piece, Name: r.name}, 0)
			_, t.Rows[len(t.Rows)-1].Note = ratioWords(o.in, x)
		}
	}
	return x.Hours
}

// detail is a month's statement.
func (b monthBook) detail(o *opener) page.Detail {
	t := &ledgerTable{o: o, month: true, brief: b.month < o.in.Month.From, Table: page.Table{Columns: bookColumns}}
	for _, line := range figures.LinesOf(figures.OfStatement) {
		s := report.Sum{Of: figures.OfStatement, ID: line.ID, From: b.month, To: b.month}
		switch {
		case line.Over != figures.Within:
		case line.ByGroup:
			o.groups(t, s)
		default:
			t.ofTable(line, s)
		}
	}
	d := page.Detail{Of: b, Title: "Statement of " + b.month.Name() + ": every posting"}
	switch {
	case t.brief:
		d.Title = "Statement of " + b.month.Name()
		d.Blocks = []page.Block{page.Paragraph{Text: "Postings with one reason are one row. The report of " +
			b.month.Name() + " has each."}}
	case b.month == o.in.Month.To:
		d.Blocks = []page.Block{page.Paragraph{Text: "The statement", Link: report.StatementAnchor}}
	}
	d.Blocks = append(d.Blocks, t.Table)
	return d
}

// groups are the groups of a month's expenses, and all of them.
func (o *opener) groups(t *ledgerTable, s report.Sum) {
	o.parts(t, s, func(p ledger.Posting) string { return p.Group }, func(name string, mine []ledger.Posting) {
		part := s
		part.Subject = name
		t.postings(words.GroupLabel(name), mine, part, 1)
	})
}
