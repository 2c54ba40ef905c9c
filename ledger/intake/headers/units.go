package headers

import (
	"fmt"
	"slices"

	"golang.org/x/text/unicode/norm"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/templates"
)

// Headers that tell a unit, in their names or in brackets after them. One of
// the other system's would make every figure below it wrong without a sign.
var (
	metricHeaders = []string{"km", "kilometres", "kilometers", "sqm", "m2", "squaremetres", "squaremeters", "cm"}
	usHeaders     = []string{"sqft", "sqfeet", "ft2", "sf", "squarefeet", "in", "inches", "mi"}
	milesHeaders  = []string{"miles", "businessmiles"}
)

// checkHeaderUnit refuses a column in units the shop does not use. The column
// miles of a metric shop is read as km, with a note.
func (r *Reader) checkHeaderUnit(at fault.Place, b *Block, f *templates.Field, text string) {
	names, metric := []string{values.Compact(norm.NFKC.String(text))}, r.settings.Metric()
	if m := settings.InBrackets.FindStringSubmatch(text); m != nil {
		names = append(names, values.Compact(norm.NFKC.String(m[1])))
	}
	is := func(list []string) bool {
		return slices.ContainsFunc(names, func(n string) bool { return slices.Contains(list, n) })
	}
	wrong := is(metricHeaders) && !metric || is(usHeaders) && metric
	switch {
	case wrong:
		other := map[bool]string{true: "us", false: "metric"}[metric]
		line, fix := fmt.Sprintf("units = %q", other), fmt.Sprintf("Convert the column and name it %s.", f.Name)
		if r.lines.Propose("", line, at) {
			fix = fmt.Sprintf("If the whole shop works in the other units, put %s into settings.toml. If not, convert "+
				"the column and name it %s.", line, f.Name)
		}
		r.problems.Add(fault.Problem{Code: fault.CodeDistanceUnit, Place: at, Found: text,
			Why: fmt.Sprintf("The shop works in %s and %s (units in settings.toml), but this column is named for another unit.",
				r.settings.DistanceUnit(), r.settings.AreaUnit()),
			Fix: fix})
		b.Faulty = true
	case metric && f.Name == "miles" && slices.Contains(milesHeaders, names[0]):
		r.problems.Add(fault.Problem{Code: fault.CodeDistanceAssumed, Note: true, Place: at, Found: text,
			Why: "In a metric shop the distances in this column are read as km.",
			Fix: "Name the column km."})
	}
}

// unitHeaders name a column of units.
var unitHeaders = []string{"unit", "units", "uom", "measure", "measured in"}

// takeUnits reads a column of units with the numbers they belong to: the container's
// size, else the amount, else the containers. It is the column beside them, or any
// with a name for it, that holds nothing but units; below such a name one is enough,
// and what is no unit is then asked about.
func (r *Reader) takeUnits(b *Block) {
	i := slices.IndexFunc(b.Table.Fields, func(f templates.Field) bool {
		_, there := b.Columns[f.Name]
		return there && (f.Cell == templates.Container || f.Cell == templates.Amount)
	})
	of, there := b.Columns["containers"]
	if i >= 0 {
		of, there = b.Columns[b.Table.Fields[i].Name], true
	}
	if !there {
		return
	}
	b.unknown = slices.DeleteFunc(b.unknown, func(c Column) bool {
		cells, units := columns.Samples(b.sheet, c.Index), 0
		for _, x := range cells {
			if _, is := measure.FindUnit(x.Cell.Text); is {
				units++
			}
		}
		named := slices.Contains(unitHeaders, settings.HeaderKey(c.Header))
		if b.Units != nil || units == 0 || !named && (units < len(cells) || c.Index != of.Index+1) {
			return false
		}
		b.Units = map[string]int{of.Field.Name: c.Index}
		r.problems.Add(fault.Problem{Code: fault.CodeUnitBeside, Note: true, AsksNothing: true, Place: b.at(c.Header),
			Found: c.Header,
			Why: fmt.Sprintf("This column holds the units of %q, and the two are read together, such as %s.", of.Header,
				firstWithUnit(b.sheet, of.Index, c.Index)),
			Fix: "If it is something else, " + b.put(c.Header, settings.NoTable) + "."})
		return true
	})
}

// firstWithUnit is the first number of a column that has a unit in another.
func firstWithUnit(s *sheets.Sheet, number, unit int) string {
	for _, l := range s.Lines[1:] {
		if l.Text(number) != "" && l.Text(unit) != "" {
			return values.WithUnit(l.Text(number), l.Text(unit))
		}
	}
	return "2 qt"
}
