package intake

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
)

// looseKeys are a name for comparing without regard to case and signs, and to
// the order of its words: `Dresser, oak` for `Oak dresser`. Numbers keep their
// order, and what parts two of them: P1-1 is not P11.
func looseKeys(name string) []string {
	var letters, numbers []string
	for _, w := range nameWords(name) {
		if strings.IndexFunc(w, unicode.IsDigit) >= 0 {
			numbers = append(numbers, w)
		} else {
			letters = append(letters, w)
		}
	}
	slices.Sort(letters)
	keys := []string{strings.Join(append(letters, numbers...), " ")}
	var joined strings.Builder
	last, parted := ' ', false
	for _, c := range values.Fold(name) {
		if !unicode.IsLetter(c) && !unicode.IsDigit(c) {
			parted = true
			continue
		}
		if parted && unicode.IsDigit(c) && unicode.IsDigit(last) {
			joined.WriteByte('-')
		}
		joined.WriteRune(c)
		last, parted = c, false
	}
	return append(keys, joined.String())
}

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
			"It may stay. If it is another, give the two names that differ in more."
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

// isMisspelt says that a name is so near to another, with the same numbers, that it
// is that name misspelt.
func isMisspelt(name, known string) bool {
	digits := func(text string) string {
		return strings.Map(func(c rune) rune {
			if unicode.IsDigit(c) {
				return c
			}
			return -1
		}, text)
	}
	letters := func(text string) string {
		return strings.Map(func(c rune) rune {
			if unicode.IsDigit(c) {
				return -1
			}
			return c
		}, text)
	}
	return digits(name) == digits(known) && fault.Alike(letters(name), letters(known))
}

// severalNear are two to five known names that one which is unknown may mean:
// those that it is within, word for word.
func severalNear(name string, known []string) []string {
	of := nameWords(name)
	if len(of) == 0 || len(known) > wordsMost {
		return nil
	}
	var out []string
	for _, k := range known {
		words := nameWords(k)
		if !slices.ContainsFunc(of, func(w string) bool { return !slices.Contains(words, w) }) {
			out = append(out, k)
		}
	}
	slices.Sort(out)
	if len(out) > 5 {
		return nil
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
