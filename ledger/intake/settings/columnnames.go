package settings

import (
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// column finds the column a setting names, telling one there is not.
func (r *settingsReading) column(t *templates.Table, key, name string) string {
	if values.Fold(name) == NoTable {
		return NoTable
	}
	var known []string
	for _, f := range t.Fields {
		if values.Compact(f.Name) == values.Compact(name) {
			return f.Name
		}
		known = append(known, f.Name)
	}
	if i := slices.IndexFunc(known, func(f string) bool { return values.Compact(f) == values.Compact(key) }); i >= 0 {
		r.problems.Add(fault.Problem{Code: fault.CodeSettingUnknown, Place: r.place(key), Found: name,
			Why: "The two names of this line are the other way around.",
			Fix: fmt.Sprintf("Your own column's name stands first: %s = %q.", TomlText(name), known[i])})
		return ""
	}
	if f := titled(t, name); f != "" {
		r.problems.Add(fault.Problem{Code: fault.CodeSettingUnknown, Place: r.place(key), Found: name,
			Why: fmt.Sprintf("There is no column in %s of that name.", t.Title),
			Fix: fmt.Sprintf("In settings.toml its name is %s: %s.", f, NameLine(key, f))})
		return ""
	}
	r.unknown(key, name, "column in "+t.Title, known)
	return ""
}

// titled is the column that has the name typed as its title or as another of its names,
// or but for a slip in it.
func titled(t *templates.Table, name string) string {
	key, like := HeaderKey(name), ""
	for _, f := range t.Fields {
		for _, title := range append([]string{f.Title, f.MetricTitle}, f.OtherNames...) {
			switch title = HeaderKey(title); {
			case title == key:
				return f.Name
			case like == "" && fault.Alike(title, key):
				like = f.Name
			}
		}
	}
	return like
}
