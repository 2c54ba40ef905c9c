package intake

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
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

// noteHoursTwice notes, once a sheet, the pieces whose hours stand on their own
// row and in Hours too: all of them count. It could move the rows' hours at the
// hourly rate aimed at.
func (r *reading) noteHoursTwice() {
	listed := map[string][]ledger.Hours{}
	for _, h := range r.books.Hours {
		for _, p := range h.Pieces {
			if !h.OwnRow {
				listed[p] = append(listed[p], h)
			}
		}
	}
	notes := map[fault.Place]*hoursTwice{}
	for _, h := range r.books.Hours {
		if !h.OwnRow || listed[h.Pieces[0]] == nil {
			continue
		}
		sheet := fault.Place{File: h.At.File, Sheet: h.At.Sheet}
		if notes[sheet] == nil {
			notes[sheet] = &hoursTwice{first: r.pieceRows[h.Pieces[0]], piece: h.Pieces[0], hours: new(big.Rat)}
		}
		notes[sheet].add(r.settings, h, listed[h.Pieces[0]])
	}
	for _, n := range notes {
		r.problems.Add(n.problem(r.settings))
	}
}

// twiceShown is how many pieces a note on hours in both places lists.
const twiceShown = 5

// hoursTwice is the pieces of a sheet with hours in both places.
type hoursTwice struct {
	first  *record
	piece  string   // the first
	hours  *big.Rat // on the rows
	format []string
	args   []any
	rows   []int
}

// add adds a piece: the hours on its row and the lines of Hours that name it. What it
// has of a line that names others too depends on these, so it gets no sum then.
func (n *hoursTwice) add(set ledger.Settings, own ledger.Hours, lines []ledger.Hours) {
	n.hours.Add(n.hours, own.Hours)
	n.rows = append(n.rows, own.At.Row)
	if len(n.format) == twiceShown {
		return
	}
	sum, part, result := new(big.Rat), "", ""
	for _, l := range lines {
		sum.Add(sum, l.Hours)
		if len(l.Pieces) > 1 {
			part = "a part of "
		}
	}
	if part == "" {
		result = fmt.Sprintf(": %s h", values.Written(new(big.Rat).Add(own.Hours, sum), set))
		if sum.Cmp(own.Hours) == 0 {
			result += " (the same sum, so most likely counted twice)"
		}
	}
	n.format = append(n.format, "%s has %s h on its row and %s%s h on lines of Hours (%s), and both count%s")
	n.args = append(n.args, own.Pieces[0], values.Written(own.Hours, set), part, values.Written(sum, set),
		linesOf(lines, func(h ledger.Hours) fault.Place { return h.At }), result)
}

func (n *hoursTwice) problem(set ledger.Settings) fault.Problem {
	format, about := strings.Join(n.format, "; "), n.piece
	if more := len(n.rows) - len(n.format); more > 0 {
		format += fmt.Sprintf("; and %d more", more)
	}
	if more := len(n.rows) - 1; more > 0 {
		about += fmt.Sprintf(" and %d more", more)
	}
	return fault.Problem{Code: fault.CodeHoursTwice, Note: true, Place: n.first.Place("hours"),
		Found: n.first.Raw("hours"), About: about + ": hours stand twice",
		MoneyCents: money.RoundHalfEven(new(big.Rat).Mul(n.hours,
			new(big.Rat).SetInt64(int64(set.TargetHourly)))).Int64(),
		Fix: fmt.Sprintf("Where they are the same hours, clear them here (%s). Where they are further hours, leave both. "+
			"If the whole column repeats what is in Hours, put %s under [%s] of settings.toml.", rows.RowList(n.rows),
			settings.NameLine(n.first.Block.Columns["hours"].Header, settings.NoTable), settings.ColumnsSection("pieces")),
	}.Naming(format+".", n.args...)
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
