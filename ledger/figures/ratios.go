package figures

import (
	"cmp"
	"maps"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Ratio is what a figure that is no sum of postings is worked out of: hours
// from records, and figures that are sums.
type Ratio struct {
	Piece Piece         // its figures up to the month
	Sums  []ID          // lines of the piece
	Hours []HoursRecord // where hours are in it
	Days  bool          // where the days held are in it
	Name  string        // of the figure: one of RatioNames
}

// HoursRecord is one record's hours for the piece.
type HoursRecord struct {
	On    calendar.Date
	Task  string
	Hours *big.Rat
	At    fault.Place
}

// ratios are the figures that are worked out of others, and of which.
var ratios = map[string]struct {
	sums        []ID
	hours, days bool
}{
	"hours":                          {hours: true},
	"profit_per_hour":                {sums: []ID{LineProfit}, hours: true},
	"profit_per_hour_after_overhead": {sums: []ID{LineAfterOverhead}, hours: true},
	"margin":                         {sums: []ID{LineProfit, LineReceipts}},
	"return_on_cost":                 {sums: []ID{LineProfit, LineBookCost}},
	"return_a_year":                  {sums: []ID{LineProfit, LineBookCost}, days: true},
	"days_held":                      {days: true},
}

// RatioNames are the figures of a piece that are worked out of others.
func RatioNames() []string { return slices.Sorted(maps.Keys(ratios)) }

// RatioOf is what a piece's ratio is worked out of, over its life up to the
// month; false where the figure is none of RatioNames.
func RatioOf(l *costing.Ledger, piece, figure string, to calendar.Month) (Ratio, bool) {
	r, ok := ratios[figure]
	if !ok || len(l.Months) == 0 {
		return Ratio{}, false
	}
	p := Ratio{Name: figure, Sums: r.sums, Days: r.days}
	for _, x := range For(l, l.Months[0].Month, to).Pieces {
		if x.Record.ID == piece {
			p.Piece = x
		}
	}
	if r.hours {
		p.Hours = hoursRecords(l.Books, piece, to)
	}
	return p, p.Piece.Record != nil
}

// hoursRecords is the records of a piece's hours, by day.
func hoursRecords(b *ledger.Books, piece string, to calendar.Month) []HoursRecord {
	var out []HoursRecord
	for i, split := range costing.HoursByPiece(b) {
		for _, of := range split {
			if h := &b.Hours[i]; of.Piece == piece && h.On.InMonth() <= to {
				out = append(out, HoursRecord{h.On, h.Task, of.Hours, h.At})
			}
		}
	}
	slices.SortStableFunc(out, func(a, c HoursRecord) int { return a.On.Compare(c.On) })
	return out
}

// HoursOver is the records of hours of the months from..to, by day, each whole.
func HoursOver(b *ledger.Books, from, to calendar.Month) []HoursRecord {
	var out []HoursRecord
	for _, h := range b.Hours {
		if m := h.On.InMonth(); m >= from && m <= to {
			out = append(out, HoursRecord{h.On, h.Task, h.Hours, h.At})
		}
	}
	slices.SortStableFunc(out, func(a, c HoursRecord) int { return cmp.Or(a.On.Compare(c.On), a.At.Compare(c.At)) })
	return out
}

// tiedUp is what pieces and shelf hold at the month's end: each piece's postings,
// then each supply's, with no piece named. Pieces and supplies that hold nothing
// any more are left out.
func tiedUp(l *costing.Ledger, to calendar.Month) Detail {
	until := func(p *ledger.Posting) bool { return p.Month <= to }
	pieces, shelf := gather(l, Leaves(OfStock, LineClosing), until, to), gather(l, Leaves(OfShelf, LineClosing), until, to)
	for i := range shelf.Postings {
		shelf.Postings[i].Piece = ""
	}
	return Detail{append(holding(pieces.Postings), holding(shelf.Postings)...), pieces.Total + shelf.Total}
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
