package figures

import (
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Parts are what a figure that is no sum of postings is worked out of: hours
// from records, and ratios of figures that are sums.
type Parts struct {
	Piece Piece         // its figures up to the month
	Sums  []string      // figures of the piece, as BehindPiece knows them
	Hours []HoursBehind // where hours are in it
	Days  bool          // where the days held are in it
	Name  string        // of the figure: one of RatioNames
}

// HoursBehind is one record's hours for the piece.
type HoursBehind struct {
	On    calendar.Date
	Task  string
	Hours *big.Rat
	At    fault.Place
}

// ratios are the figures that are worked out of others, and of which.
var ratios = map[string]struct {
	sums        []string
	hours, days bool
}{
	"hours":           {hours: true},
	"profit_per_hour": {sums: []string{"profit"}, hours: true},
	"margin":          {sums: []string{"profit", "receipts"}},
	"return_on_cost":  {sums: []string{"profit", "book_cost"}},
	"return_a_year":   {sums: []string{"profit", "book_cost"}, days: true},
	"days_held":       {days: true},
}

// RatioNames are the figures of a piece that are worked out of others.
func RatioNames() []string { return names(ratios) }

// PartsOf is what a piece's ratio is worked out of, over its life up to the
// month; false where the figure is none.
func PartsOf(l *costing.Ledger, piece, figure string, to calendar.Month) (Parts, bool) {
	r, ok := ratios[key(figure)]
	if !ok || len(l.Months) == 0 {
		return Parts{}, false
	}
	p := Parts{Name: key(figure), Sums: r.sums, Days: r.days}
	for _, x := range For(l, l.Months[0].Month, to).Pieces {
		if x.Record.ID == piece {
			p.Piece = x
		}
	}
	if r.hours {
		p.Hours = hoursBehind(l.Books, piece, to)
	}
	return p, p.Piece.Record != nil
}

// hoursBehind is the records of a piece's hours, by day.
func hoursBehind(b *ledger.Books, piece string, to calendar.Month) []HoursBehind {
	var out []HoursBehind
	for i, split := range costing.HoursByPiece(b) {
		h := b.Hours[i]
		if part := split[piece]; part != nil && h.On.InMonth() <= to {
			out = append(out, HoursBehind{h.On, h.Task, part, h.At})
		}
	}
	slices.SortStableFunc(out, func(a, c HoursBehind) int { return a.On.Compare(c.On) })
	return out
}

// tiedUp is what pieces and shelf hold at the month's end: each piece's postings,
// then each supply's, with no piece named. Pieces and supplies that hold nothing
// any more are left out.
func tiedUp(l *costing.Ledger, to calendar.Month) Behind {
	all := upTo(l, to, func(ledger.Posting) bool { return true })
	pieces, shelf := gather(all, onAccount(ledger.Pieces)), gather(all, onAccount(ledger.Shelf))
	for i := range shelf.Postings {
		shelf.Postings[i].Piece = ""
	}
	return Behind{append(holding(pieces.Postings), holding(shelf.Postings)...), pieces.Total + shelf.Total}
}

// holding leaves out the pieces, or supplies, whose postings come to nothing.
func holding(postings []ledger.Posting) []ledger.Posting {
	name := func(p ledger.Posting) [2]string {
		if p.Piece != "" {
			return [2]string{p.Piece, ""}
		}
		return [2]string{"", p.Supply}
	}
	held := map[[2]string]money.Cents{}
	for _, p := range postings {
		held[name(p)] += p.Cents
	}
	return slices.DeleteFunc(postings, func(p ledger.Posting) bool { return held[name(p)] == 0 })
}

// IsTiedUp says that a figure of the statement is what pieces and shelf hold.
func IsTiedUp(figure string) bool { return key(figure) == "tied_up" }
