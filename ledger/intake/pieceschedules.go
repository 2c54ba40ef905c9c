package intake

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/templates"
)

// usePieceSchedules adds, for each piece that has a schedule and that no line of
// Uses names, the use of that schedule that its row stands for: once over, on the
// day it was finished, else listed, else first sold. With none of these days
// nothing is used yet. It is to be called when Uses and Sales have been read.
func (r *reading) usePieceSchedules() {
	named := map[string]bool{}
	for _, u := range r.books.Uses {
		for _, id := range u.Pieces {
			named[id] = true
		}
	}
	firstSale := map[string]calendar.Date{}
	for _, s := range r.books.Sales {
		for _, id := range s.Pieces {
			if day, sold := firstSale[id]; s.Type == ledger.SaleLine && (!sold || s.On.Before(day)) {
				firstSale[id] = s.On
			}
		}
	}
	for _, p := range r.books.Pieces {
		on := firstGiven(p.FinishedOn, p.ListedOn, firstSale[p.ID])
		if p.Schedule == "" || named[p.ID] || on.IsZero() {
			continue
		}
		if p.Area == nil {
			why, kinds := r.areaUnknown(p.ID)
			r.pieceRows[p.ID].Fail("area", fault.CodeAreaMissing, why, "Type the area, or measure the piece in Surfaces."+kinds)
			continue
		}
		u := ledger.Use{At: p.At, On: on, Pieces: []string{p.ID}, Coats: big.NewRat(1, 1)}
		r.books.Uses = append(r.books.Uses, r.bySchedule(u, p.Schedule)...)
	}
}

// areaUnknown says that a piece has no area, and which kinds would give it one:
// those that have a word of its kind, or else all, once.
func (r *reading) areaUnknown(piece string) (why, kinds string) {
	kind := r.pieceRows[piece].Raw("kind")
	why = fmt.Sprintf("The area of %s is not known: it has none of its own, no Surfaces, and %s is no kind "+
		"with a usual one.",
		piece, fault.Quoted(kind))
	var all []string
	for _, a := range r.set.Areas {
		all = append(all, a.Kind)
	}
	like := templates.KindsLike(kind, all)
	if near := fault.Nearest(kind, all); near != "" && !slices.Contains(like, near) {
		like = append([]string{near}, like...)
	}
	if len(like) == 0 && r.rows.Once(usualKinds) {
		like = all
	}
	if len(like) == 0 {
		return why, ""
	}
	return why, fmt.Sprintf(" Or type a kind that has a usual one: %s.", strings.Join(like, ", "))
}

// usualKinds is reported once, as the words of a column are.
const usualKinds = "kinds with a usual area"
