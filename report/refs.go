package report

import (
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
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

// Rate is a piece's figure that is no sum: profit_per_hour, say.
type Rate struct{ Piece, Name string }

// Whole is a total that was shared, with all its parts.
type Whole struct{ *ledger.Shared }

// LineOfPiece names a line of a piece's life up to the period's end.
func (in *Input) LineOfPiece(piece string, id figures.ID) Sum {
	return Sum{Of: figures.OfPiece, ID: id, Subject: piece, To: in.Month.To}
}

// LineOfSupply names a line of a supply's shelf in the period.
func (in *Input) LineOfSupply(supply string, id figures.ID) Sum {
	return Sum{Of: figures.OfShelf, ID: id, Subject: supply, From: in.Month.From, To: in.Month.To}
}

// SheetAnchor names a piece's sheet in whichever document has it.
func SheetAnchor(piece string) string { return "piece-" + piece }

// SupplyAnchor names a supply's row of the shelf.
func SupplyAnchor(supply string) string { return "supply-" + supply }
