package taxyear

import (
	"piecebook/ledger"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// HandedOut is what the pages of the year before said when they were made.
type HandedOut struct {
	From    string      // where that stands, for people
	Closing money.Cents // on its line of closing stock
	Cost    money.Cents // on its line of cost
	// Statement is cost of pieces sold, shelf losses and pieces lost by its
	// statement: just Cost where supplies count with the piece.
	Statement money.Cents
	// Used is what it counted of supplies when they were used: 0.00 where they
	// count with the piece.
	Used money.Cents
}

// UsedOf is what a line holds of supplies when used, by its amount and the
// expenses of a statement, by group, that it takes besides.
func (y *Year) UsedOf(lines, expenses map[string]money.Cents) money.Cents {
	number := y.Number(figures.LineSuppliesUsed)
	line := y.Line(number)
	if line == nil {
		return 0
	}
	used := lines[number]
	for _, p := range line.Parts {
		if p.Amount == figures.LineExpenses {
			used -= expenses[p.Plain()]
		}
	}
	return used
}

// notStaying is the cost of supplies that do not stay on a piece, which was
// there when the year began: on pieces in stock, and on the shelf.
type notStaying struct{ pieces, shelf money.Cents }

func (s *source) notStaying() notStaying {
	before := s.l.At(s.from - 1)
	var out notStaying
	for _, p := range s.life {
		if p.To == ledger.Pieces && p.Supply != "" && !s.stays[p.Supply] &&
			before.Pieces.Of(p.Piece).Where == costing.InStock &&
			closing.Place(&p) <= closing.EndOf(s.from-1) {
			out.pieces += p.Cents
		}
	}
	for name, x := range before.Shelf {
		if !s.stays[name] {
			out.shelf += x.Cents()
		}
	}
	return out
}

// Opened compares the year's opening line with the closing line that was handed
// out for the year before. A changed treatment of supplies is a change of
// method, for the preparer; what else they differ by is changed records, which
// are for the owner to explain.
func (y *Year) Opened(h HandedOut) (method, changed []Missing) {
	_, opening := y.Taking(figures.LineOpeningStock)
	if opening == h.Closing {
		return nil, nil
	}
	both := y.apart.pieces + y.apart.shelf
	other, was, is, what := opening-both, "when used", "with the piece", Note{Says: CountedTwice}
	if y.WhenUsed {
		other, was, is, what = opening+both, is, was, Note{Says: CountedNever}
	}
	wasUsed := h.Cost != h.Statement || h.Used != 0
	if both != 0 && (h.Closing == other || wasUsed != y.WhenUsed) {
		method = []Missing{{Section: SecCost, Cents: y.apart.pieces, Note: Note{ChangedMethod,
			[]any{h.From, was, y.Year - 1, is,
				both, y.apart.pieces, what, y.apart.shelf, after(". ", y.methodRule)}}}}
		opening = other
	}
	if opening != h.Closing {
		changed = []Missing{{Section: SecCost, Cents: opening - h.Closing, Note: Note{OpeningChanged, []any{opening, h.From,
			y.Year - 1, h.Closing, opening - h.Closing}}}}
	}
	return method, changed
}
