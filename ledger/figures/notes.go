package figures

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
)

// Complete gives notes what only costing knows. A note on a usual area gets the
// money it could move: what supplies that were shared by the area have put into
// the piece so far; with none the area is used for nothing, and there is no note,
// unless shop costs are shared by it. A note
// without a month gets the one it belongs to: that of the record it stands at;
// on a piece's row the last in which the piece came, had supplies or was sold; on
// a starting coverage the first that was estimated by it. What no record stands
// behind keeps none. Notes that differ by their months only have one cause and are
// one: it belongs to the last of the months, names them all, and could move the
// largest of their amounts, which are the same money seen each time.
func Complete(l *costing.Ledger, notes fault.List) fault.List {
	seen := complete(l)
	var all []fault.Problem
	for _, n := range notes.All() {
		at := n.Place.At("")
		if n.Code == fault.CodeTypicalArea && n.MoneyCents == 0 {
			if n.MoneyCents = max(0, seen.supplies[at]); n.MoneyCents == 0 && l.Books.Settings.OverheadBy != "area" {
				continue
			}
		}
		if n.Note && n.Month == 0 {
			n.Month = seen.months[at]
		}
		all = append(all, n)
	}
	return onePerCause(all)
}

// onePerCause joins the notes that differ by month and money only; those stand
// next to each other.
func onePerCause(all []fault.Problem) fault.List {
	cause := func(p fault.Problem) fault.Problem {
		p.Month, p.MoneyCents = 0, 0
		return p
	}
	var out fault.List
	for len(all) > 0 {
		n := 1
		for n < len(all) && all[0].Note && cause(all[n]) == cause(all[0]) {
			n++
		}
		out.Add(joined(all[:n]))
		all = all[n:]
	}
	return out
}

// joined is notes of one cause as one.
func joined(notes []fault.Problem) fault.Problem {
	one := notes[0]
	var months []calendar.Month
	for _, n := range notes {
		one.MoneyCents = max(one.MoneyCents, n.MoneyCents)
		months = append(months, n.Month)
	}
	slices.Sort(months)
	months = slices.Compact(months)
	one.Month = months[len(months)-1]
	if len(months) > 1 {
		var names []string
		for _, m := range months {
			names = append(names, m.Name())
		}
		in := " Months: " + fault.Few(names) + "."
		one.Why += in
		if one.Rowless != "" {
			one.Rowless += in
		}
	}
	return one
}

// known is what the costed ledger tells by the place of a record.
type known struct {
	supplies map[fault.Place]int64 // of a piece: cents of supplies shared by its area
	months   map[fault.Place]calendar.Month
}

func complete(l *costing.Ledger) known {
	k := known{supplies: map[fault.Place]int64{}, months: map[fault.Place]calendar.Month{}}
	byPiece, last := map[string]int64{}, map[string]calendar.Month{}
	put, byArea := Find(OfPiece, LineSupplies), sharedByArea(l.Books)
	each(l, func(p *ledger.Posting) {
		if byArea(p.Piece, p.Supply) {
			byPiece[p.Piece] += int64(put.Sign(p)) * int64(p.Cents)
		}
		switch p.Reason {
		case ledger.ReasonAcquired, ledger.ReasonSupply, ledger.ReasonSold:
			last[p.Piece] = max(last[p.Piece], p.Month)
		}
	})
	for r := range l.Books.Records() {
		at := r.At.At("")
		k.months[at] = max(k.months[at], r.Month)
	}
	for p := range ledger.Each(l.Books.Pieces) {
		k.supplies[p.At.At("")] = byPiece[p.ID]
		if m := last[p.ID]; m != 0 {
			k.months[p.At.At("")] = m
		}
	}
	for s := range ledger.Each(l.Books.Supplies) {
		for _, m := range l.Months {
			if m.Basis[s.Name] == ledger.Starting {
				k.months[s.At.At("")] = m.Month
				break
			}
		}
	}
	return k
}

// sharedByArea says whether a supply's cost on a piece rests on the piece's area:
// it is shared by area at the bench, or some use gives neither an amount nor an
// area for the piece alone.
func sharedByArea(b *ledger.Books) func(piece, supply string) bool {
	type on struct{ piece, supply string }
	bench, uses := map[string]bool{}, map[on]bool{}
	by := map[string]ledger.ShareBy{}
	for s := range ledger.Each(b.Supplies) {
		by[s.Name], bench[s.Name] = s.ShareBy, s.ShareBy == ledger.ByBench
	}
	for u := range ledger.Each(b.Uses) {
		alone := len(u.Pieces) == 1
		if by[u.Supply] != ledger.ByArea || alone && (u.Amount != nil || u.Area != nil) {
			continue
		}
		for _, p := range u.Pieces {
			uses[on{p, u.Supply}] = true
		}
	}
	return func(piece, supply string) bool { return bench[supply] || uses[on{piece, supply}] }
}

// OfPeriod is the notes that belong to the months from one to another: those of
// earlier months have been shown in theirs, those of later ones will be.
func OfPeriod(notes []fault.Problem, from, to calendar.Month) []fault.Problem {
	var out []fault.Problem
	for _, n := range notes {
		if n.Month == 0 || n.Month >= from && n.Month <= to {
			out = append(out, n)
		}
	}
	return out
}
