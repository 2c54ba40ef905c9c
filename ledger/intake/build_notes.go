package intake

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

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
	fix := "If they are square feet, inches and miles, put units = \"us\" at the top of settings.toml."
	if r.lines.Propose("", `units = "metric"`, at) {
		fix = "If they are square metres, cm and km, put units = \"metric\" at the top of settings.toml; if not, put units " +
			"= \"us\" there."
	}
	r.problems.Add(fault.Problem{Code: fault.CodeUnitsMetric, Note: true, Place: at.At("container"), Found: found,
		Why: "Containers are in metric units throughout, but settings.toml does not say which units the shop works in, so " +
			"areas were read as square feet, lengths as inches and distances as miles.",
		Fix: fix})
}

// noteHoursTwice notes pieces whose hours stand on their own row and in Hours
// too: both count. It could move the row's hours at the hourly rate aimed at.
func (r *reading) noteHoursTwice() {
	listed := map[string]fault.Place{}
	for _, h := range r.books.Hours {
		for _, p := range h.Pieces {
			if rec := r.pieceRows[p]; rec != nil && rec.At != h.At {
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
		if rec == nil || rec.At != h.At {
			continue
		}
		at, there := listed[h.Pieces[0]]
		if !there {
			continue
		}
		rec.NoteOnly("hours", fault.CodeHoursTwice, money.RoundHalfEven(new(big.Rat).Mul(h.Hours,
			new(big.Rat).SetInt64(int64(r.settings.TargetHourly)))).Int64(),
			fmt.Sprintf("%s has %s h on its own row and hours in Hours too, first at %s; all of them count.", h.Pieces[0],
				values.Written(h.Hours, r.settings), at),
			"If these are the same hours, clear them here; if not, leave them.")
	}
}

// Where ounces are doubted: groups sold as liquids, in sizes that cans and
// bottles of a measured volume have (half a pint to a gallon; common practice,
// no source). Spray cans, which go by weight, have others: 11, 12, 15 oz.
var (
	liquidGroups = []string{"stripper", "cleaner", "primer", "paint", "stain", "topcoat", "solvent"}
	liquidOunces = []int64{8, 16, 32, 64, 128}
)

// noteOunces notes a container of a liquid in plain ounces, which are a weight:
// labels often write oz for the fluid ounces of a can.
func (rec *record) noteOunces(field, group string, container measure.Amount) {
	asLiquid := slices.ContainsFunc(liquidOunces, func(n int64) bool { return container.Value.Cmp(big.NewRat(n, 1)) == 0 })
	if container.Unit.Name != "oz" || !asLiquid || !slices.Contains(liquidGroups, group) {
		return
	}
	size := money.AtMost(container.Value, 0)
	rec.Note(field, fault.CodeOuncesAsWeight, 0,
		fmt.Sprintf("This is read as %s ounces of weight. A can of that size often holds fluid ounces.", size),
		fmt.Sprintf("If the label says fluid ounces (fl oz), type %s fl oz; otherwise leave it.", size))
}
