package intake

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// owner is what a name belongs to.
type owner struct {
	what    string // piece, lot, set
	name    string // as its own table spells it
	at      fault.Place
	refused bool            // its row, or that of one of its pieces
	rec     *record         // the row that was refused, or its own
	pieces  map[string]bool // a lot's or set's pieces that were read
	any     bool            // a lot: some Pieces row names it
}

// names is who has which name: pieces, lots and sets share one name space,
// supplies, schedules and channels have one each.
type names struct {
	shared    map[string]*owner
	lots      map[string]*owner // those of shared that are lots
	supplies  map[string]*owner
	schedules map[string]*owner
	channels  map[string]string
	loose     map[string][]*owner // by table and looseKeys
	nearest   map[string]string   // suggestions made so far, by what and name
	kinds     map[string][]string // pieces by kind, once it is asked
	called    map[string]string   // pieces by what else they are called, once it is asked
	allKinds  []string            // of furniture, once they are asked
}

// exampleKey is a table and what its row still marked as an example begins with.
func exampleKey(table, name string) string { return table + ":" + looseKeys(name)[0] }

// suggestionsMax bounds the suggestions of one run: each is compared with all
// names there are, and where more than these are unknown a whole table is
// wrong and no single suggestion helps.
const suggestionsMax = 500

// near is the known name nearest to one that is unknown, or nothing.
func (n *names) near(what, name string, space map[string]*owner) string {
	key := what + ":" + values.Fold(name)
	if near, made := n.nearest[key]; made {
		return near
	}
	if len(n.nearest) >= suggestionsMax {
		return ""
	}
	known := knownNames(space)
	near := sameNumber(name, known)
	if len(known) <= wordsMost {
		near = cmp.Or(near, samePadded(name, known), fault.Nearest(name, known), sharedWord(name, known))
	}
	n.nearest[key] = cmp.Or(near, fault.Nearest(name, known))
	return n.nearest[key]
}

// claimNames registers all pieces, lots and sets before any row is built, so
// that a reference to a refused row is distinguished from one to nothing.
func (r *reading) claimNames() {
	r.names = names{shared: map[string]*owner{}, lots: map[string]*owner{}, supplies: map[string]*owner{},
		schedules: map[string]*owner{}, channels: map[string]string{}, nearest: map[string]string{}}
	claim := func(space map[string]*owner, rec *record, what, field string) {
		name := rec.Raw(field)
		if name == "" {
			return
		}
		if first, taken := space[values.Fold(name)]; taken {
			if !rec.Refused || rec.Block.Faulty {
				rec.Fail(field, fault.CodeNameTwice, fmt.Sprintf("This is already the name of the %s at %s, so a "+
					"record that names "+
					"it could mean either.", first.what, first.at),
					"Give one of them another number or name, or take one out if they are the same.")
			}
			return
		}
		space[values.Fold(name)] = &owner{what: what, name: name, at: rec.At, refused: rec.Refused, rec: rec,
			pieces: map[string]bool{}}
	}
	for _, rec := range r.tables["pieces"] {
		claim(r.names.shared, rec, "piece", "piece")
	}
	for _, rec := range r.tables["lots"] {
		claim(r.names.shared, rec, "lot", "lot")
		if o := r.names.shared[values.Fold(rec.Raw("lot"))]; o != nil && o.what == "lot" {
			r.names.lots[values.Fold(o.name)] = o
		}
	}
	for _, rec := range r.tables["supplies"] {
		claim(r.names.supplies, rec, "supply", "supply")
	}
	r.claimSets()
	r.readSlips()
	r.claimChannels()
	r.noteKinds()
}

// claimSets registers the sets that pieces name. A set is spelled as the
// first of its spellings by letters, so that row order never matters.
func (r *reading) claimSets() {
	for _, rec := range r.tables["pieces"] {
		name := rec.Raw("set")
		if name == "" {
			continue
		}
		o, taken := r.names.shared[values.Fold(name)]
		switch {
		case !taken:
			r.names.shared[values.Fold(name)] = &owner{what: "set", name: name, at: rec.At, pieces: map[string]bool{}}
		case o.what == "set":
			o.name = min(o.name, name)
		case !rec.Refused:
			rec.Fail("set", fault.CodeNameTwice, fmt.Sprintf("This is already the name of the %s at %s.", o.what, o.at),
				"Give the set another name.")
		}
	}
}

// knownNames are the spellings of a name space, for the nearest of them.
func knownNames(space map[string]*owner) []string {
	out := make([]string, 0, len(space))
	for _, o := range space {
		out = append(out, o.name)
	}
	return out
}

// refer resolves one name in a name space, telling an unknown one with the
// nearest, or one whose own row was refused. what says what was looked for.
func (rec *record) refer(field, name, what string, space map[string]*owner, code fault.Code, table string) *owner {
	o := rec.find(field, name, what, space)
	switch {
	case o == nil && rec.dependsOn(field, strings.ToLower(table), table):
		return nil
	case o == nil:
		rec.unknown(field, name, what, space, code, table)
		return nil
	case o.refused:
		rec.dependsOnRefused(field, what+" "+values.Fold(name), o)
		return nil
	}
	return o
}

// dependsOnRefused refuses a row that names something refused: one cause for all
// rows of the sheet that wait for the same thing to be put right.
func (rec *record) dependsOnRefused(field, about string, o *owner) {
	table := titleOf[o.what]
	var at fault.Place
	waits := false
	if o.rec != nil {
		at, waits = o.rec.WaitsFor()
	}
	switch {
	case o.rec != nil && (o.rec.Block.Broken || o.rec.Block.Faulty) && rec.dependsOn(field, strings.ToLower(table), table):
	case waits:
		rec.FailForCause(field, at.String(), fault.CodeRefusedRow, func(s *rows.Cause) (string, string) {
			return fmt.Sprintf("The %s %s could not be read for the way days or numbers are written there.%s", o.what,
					o.name, s.More()),
				fmt.Sprintf("Put %s right first; %s may be right then.", at, fault.Plural(s.Cells, "this line", "these lines"))
		})
	default:
		at := o.at
		rec.FailForCause(field, about, fault.CodeRefusedRow, func(s *rows.Cause) (string, string) {
			return fmt.Sprintf("The %s %s cannot be used, since its own line has an error.%s", o.what, o.name, s.More()),
				fmt.Sprintf("Put %s right first; %s may be right then.", at, fault.Plural(s.Cells, "this line", "these lines"))
		})
	}
}

// titleOf is the table that names something.
var titleOf = map[string]string{"piece": "Pieces", "set": "Pieces", "lot": "Lots", "supply": "Supplies",
	"schedule": "Schedules"}

// fixForUnknown says what to type for a name that is unknown: the nearest there is,
// the one piece of that kind; empty where there is nothing to say but that it is in no
// table.
func (rec *record) fixForUnknown(name, what string, space map[string]*owner, code fault.Code, table string) string {
	if at, is := rec.r.asExamples[exampleKey(strings.ToLower(table), name)]; is {
		fix := fmt.Sprintf("Its row in %s is still marked as an example, which is not read. Delete %q in %s", table,
			templates.ExamplePrefix, at)
		if rec.Block.Table.Name == "schedules" {
			fix += ", or delete this line of Schedules"
		}
		return fix + "."
	}
	if code == fault.CodePieceUnknown && rec.r.otherNames(space)[values.Fold(name)] == "" {
		if of := rec.r.piecesOfKind(name); len(of) == 1 {
			return fmt.Sprintf("The one %s is %s: type that. Pieces are named by what stands under Piece in Pieces.",
				strings.TrimSpace(name), of[0])
		} else if len(of) > 1 {
			return fmt.Sprintf("Type which one: %s. Pieces are named by what stands under Piece in Pieces.", upToFive(of))
		}
	}
	propose := func(meant string) bool {
		return rec.r.lines.Propose("names", settings.NameLine(name, meant), rec.Place(rec.fieldOf(table)))
	}
	putName := func(meant string) string { return settings.Put("names", settings.NameLine(name, meant)) }
	if piece := rec.r.otherNames(space)[values.Fold(name)]; piece != "" && code == fault.CodePieceUnknown &&
		propose(piece) {
		return fmt.Sprintf("Pieces says this of %s: type that, or %s.", piece, putName(piece))
	}
	if of := severalNear(name, knownNames(space)); len(of) > 1 {
		return fmt.Sprintf("It may be %s: type the one that is meant, or put %s into %s.", upToFive(of), name, table)
	}
	near := rec.r.names.near(what, name, space)
	if others := rec.r.otherNames(space); near == "" || !isMisspelt(name, near) {
		other := fault.Nearest(name, slices.Sorted(maps.Keys(others)))
		if other != "" && isMisspelt(name, other) && propose(others[other]) {
			return fmt.Sprintf("The nearest is %s, which is %s. Type that, or %s; if it is another, put %s into %s.", other,
				others[other], putName(others[other]), name, table)
		}
	}
	switch only := []string{near}; {
	case near != "" && isMisspelt(name, near) && propose(near):
		return fmt.Sprintf("The nearest is %s. Type that, or %s; if it is another, put %s into %s.", near, putName(near),
			name, table)
	case sameNumber(name, only) != "":
		return fmt.Sprintf("A spreadsheet takes the zeros off a number: %s is there. Type that, and format the column as "+
			"text so that it stays.", near)
	case samePadded(name, only) != "":
		return fmt.Sprintf("%s is there: type that, so that all lines spell it alike.", near)
	case near != "":
		return fmt.Sprintf("The nearest is %s. Type that, or put %s into %s.", near, name, table)
	}
	return ""
}

// upToFive is up to five of a list.
func upToFive(all []string) string {
	if n := len(all) - 5; n > 0 {
		return fmt.Sprintf("%s or %d more", strings.Join(all[:5], ", "), n)
	}
	if len(all) == 1 {
		return all[0]
	}
	return strings.Join(all[:len(all)-1], ", ") + " or " + all[len(all)-1]
}

// piecesOfKind are the pieces of a kind, by name: what an owner means who
// types dresser where a piece's number is needed.
func (r *reading) piecesOfKind(kind string) []string {
	if r.names.kinds == nil {
		r.names.kinds = map[string][]string{}
		for _, rec := range r.tables["pieces"] {
			if k := values.Fold(rec.Raw("kind")); k != "" && rec.Raw("piece") != "" {
				r.names.kinds[k] = append(r.names.kinds[k], rec.Raw("piece"))
			}
		}
		for _, of := range r.names.kinds {
			slices.Sort(of)
		}
	}
	return r.names.kinds[values.Fold(kind)]
}

// failName adds an error about one name of a cell; a list can have several.
func (rec *record) failName(field, name string, code fault.Code, why, fix string) {
	rec.Refuse(fault.Problem{Code: code, Place: rec.Place(field), Found: rec.Raw(field), Why: why, Fix: fix})
}

// supply resolves a reference to a supply; nil where blank, unknown or refused.
func (rec *record) supply(field string) *owner {
	name, ok := rec.Text(field)
	if !ok {
		return nil
	}
	return rec.refer(field, name, "supply", rec.r.names.supplies, fault.CodeSupplyUnknown, "Supplies")
}

// schedule resolves a reference to a schedule.
func (rec *record) schedule(field string) *owner {
	name, ok := rec.Text(field)
	if !ok {
		return nil
	}
	return rec.refer(field, name, "schedule", rec.r.names.schedules, fault.CodeScheduleUnknown, "Schedules")
}

// lot resolves a reference to a lot, empty where blank, unknown or refused.
func (rec *record) lot(field string) string {
	name, ok := rec.Text(field)
	if !ok {
		return ""
	}
	if o := rec.refer(field, name, "lot", rec.r.names.lots, fault.CodeLotUnknown, "Lots"); o != nil {
		return o.name
	}
	return ""
}

// channel is a channel as its table spells it; one that is not there stands
// as typed.
func (rec *record) channel(field string) string {
	name := rec.Words(field)
	if known := rec.r.names.channels[values.Fold(name)]; known != "" {
		return known
	}
	return name
}

// piece resolves a reference to one piece.
func (rec *record) piece(field string) string {
	name, ok := rec.Text(field)
	if !ok {
		return ""
	}
	if o := rec.r.lookUp(name, rec.r.names.shared); o != nil && o.what != "piece" {
		rec.Fail(field, fault.CodeOnePieceOnly, fmt.Sprintf("%s is a %s, and one piece is needed here.", o.name, o.what),
			"Type the number of one piece.")
		return ""
	}
	if o := rec.refer(field, name, "piece", rec.r.names.shared, fault.CodePieceUnknown, "Pieces"); o != nil {
		return o.name
	}
	return ""
}

// pieces resolves a list of pieces, lots and sets to pieces, each once, by
// name. A cell that is wholly one name is that name before it is split.
func (rec *record) pieces(field string) []string {
	text, ok := rec.Text(field)
	if !ok {
		return nil
	}
	items := rec.items(text)
	if rec.Sheet.IsCash {
		items = rec.withinWords(text, items)
	}
	all := map[string]bool{}
	for _, item := range items {
		o := rec.refer(field, item, "piece, lot or set", rec.r.names.shared, fault.CodePieceUnknown, "Pieces")
		switch {
		case o == nil:
		case o.what == "piece":
			all[o.name] = true
		default:
			maps.Copy(all, o.pieces)
		}
	}
	if len(items) == 0 {
		rec.Missing(field)
	}
	return slices.Sorted(maps.Keys(all))
}

// dependsOn refuses a row that names something of a table that could not be
// read, or is not there at all: one cause for all such rows of the sheet.
func (rec *record) dependsOn(field, table, title string) bool {
	at, broken := rec.r.heads.Broken[table]
	_, there := rec.r.tables[table]
	switch {
	case broken:
		rec.FailForCause(field, table, fault.CodeRefusedRow, func(s *rows.Cause) (string, string) {
			return fmt.Sprintf("%s could not be read (%s), so what this names cannot be found.%s", title, at, s.More()),
				fmt.Sprintf("Put %s right first; %s may be right then.", title, fault.Plural(s.Cells, "this", "these"))
		})
	case !there:
		rec.FailForCause(field, table, unknownCodes[table], func(s *rows.Cause) (string, string) {
			return fmt.Sprintf("There is no table %s in the records, so what this names cannot be found.%s", title, s.More()),
				fmt.Sprintf("Add a sheet or file %s with a line for each name that other tables use.", title)
		})
	}
	return broken || !there
}

// unknownCodes are the codes of names that are in no table.
var unknownCodes = map[string]fault.Code{"pieces": fault.CodePieceUnknown, "supplies": fault.CodeSupplyUnknown,
	"lots": fault.CodeLotUnknown, "schedules": fault.CodeScheduleUnknown}
