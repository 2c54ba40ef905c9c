package intake

import (
	"fmt"
	"maps"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
)

// lookUp finds a name as it stands, or as [names] of settings.toml has it.
func (r *reading) lookUp(name string, space map[string]*owner) *owner {
	if o := space[values.Fold(name)]; o != nil {
		return o
	}
	if meant, own := r.meant[values.Fold(name)]; own {
		return space[values.Fold(meant)]
	}
	return nil
}

// find is lookUp, and else the one name that has the same words: in another
// order, case or with other signs, which is noted.
func (rec *record) find(field, name, what string, space map[string]*owner) *owner {
	if o := rec.r.lookUp(name, space); o != nil {
		return o
	}
	same := rec.r.sameWords(name, what, space)
	if len(same) != 1 {
		return nil
	}
	o := same[0]
	rec.NoteForCause(field, what+":"+values.Fold(name), fault.CodeNameOtherwise, 0, func(s *rows.Cause) (string, string) {
		return fmt.Sprintf("This is read as the %s %s, which has the same words.", o.what, o.name) + s.More(),
			"The name may stay. If it is another, give the two names that differ in more."
	})
	return o
}

// sameWords are the owners of a name space whose names have a name's words.
func (r *reading) sameWords(name, what string, space map[string]*owner) []*owner {
	if r.names.loose == nil {
		r.names.loose = map[string][]*owner{}
	}
	all := what + "\n"
	if _, made := r.names.loose[all]; !made {
		r.names.loose[all] = []*owner{}
		for _, o := range space {
			for _, key := range looseKeys(o.name) {
				if have := r.names.loose[all+key]; key != "" && !slices.Contains(have, o) {
					r.names.loose[all+key] = append(have, o)
				}
			}
		}
	}
	var out []*owner
	for _, key := range looseKeys(name) {
		for _, o := range r.names.loose[all+key] {
			if key != "" && !slices.Contains(out, o) {
				out = append(out, o)
			}
		}
	}
	return out
}

// items are the names of a list: the whole cell where it is a name, or nearly
// one; else what the list's marks part.
func (rec *record) items(text string) []string {
	const what = "piece, lot or set"
	isName := func(text string) bool {
		return rec.r.lookUp(text, rec.r.names.shared) != nil || len(rec.r.sameWords(text, what, rec.r.names.shared)) == 1
	}
	if isName(text) {
		return []string{text}
	}
	out := values.List(text)
	if len(out) > 1 && !slices.ContainsFunc(out, isName) {
		if near := rec.r.names.near(what, text, rec.r.names.shared); near != "" && isMisspelt(text, near) {
			return []string{text}
		}
	}
	return out
}

// fieldOf is a column of a row that names something of a table, for its place.
func (rec *record) fieldOf(table string) string {
	for name, c := range rec.Block.Columns {
		if values.IsName(c.Field.Cell) && tableOfName[string(c.Field.Cell)] == table {
			return name
		}
	}
	return ""
}

// tableOfName is the table that a kind of cell names something of.
var tableOfName = map[string]string{"piece": "Pieces", "pieces": "Pieces", "supply": "Supplies", "lot": "Lots",
	"schedule": "Schedules"}

// readMeant takes the names of settings.toml by how they are compared.
func (r *reading) readMeant() {
	r.meant = map[string]string{}
	for text, name := range r.settings.Names {
		r.meant[values.Fold(text)] = name
	}
}

// noteUnusedNames notes lines of [names] and [items] that name nothing there is.
func (r *reading) noteUnusedNames(text string) {
	for _, line := range []struct {
		of     map[string]string
		spaces []map[string]*owner
		what   string
	}{{r.settings.Names, []map[string]*owner{r.names.shared, r.names.supplies, r.names.schedules},
		"piece, lot, set, supply or schedule"}} {
		for key, name := range line.of {
			if !slices.ContainsFunc(line.spaces, func(s map[string]*owner) bool { return s[values.Fold(name)] != nil }) {
				r.problems.Add(fault.Problem{Code: fault.CodeSettingUnused, Note: true, Place: settings.Place(text, key),
					Found: name, Why: fmt.Sprintf("There is no %s of this name in the records, so the line does nothing.", line.what),
					Fix: "Type the name as its own table has it, or take the line out."})
			}
		}
	}
}

// otherNamesLeast is how many pieces it takes for what a column says of each, all of
// it different, to be names of theirs.
const otherNamesLeast = 3

// otherNames are what else things of a name space are called, in small letters, and
// what they are: by [names] of settings.toml, and pieces by their kind or description
// where no two have the same.
func (r *reading) otherNames(space map[string]*owner) map[string]string {
	out := map[string]string{}
	if len(space) > 0 && maps.EqualFunc(space, r.names.shared, func(a, b *owner) bool { return a == b }) {
		maps.Copy(out, r.piecesCalled())
	}
	for text, name := range r.meant {
		if o := space[values.Fold(name)]; o != nil {
			out[text] = o.name
		}
	}
	return out
}

// piecesCalled are the pieces by their kind and description.
func (r *reading) piecesCalled() map[string]string {
	if r.names.called != nil {
		return r.names.called
	}
	r.names.called = map[string]string{}
	for _, field := range []string{"description", "kind"} {
		of, twice := map[string]string{}, false
		for _, rec := range r.tables["pieces"] {
			text, piece := values.Fold(rec.Raw(field)), rec.Raw("piece")
			if text == "" || piece == "" {
				continue
			}
			twice = twice || of[text] != ""
			of[text] = piece
		}
		if !twice && len(of) >= otherNamesLeast {
			maps.Copy(r.names.called, of)
		}
	}
	return r.names.called
}
