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
	line := Find(of, id)
	switch {
	case line == nil:
		return Detail{}, false
	case of == OfStatement && id == LineTiedUp:
		return tiedUp(l, month), true
	}
	from := month
	if of&(OfPiece|OfShelf) != 0 && line.Over != Before {
		from = 0 // pieces and supplies are asked about over all time
	}
	return gather(l, Leaves(of, id), func(p *ledger.Posting) bool {
		return line.Covers(p.Month, from, month) && (of != OfPiece || p.Piece == subject) && (of != OfShelf || p.Supply == subject)
	}, month), true
}

// GroupDetail is what is under an expense group's line of a month's statement;
// false where the books have no such group. Case does not count.
func GroupDetail(l *costing.Ledger, group string, month calendar.Month) (Detail, bool) {
	if !slices.ContainsFunc(l.Books.Expenses, func(x ledger.Expense) bool { return strings.EqualFold(x.Group, group) }) {
		return Detail{}, false
	}
	return gather(l, Leaves(OfStatement, LineExpenses), func(p *ledger.Posting) bool {
		return p.Month == month && strings.EqualFold(p.Group, group)
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
			if leaf.ID != LineUnfinished || !closing.Pieces[p.Piece].Gone() {
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

// Named is the scope's line that somebody asks for: by its own name or by what
// pages call it, in any case, with blanks or dashes for underscores.
func Named(of Scope, figure string) (ID, bool) {
	id := ID(key(figure))
	return id, Find(of, id) != nil
}

// key takes a figure's name as it is printed: with spaces or dashes for
// underscores, in any case, with the less: or apart: before it.
func key(figure string) string {
	k := strings.ToLower(strings.TrimSpace(figure))
	for _, before := range []string{"less:", "apart:", "in it:"} {
		if rest, ok := strings.CutPrefix(k, before); ok {
			k = strings.TrimSpace(rest)
		}
	}
	k = strings.NewReplacer(" ", "_", "-", "_").Replace(k)
	if name, ok := printedAs[k]; ok {
		return name
	}
	return k
}

// printedAs is what pages call a figure where figures.json has another name.
var printedAs = map[string]string{
	"after_everything": "profit", "after_overhead": "profit_after_overhead", "after_its_share_of_overhead": "profit_after_overhead",
	"overheads": "overhead", "share_of_overhead": "overhead", "book_cost_so_far": "book_cost", "part_payments_held": "held",
	"per_hour": "profit_per_hour", "an_hour": "profit_per_hour", "hourly": "profit_per_hour", "profit_an_hour": "profit_per_hour", "per_hour_of_work": "profit_per_hour",
	"return": "return_on_cost", "return_per_year": "return_a_year", "held_days": "days_held", "days": "days_held", "hours_so_far": "hours",
	"money_tied_up": "tied_up", "tied_up_in_pieces_and_shelf": "tied_up",
	"refunds_and_returns": "refunds", "equipment_written_off_at_once": "equipment", "pieces_lost,_at_book_cost": "pieces_lost",
	"pieces_kept_or_donated,_at_book_cost": "kept_or_donated", "sales_tax_owed_at_the_end": "sales_tax_owed", "removed_unsold": "removed",
}
