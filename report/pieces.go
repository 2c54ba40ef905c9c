package report

import (
	"cmp"
	"iter"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// Find is a piece's figures: the period's where it is among them, else those
// over its whole life.
func (in *Input) Find(id string) *figures.Piece {
	if in.byID == nil {
		in.byID = make(map[string]*figures.Piece, len(in.All))
		for _, list := range [][]figures.Piece{in.Month.Pieces, in.All} {
			for i := range list {
				if p := &list[i]; in.byID[p.Record.ID] == nil {
					in.byID[p.Record.ID] = p
				}
			}
		}
	}
	return in.byID[id]
}

// Within says that a day falls in the period.
func (in *Input) Within(d calendar.Date) bool {
	return !d.IsZero() && d.InMonth() >= in.Month.From && d.InMonth() <= in.Month.To
}

// SoldIn says that a piece was sold in the period and stayed sold.
func (in *Input) SoldIn(p figures.Piece) bool { return p.Status == "sold" && in.Within(p.SoldOn) }

// InMonth are the period's postings.
func (in *Input) InMonth() iter.Seq[ledger.Posting] {
	return func(yield func(ledger.Posting) bool) {
		for i := range in.Postings {
			if p := &in.Postings[i]; p.Month >= in.Month.From && p.Month <= in.Month.To && !yield(*p) {
				return
			}
		}
	}
}

// Chosen are the period's pieces that match, in the given order; nil: as they stand.
func (in *Input) Chosen(match func(figures.Piece) bool, order func(a, b figures.Piece) int) []figures.Piece {
	out := slices.DeleteFunc(slices.Clone(in.Month.Pieces), func(p figures.Piece) bool { return !match(p) })
	if order != nil {
		slices.SortStableFunc(out, order)
	}
	return out
}

func BySale(a, b figures.Piece) int {
	return cmp.Or(a.SoldOn.Compare(b.SoldOn), cmp.Compare(a.Record.ID, b.Record.ID))
}

// Stage is how far a piece in stock is at the period's end.
func (in *Input) Stage(p *ledger.Piece) string {
	end := in.Month.To.Last()
	switch {
	case !p.ListedOn.IsZero() && !p.ListedOn.After(end):
		return "listed"
	case !p.FinishedOn.IsZero() && !p.FinishedOn.After(end):
		return "finished"
	case !p.StartedOn.IsZero() && !p.StartedOn.After(end):
		return atWork
	case in.WorkedOn(p.ID):
		return atWork
	}
	return "waiting"
}

const atWork = "at the bench"

// Asking is a piece's asking price as known at the period's end; nil where it
// has none, or was listed only later.
func (in *Input) Asking(p *ledger.Piece) *money.Cents {
	if p.ListedOn.After(in.Month.To.Last()) {
		return nil
	}
	return p.Asking
}

// AskingOf is where a piece's asking price is written down; nil where it has none.
func AskingOf(p figures.Piece) page.Ref {
	if p.Record.Asking == nil {
		return nil
	}
	return Typed{What: "Asking price", At: p.Record.At.At("asking"), Cents: *p.Record.Asking, Piece: p.Record.ID}
}

// WorkedOn says that hours or uses of a piece are written down by the period's
// end, whether or not the day it was started is.
func (in *Input) WorkedOn(id string) bool {
	of := in.OfPiece(id)
	return len(of.Hours)+len(of.Uses) > 0
}

// FirstWork is the first day up to the period's end that hours or uses of a
// piece are written down for; the zero day without any. A schedule on its own row
// has no day of its own and counts for none. Nor has a piece one where hours stand
// on its own row: they may be from before any day that is written down.
func (in *Input) FirstWork(p *ledger.Piece) calendar.Date {
	var first calendar.Date
	look := func(on calendar.Date) {
		if first.IsZero() || on.Before(first) {
			first = on
		}
	}
	of := in.OfPiece(p.ID)
	for _, h := range of.Hours {
		if h.OwnRow {
			return calendar.Date{}
		}
		look(h.On)
	}
	for _, u := range of.Uses {
		if u.Schedule == "" || u.At != p.At {
			look(u.On)
		}
	}
	return first
}

// Age is a piece's days in stock at the period's end.
func (in *Input) Age(p figures.Piece) int { return in.Month.To.Last().DaysSince(p.Record.GotOn) }

// Unfinished says that a piece has not left by the end of a month that the
// pages include: it is here, or has not come yet. Asked for once a month, as
// OfPiece is for all pieces.
func (in *Input) Unfinished(piece string, month calendar.Month) bool {
	of, known := in.unfinished[month]
	if !known {
		of = in.unfinishedAt(month)
		if in.unfinished == nil {
			in.unfinished = map[calendar.Month]map[string]bool{}
		}
		in.unfinished[month] = of
	}
	return of[piece]
}

func (in *Input) unfinishedAt(month calendar.Month) map[string]bool {
	out := map[string]bool{}
	say := func(piece string, unfinished bool) {
		if _, said := out[piece]; !said {
			out[piece] = unfinished
		}
	}
	periods := []*figures.Figures{&in.Month, &in.Year, in.Before, in.YearAgo}
	for i := range in.Last {
		periods = append(periods, &in.Last[i])
	}
	for _, f := range periods {
		if f == nil || f.To != month {
			continue
		}
		for i := range f.Pieces {
			p := &f.Pieces[i]
			say(p.Record.ID, p.Status == "in stock" || p.Status == "client")
		}
	}
	for i := range in.Books.Pieces {
		p := &in.Books.Pieces[i]
		say(p.ID, p.GotOn.InMonth() > month)
	}
	return out
}
