package headers

import (
	"slices"

	"piecebook/ledger/intake/settings"
	"piecebook/templates"
)

// tableNames are a table's columns by the keys of their headers: by their own
// names, and by their other names too. A sign is matched as it stands, or
// ignored where the column is of that kind anyway.
type tableNames struct{ own, any map[string][]*templates.Field }

// names are a table's, made once: each header of each sheet is compared with all
// of them.
func (r *Reader) names(t *templates.Table) tableNames {
	if n, made := r.named[t]; made {
		return n
	}
	n := tableNames{map[string][]*templates.Field{}, map[string][]*templates.Field{}}
	add := func(to map[string][]*templates.Field, f *templates.Field, names ...string) {
		for _, name := range names {
			key := settings.HeaderKey(name)
			for _, k := range []string{key, key + signOf(f)} {
				if !slices.Contains(to[k], f) {
					to[k] = append(to[k], f)
				}
			}
		}
	}
	for i := range t.Fields {
		f := &t.Fields[i]
		add(n.own, f, f.Name, f.Title)
		add(n.any, f, f.Name, f.Title)
		add(n.any, f, f.OtherNames...)
	}
	r.named[t] = n
	return n
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
	names, own := r.names(t), map[string]bool{}
	keys := make([]string, len(cells))
	for i, text := range cells {
		key := settings.HeaderKey(text)
		if keys[i] = key; key == "" {
			continue
		}
		if field, is := mapped[key]; is {
			found[i], ignored[i] = t.Field(field), field == settings.NoTable
		}
		if named := names.own[key]; found[i] == nil && !ignored[i] && len(named) > 0 {
			found[i] = named[0]
		}
		if found[i] != nil {
			own[found[i].Name] = true
		}
	}
	for _, bare := range []bool{false, true} {
		for i, key := range keys {
			if key == "" || slices.Contains(bareNumbers, key) != bare {
				continue
			}
			for _, f := range names.any[key] {
				if found[i] == nil && !ignored[i] && !own[f.Name] {
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
