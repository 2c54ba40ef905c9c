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
	named := map[string][]ledger.Use{}
	for _, u := range r.books.Uses {
		for _, id := range u.Pieces {
			named[id] = append(named[id], u)
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
		if p.Schedule == "" || on.IsZero() {
			continue
		}
		if named[p.ID] != nil {
			r.noteNotCounted(p, named[p.ID])
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

// noteNotCounted notes a piece whose schedule is not counted since Uses names the
// piece, where these lines have none of the schedule's supplies: lines that have
// any are taken as what was used instead of the schedule.
func (r *reading) noteNotCounted(p ledger.Piece, uses []ledger.Use) {
	var supplies []string
	for _, s := range r.bySchedule(ledger.Use{Coats: big.NewRat(1, 1)}, p.Schedule) {
		if slices.ContainsFunc(uses, func(u ledger.Use) bool { return u.Supply == s.Supply }) {
			return
		}
		if !slices.Contains(supplies, s.Supply) {
			supplies = append(supplies, s.Supply)
		}
	}
	if len(supplies) == 0 {
		return
	}
	rec := r.pieceRows[p.ID]
	at := rec.Place("schedule")
	r.problems.Add(fault.Problem{Code: fault.CodeScheduleNotCounted, Note: true, Place: at, Found: rec.Raw("schedule"),
		About: p.ID + ": schedule not counted",
		Fix:   "Add a line of Uses with the schedule, or clear it on the row."}.
		Naming("%s has the schedule %s on its row, but Uses (%s) names it, so the schedule is not counted: %s.", p.ID,
			p.Schedule, linesOf(uses, func(u ledger.Use) fault.Place { return u.At }), strings.Join(supplies, ", ")))
}

// linesOf are the places of records as a sentence of Naming has them: their rows where
// all are on one sheet.
func linesOf[T any](list []T, at func(T) fault.Place) any {
	var places []fault.Place
	var rows []fault.Row
	for _, x := range list {
		places, rows = append(places, at(x)), append(rows, fault.Row(at(x).Row))
	}
	for _, p := range places {
		if p.File != places[0].File || p.Sheet != places[0].Sheet {
			return places
		}
	}
	return rows
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
