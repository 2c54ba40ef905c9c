package report

import (
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/cells"
	"piecebook/report/page"
)

// What a figure on a page is made of, as its cell says it (page.Cell.Of). The
// room trace makes the details of them; who renders needs know none of this.

// Sum names a figure that is a line of the figures' table: a sum of postings,
// or of other lines.
type Sum struct {
	Of      figures.Scope
	ID      figures.ID
	Subject string // the piece, the supply, or the group of expenses; blank: none
	Supply  string // of a piece's supplies, the one it is of; blank: all
	// The months it is of; From is 0 where it is from the beginning. A balance is
	// as it stands before From or at the end of To.
	From, To calendar.Month
}

// Listed is a figure that no line names: its postings, each with the cents it
// adds. It is named by its address.
type Listed struct {
	Title    string
	Postings []ledger.Posting
}

// Total is what the postings come to; nothing where there is no list.
func (l *Listed) Total() money.Cents {
	var sum money.Cents
	if l == nil {
		return 0
	}
	for _, p := range l.Postings {
		sum += p.Cents
	}
	return sum
}

// Add adds a posting that counts with a sign, and says what it adds; one that
// does not count is left out.
func (l *Listed) Add(p ledger.Posting, sign figures.Sign) money.Cents {
	p.Cents *= money.Cents(sign)
	if p.Cents != 0 {
		l.Postings = append(l.Postings, p)
	}
	return p.Cents
}

// Worked is a figure that is worked out of others. It is named by its address.
type Worked struct {
	Title string
	Piece string // whose figure it is: it stands among the piece's others; blank: none
	Terms []Term
	// Words are its arithmetic where the terms do not simply add up to it, as
	// they do where this is blank; Cents is then what they come to.
	Words string
	Cents money.Cents
}

// Term is one part of a Worked figure, with the sign it counts with.
type Term struct {
	Label string
	Cents money.Cents
	Of    page.Ref // what it opens to; of a term that takes away, the figure without the sign
	Link  string   // where its label leads; may be blank
	// Source is its records, where it opens to nothing.
	Source []fault.Place
}

// Brief is a line that a term shows in its own row, with what it adds up and
// its records: of a piece or a supply whose postings are in another file.
type Brief struct{ Sum }

// SumOf is a figure that adds up terms, which Plus and Less give it.
func SumOf(title string) *Worked { return &Worked{Title: title} }

// InWords is a figure with a sentence on how it comes about.
func InWords(title, text string, c money.Cents) *Worked {
	return &Worked{Title: title, Words: text, Cents: c}
}

// Plus adds a term.
func (w *Worked) Plus(label string, c money.Cents, of page.Ref) *Worked {
	w.Terms = append(w.Terms, Term{Label: label, Cents: c, Of: of})
	return w
}

// Less adds a term that takes an amount away.
func (w *Worked) Less(label string, c money.Cents, of page.Ref) *Worked {
	return w.Plus("less: "+label, -c, of)
}

// Recorded adds a term as a record has it.
func (w *Worked) Recorded(label string, c money.Cents, at fault.Place) {
	w.Terms = append(w.Terms, Term{Label: label, Cents: c, Source: []fault.Place{at}})
}

// Total is what the terms, or the words, come to.
func (w *Worked) Total() money.Cents {
	if w.Words != "" {
		return w.Cents
	}
	var sum money.Cents
	for _, t := range w.Terms {
		sum += t.Cents
	}
	return sum
}

// Typed is an amount as one record has it.
type Typed struct {
	What  string
	At    fault.Place
	Cents money.Cents
	Piece string // as a Worked's
}

// TypedCell is an amount as one record has it, as a cell that opens to that.
func TypedCell(what string, c money.Cents, at fault.Place) page.Cell {
	return cells.Money(c).Opens(Typed{What: what, At: at, Cents: c})
}

// Rate is a piece's figure that is no sum: profit_per_hour, say.
type Rate struct{ Piece, Name string }

// Whole is a total that was shared, with all its parts.
type Whole struct{ *ledger.Shared }

// LineOfPiece names a line of a piece's life up to the period's end.
func (in *Input) LineOfPiece(piece string, id figures.ID) Sum {
	return Sum{Of: figures.OfPiece, ID: id, Subject: piece, To: in.Month.To}
}

// LineCell is a line of a piece as a cell that opens to what it is made of; of
// the profits it is empty where the piece has not left.
func (in *Input) LineCell(p figures.Piece, id figures.ID) page.Cell {
	cell := cells.Money(p.Amount(id))
	switch id {
	case figures.LineProfit, figures.LineAfterOverhead, figures.LineSoldLess:
		if p.Profit == nil {
			return page.Empty()
		}
		cell.Full = true
	}
	return cell.Opens(in.LineOfPiece(p.Record.ID, id))
}

// LineTerm is a line of a piece as a term by the piece's name, which leads to its
// sheet.
func (in *Input) LineTerm(p figures.Piece, id figures.ID) Term {
	return TermOfPiece(p, p.Amount(id), in.LineOfPiece(p.Record.ID, id))
}

// TermOfPiece is an amount of a piece as a term by the piece's name.
func TermOfPiece(p figures.Piece, c money.Cents, of page.Ref) Term {
	return Term{Label: p.Record.ID, Cents: c, Of: of, Link: SheetAnchor(p.Record.ID)}
}

// LineOfAll is a line of pieces, one by one.
func (in *Input) LineOfAll(title string, pieces []figures.Piece, id figures.ID) *Worked {
	out := SumOf(title)
	for _, p := range pieces {
		out.Terms = append(out.Terms, in.LineTerm(p, id))
	}
	return out
}

// HourAfter is a piece's profit an hour after shop costs as a cell that opens to
// how it is worked out.
func HourAfter(p figures.Piece) page.Cell {
	return cells.Optional(p.ProfitPerHourAfterOverhead).Opens(RateAfter(p))
}

// RateAfter names that figure.
func RateAfter(p figures.Piece) Rate { return Rate{p.Record.ID, "profit_per_hour_after_overhead"} }

// PieceCell is a piece's name, leading to its sheet where the document has it.
func PieceCell(id string) page.Cell { return page.TextTo(id, SheetAnchor(id)) }

// LineOfSupply names a line of a supply's shelf in the period.
func (in *Input) LineOfSupply(supply string, id figures.ID) Sum {
	return Sum{Of: figures.OfShelf, ID: id, Subject: supply, From: in.Month.From, To: in.Month.To}
}

// ShelfCells are the lines of a supply's shelf, in their order, each opening to
// what it is made of.
func (in *Input) ShelfCells(l figures.ShelfLine) []page.Cell {
	var out []page.Cell
	for _, line := range figures.LinesOf(figures.OfShelf) {
		out = append(out, cells.Money(l.Amount(line.ID)).Opens(in.LineOfSupply(l.Supply.Name, line.ID)))
	}
	return out
}

// GroupsOf are items in groups of one key, in the order that each first comes.
func GroupsOf[T any, K comparable](items []T, key func(T) K) [][]T {
	var out [][]T
	at := map[K]int{}
	for _, x := range items {
		i, known := at[key(x)]
		if !known {
			i = len(out)
			at[key(x)] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], x)
	}
	return out
}

// SheetAnchor names a piece's sheet in whichever document has it.
func SheetAnchor(piece string) string { return "piece-" + piece }

// SupplyAnchor names a supply's row of the shelf.
func SupplyAnchor(supply string) string { return "supply-" + supply }
