// Package columns knows what the columns of all tables are called, and what a
// column can be by the words of its name and by its cells.
//
// In: a row of texts, or the cells below one. Out: for each text the column of a
// table that it names, or what the cells have in common. Of "Hrs.", "Day" and the
// table hours come the columns hours and worked_on.
//
// A name is looked up in [columns.TABLE] of settings.toml, then among the columns'
// own names and titles, then among their other names, those only where the column
// is not there under its own.
package columns

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// tableNames are a table's columns by the keys of their headers: by their own
// names, and by their other names too. A sign is matched as it stands, or
// ignored where the column is of that kind anyway.
type tableNames struct{ own, any map[string][]*templates.Field }

// Names are the names of all tables' columns, with those that settings.toml adds.
type Names struct {
	set      *templates.Set
	settings ledger.Settings
	made     map[*templates.Table]tableNames
	known    map[string]bool // all of them, by their keys
}

// New makes the names of the tables' columns.
func New(set *templates.Set, settings ledger.Settings) *Names {
	n := &Names{set: set, settings: settings, made: map[*templates.Table]tableNames{}, known: map[string]bool{}}
	n.gather()
	return n
}

// of are a table's names, made once: each header of each sheet is compared with
// all of them.
func (n *Names) of(t *templates.Table) tableNames {
	if names, made := n.made[t]; made {
		return names
	}
	names := tableNames{map[string][]*templates.Field{}, map[string][]*templates.Field{}}
	add := func(to map[string][]*templates.Field, f *templates.Field, texts ...string) {
		for _, text := range texts {
			key := settings.HeaderKey(text)
			for _, k := range []string{key, key + signOf(f)} {
				if !slices.Contains(to[k], f) {
					to[k] = append(to[k], f)
				}
			}
		}
	}
	for i := range t.Fields {
		f := &t.Fields[i]
		add(names.own, f, f.Name, f.Title)
		add(names.any, f, f.Name, f.Title)
		add(names.any, f, f.OtherNames...)
	}
	n.made[t] = names
	return names
}

// Called are the columns of a table that a header is a name of, own or other.
func (n *Names) Called(t *templates.Table, header string) []*templates.Field {
	return n.of(t).any[settings.HeaderKey(header)]
}

// IsOwn says that a header is a column's own name, or that settings.toml maps it.
func (n *Names) IsOwn(t *templates.Table, header string) bool {
	key := settings.HeaderKey(header)
	for mapped := range n.settings.Columns[t.Name] {
		if settings.HeaderKey(mapped) == key {
			return true
		}
	}
	return len(n.of(t).own[key]) > 0
}

// signOf is the sign that a column's header may have beside its name.
func signOf(f *templates.Field) string {
	switch {
	case IsMoney(f.Cell):
		return "$"
	case f.Cell == templates.Percent:
		return "%"
	}
	return ""
}

// Fields finds each header's column: by settings.toml, by the column's own name,
// then by its other names, but those only for a column that is not there under its
// own. ignored are the headers that settings.toml maps to none.
func (n *Names) Fields(t *templates.Table, cells []string) (found []*templates.Field, ignored []bool) {
	found, ignored = make([]*templates.Field, len(cells)), make([]bool, len(cells))
	mapped := map[string]string{}
	for header, field := range n.settings.Columns[t.Name] {
		mapped[settings.HeaderKey(header)] = field
	}
	names, own := n.of(t), map[string]bool{}
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
	for i, key := range keys {
		f := t.Field("containers")
		if found[i] == nil && !ignored[i] && key == howMuch && f != nil && Has(found, "cost") && !Has(found, f.Name) {
			found[i] = f
		}
	}
	return found, ignored
}

// howMuch is a header that beside what a line cost says how many were bought; alone it
// is what it cost.
const howMuch = "howmuch"

// bareNumbers are headers that say a number and not of what.
var bareNumbers = []string{"no", "number", "id", "ref"}

// isPieceRef says that a column names pieces of another table.
func isPieceRef(f *templates.Field) bool {
	return f.Cell == templates.PieceRef || f.Cell == templates.PieceList
}

// nameMost is how long a column's name can be.
const nameMost = 100

// IsName says of a text whether any table has a column of that name.
func (n *Names) IsName(text string) bool {
	return len(text) <= nameMost && n.known[settings.HeaderKey(text)]
}

func (n *Names) gather() {
	for i := range n.set.Tables {
		t := &n.set.Tables[i]
		for key := range n.of(t).any {
			n.known[key] = true
		}
		for header := range n.settings.Columns[t.Name] {
			n.known[settings.HeaderKey(header)] = true
		}
	}
	delete(n.known, "")
}

// In counts the columns of a table that a row names, and says whether all that
// the table needs are among them.
func (n *Names) In(t *templates.Table, cells []string) (count int, complete bool) {
	found, _ := n.Fields(t, cells)
	return Distinct(found), len(Lacking(t, found)) == 0
}

// All says that each filled cell of a row names a column, two at least, or is one
// that settings.toml says is none.
func (n *Names) All(t *templates.Table, cells []string) bool {
	found, ignored := n.Fields(t, cells)
	none := 0
	for _, is := range ignored {
		if is {
			none++
		}
	}
	count := Distinct(found)
	return count >= 2 && count+none == sheets.Filled(cells)
}

// Distinct counts the fields, each once.
func Distinct(found []*templates.Field) int {
	names := map[string]bool{}
	for _, f := range found {
		if f != nil {
			names[f.Name] = true
		}
	}
	return len(names)
}

// Lacking are the columns a table needs that are not there.
func Lacking(t *templates.Table, found []*templates.Field) []string {
	return slices.DeleteFunc(Needed(t), func(name string) bool { return Has(found, name) })
}

// Has says that a column is among those found.
func Has(found []*templates.Field, name string) bool {
	return slices.ContainsFunc(found, func(f *templates.Field) bool { return f != nil && f.Name == name })
}

// HasNeeded says that all columns a table needs are there. In Pieces the kind
// may be missing yet where there is a price, and the number where there is a
// description too: a sheet of one row a piece often has none, which is reported
// once it is read.
func HasNeeded(t *templates.Table, found []*templates.Field) bool {
	return !slices.ContainsFunc(Lacking(t, found), func(name string) bool {
		late := name == "kind" || name == "piece" && Has(found, "description")
		return t.Name != "pieces" || !late || !Has(found, "price")
	})
}

// Needed are the columns a table cannot do without.
func Needed(t *templates.Table) []string {
	var names []string
	for _, f := range t.Fields {
		if f.Constraints.Required {
			names = append(names, f.Name)
		}
	}
	return names
}
