package headers

import (
	"slices"

	"piecebook/ledger/intake/settings"
	"piecebook/templates"
)

// key is settings.HeaderKey of a column's name, made once a name: each header of
// each sheet is compared with all of them.
func (r *Reader) key(name string) string {
	k, made := r.keys[name]
	if !made {
		k = settings.HeaderKey(name)
		r.keys[name] = k
	}
	return k
}

// hasName says that a column has a header's key under its own name, or
// (ownOnly false) under one of its other names too. A sign is matched as it
// stands, or ignored where the column is of that kind anyway.
func (r *Reader) hasName(f *templates.Field, key string, ownOnly bool) bool {
	names := []string{f.Name, f.Title}
	if !ownOnly {
		names = append(names, f.OtherNames...)
	}
	over := signOf(f)
	return slices.ContainsFunc(names, func(name string) bool {
		k := r.key(name)
		return k == key || over != "" && k+over == key
	})
}

// signOf is the sign that a column's header may have beside its name.
func signOf(f *templates.Field) string {
	switch {
	case isMoney(f.Cell):
		return "$"
	case f.Cell == templates.Percent:
		return "%"
	}
	return ""
}

// headerFields finds each header's field: by settings.toml, by the column's
// own name, then by its other names, but those only for a column that is not
// there under its own. ignored are the headers that settings.toml maps to none.
func (r *Reader) headerFields(t *templates.Table, cells []string) (found []*templates.Field, ignored []bool) {
	found, ignored = make([]*templates.Field, len(cells)), make([]bool, len(cells))
	mapped := map[string]string{}
	for header, field := range r.settings.Columns[t.Name] {
		mapped[settings.HeaderKey(header)] = field
	}
	own := map[string]bool{}
	for i, text := range cells {
		key := settings.HeaderKey(text)
		if key == "" {
			continue
		}
		if field, is := mapped[key]; is {
			found[i], ignored[i] = t.Field(field), field == settings.NoTable
		}
		for j := range t.Fields {
			if f := &t.Fields[j]; found[i] == nil && !ignored[i] && r.hasName(f, key, true) {
				found[i] = f
			}
		}
		if found[i] != nil {
			own[found[i].Name] = true
		}
	}
	for _, bare := range []bool{false, true} {
		for i, text := range cells {
			key := settings.HeaderKey(text)
			if key == "" || slices.Contains(bareNumbers, key) != bare {
				continue
			}
			for j := range t.Fields {
				f := &t.Fields[j]
				if found[i] == nil && !ignored[i] && !own[f.Name] && r.hasName(f, key, false) {
					found[i] = f
				}
			}
		}
		for i, f := range found {
			// Beside a column that says what it names, a bare number is the line's.
			if f != nil && !ignored[i] && isPieceRef(f) {
				own[f.Name] = true
			}
		}
	}
	return found, ignored
}

// bareNumbers are headers that say a number and not of what.
var bareNumbers = []string{"no", "number", "id", "ref"}

// isPieceRef says that a column names pieces of another table.
func isPieceRef(f *templates.Field) bool {
	return f.Cell == templates.PieceRef || f.Cell == templates.PieceList
}
