package intake

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

// dayOrders is what the days of the books show about the order of day and month.
type dayOrders struct {
	either    int           // that could be read day or month first
	eitherAt  fault.Problem // the first of them, by place
	dots      bool          // one of them is written with full stops, as where days come first
	semicolon bool          // one of them stands in a plain file whose cells a semicolon separates
	usual     []fault.Place // that only the shop's order can read
}

// eitherWay remembers a day that can be read day or month first.
func (r *reading) eitherWay(rec *record, name string) {
	p := fault.Problem{Place: rec.place(name), Found: sheets.Shortened(rec.raw(name))}
	if r.days.either == 0 || p.Place.Compare(r.days.eitherAt.Place) < 0 {
		r.days.eitherAt = p
	}
	r.days.either++
	r.days.dots = r.days.dots || strings.Contains(rec.raw(name), ".")
	r.days.semicolon = r.days.semicolon || rec.sheet.Separates == ";"
}

// noteEitherWay notes, once for the books, days that were read month first
// though no day says so and other things say that days come first here.
func (r *reading) noteEitherWay() {
	s := r.settings
	if r.days.either == 0 || len(r.days.usual) > 0 || s.DayFirst || r.sections["dates"] ||
		!r.days.dots && (!r.days.semicolon || r.points > 0) && !s.DecimalComma && !s.Metric() && slices.Contains([]string{"USD", ""}, s.Currency) {
		return
	}
	for key := range r.causes {
		if key.code == fault.CodeDateOtherOrder {
			return // told as that
		}
	}
	p := r.days.eitherAt
	p.Code, p.Note = fault.CodeDateEitherWay, true
	p.Why = fmt.Sprintf("%d %s, here the first, can be read day or month first and %s read month first; nothing in the records shows which is meant.",
		r.days.either, fault.Plural(r.days.either, "day", "days"), fault.Plural(r.days.either, "was", "were"))
	p.Fix = "If the day comes first, put dates = \"dmy\" at the top of settings.toml; if not, put dates = \"mdy\" there."
	r.heads.propose("", `dates = "dmy"`, p.Place)
	r.problems.Add(p)
}

// metricUnits are the units of a shop that works in centimetres and square metres.
var metricUnits = []string{"ml", "l", "g", "kg", "cm", "m"}

// noteMetric notes containers that are metric throughout where settings.toml
// does not say which units the shop works in: its areas were read as square feet.
func (r *reading) noteMetric() {
	if r.sections["units"] || r.settings.Metric() {
		return
	}
	var first *measure.Unit
	var at fault.Place
	found := ""
	n := 0
	for _, s := range r.books.Supplies {
		u := unitOf(s)
		switch {
		case u.Kind == measure.Count || u.Name == "":
		case !slices.Contains(metricUnits, u.Name):
			return
		default:
			if first == nil || s.At.Compare(at) < 0 {
				first, at, found = &u, s.At, s.Container
			}
			n++
		}
	}
	if n < 2 && (n == 0 || r.settings.Currency == "USD") {
		return
	}
	r.heads.propose("", `units = "metric"`, at)
	r.problems.Add(fault.Problem{Code: fault.CodeUnitsMetric, Note: true, Place: at.At("container"), Found: found,
		Why: "Containers are in metric units throughout, but settings.toml does not say which units the shop works in, so areas were read as square feet, lengths as inches and distances as miles.",
		Fix: "If they are square metres, cm and km, put units = \"metric\" at the top of settings.toml; if not, put units = \"us\" there."})
}

// noteHoursTwice notes pieces whose hours stand on their own row and in Hours
// too: both count. It could move the row's hours at the hourly rate aimed at.
func (r *reading) noteHoursTwice() {
	listed := map[string]fault.Place{}
	for _, h := range r.books.Hours {
		for _, p := range h.Pieces {
			if rec := r.pieceRows[p]; rec != nil && rec.at != h.At {
				if first, there := listed[p]; !there || h.At.Compare(first) < 0 {
					listed[p] = h.At
				}
			}
		}
	}
	for _, h := range r.books.Hours {
		if len(h.Pieces) != 1 {
			continue
		}
		rec := r.pieceRows[h.Pieces[0]]
		if rec == nil || rec.at != h.At {
			continue
		}
		at, there := listed[h.Pieces[0]]
		if !there {
			continue
		}
		rec.note("hours", fault.CodeHoursTwice, money.RoundHalfEven(new(big.Rat).Mul(h.Hours, new(big.Rat).SetInt64(int64(r.settings.TargetHourly)))).Int64(),
			fmt.Sprintf("%s has %s h on its own row and hours in Hours too, first at %s; all of them count.", h.Pieces[0], written(h.Hours, r.settings), at),
			"If these are the same hours, clear them here; if not, nothing need be done.")
	}
}
