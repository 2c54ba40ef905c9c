package figures

import (
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// Detail is the postings under one figure, each with the cents it adds to it
// (negative where it takes away), and their total, which is the figure.
type Detail struct {
	Postings []ledger.Posting
	Total    money.Cents
}

// DetailOf is what is under a line, over its span, of a month's statement or
// roll-forward of pieces, of a piece's life up to the month, or of a supply's
// shelf over all time up to it. The subject is the piece or the supply. False:
// the scope has no such line.
func DetailOf(l *costing.Ledger, of Scope, subject string, id ID, month calendar.Month) (Detail, bool) {
	return DetailOver(l, of, subject, id, month, month)
}

// DetailOver is DetailOf of the months from..month, such as a year's.
func DetailOver(l *costing.Ledger, of Scope, subject string, id ID, from, month calendar.Month) (Detail, bool) {
	line := Find(of, id)
	switch {
	case line == nil:
		return Detail{}, false
	case of == OfStatement && id == LineTiedUp:
		return tiedUp(l, month), true
	}
	if of&(OfPiece|OfShelf) != 0 && line.Over != Before {
		from = 0 // pieces and supplies are asked about over all time
	}
	return gather(l, Leaves(of, id), func(p *ledger.Posting) bool {
		return line.Covers(p.Month, from, month) && (of != OfPiece || p.Piece == subject) && (of != OfShelf ||
			p.Supply == subject)
	}, month), true
}

// GroupDetail is what is under an expense group's line of the statement of the
// months from..month; false where the books have no such group. Case does not
// count.
func GroupDetail(l *costing.Ledger, group string, from, month calendar.Month) (Detail, bool) {
	if !slices.ContainsFunc(l.Books.Expenses, func(x ledger.Expense) bool { return strings.EqualFold(x.Group, group) }) {
		return Detail{}, false
	}
	return gather(l, Leaves(OfStatement, LineExpenses), func(p *ledger.Posting) bool {
		return p.Month >= from && p.Month <= month && strings.EqualFold(p.Group, group)
	}, month), true
}

// gather is the postings that match, each with what it adds to the leaves by
// the month's end; those that add nothing are left out.
func gather(l *costing.Ledger, leaves []Leaf, match func(*ledger.Posting) bool, month calendar.Month) Detail {
	closing := l.At(month)
	var d Detail
	each(l, func(p *ledger.Posting) {
		if !match(p) {
			return
		}
		var cents money.Cents
		for _, leaf := range leaves {
			if leaf.ID != LineUnfinished || !closing.Pieces.Of(p.Piece).Gone() {
				cents += money.Cents(leaf.Sign*leaf.Line.Sign(p)) * p.Cents
			}
		}
		if cents != 0 {
			mine := *p
			mine.Cents = cents
			d.Postings = append(d.Postings, mine)
			d.Total += cents
		}
	})
	return d
}

// Names are the lines of a scope that can be asked about, in the order of
// their names.
func Names(of Scope) []string {
	var out []string
	for _, l := range LinesOf(of) {
		out = append(out, string(l.ID))
	}
	slices.Sort(out)
	return out
}
