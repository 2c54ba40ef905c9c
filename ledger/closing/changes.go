package closing

import (
	"cmp"
	"maps"
	"slices"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

// What happened to a record. The list is closed.
type What string

// The kinds of change.
const (
	Changed     What = "changed"
	MovedInTime What = "moved in time" // nothing but its day
	Added       What = "added"
	Removed     What = "removed"
)

// Change is a record that is not as it was.
type Change struct {
	What    What     `json:"what"`
	Was     *Line    `json:"was,omitempty"`     // nil: added
	Is      *Line    `json:"is,omitempty"`      // nil: removed
	Columns []string `json:"columns,omitempty"` // that differ, in order
}

// Line is the record as it stands, or as it stood where it is removed.
func (c *Change) Line() *Line {
	if c.Is != nil {
		return c.Is
	}
	return c.Was
}

// Differences is what happened to the records of a time, and to where they
// stand.
type Differences struct {
	Changes []Change
	Rows    int               // records that only stand in another row
	Files   map[string]string // files that have another name now
	Lost    []LostFile        // files that hold far fewer records, in order
}

// LostFile is a file half of whose records, and five at least, or all of them are
// in no file any more, as where a copy failed.
type LostFile struct {
	File    string `json:"file"`
	Was     int    `json:"was"`  // records
	Gone    int    `json:"gone"` // records
	Missing bool   `json:"-"`    // none is left in the file
}

// lostLeast is how many records of a file must be gone where some are left.
const lostLeast = 5

// lost finds the files that records are gone from.
func lost(was, is []Line, changes []Change) []LostFile {
	files := map[string]*LostFile{}
	for i := range was {
		if was[i].Table == SettingsTable {
			continue
		}
		name := was[i].Place.File
		if files[name] == nil {
			files[name] = &LostFile{File: name, Missing: true}
		}
		files[name].Was++
	}
	for _, c := range changes {
		if f := files[c.Line().Place.File]; f != nil && c.What == Removed {
			f.Gone++
		}
	}
	for i := range is {
		if f := files[is[i].Place.File]; f != nil {
			f.Missing = false
		}
	}
	var out []LostFile
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if f := *files[name]; f.Gone == f.Was || f.Gone >= lostLeast && 2*f.Gone >= f.Was {
			out = append(out, f)
		}
	}
	return out
}

// keyColumns are the columns that name a record of a table for good.
var keyColumns = map[string][]string{SettingsTable: {"key"}, "pieces": {"piece"}, "lots": {"lot"},
	"supplies": {"supply"},
	"surfaces": {"piece", "part"}, "schedules": {"schedule", "supply"}, "channels": {"channel", "from_date"},
	"removals": {"piece"}, "statements": {"year", "channel"}}

// Compare compares the lines of a time, those up to a month, with all there
// are now. Lines of later months are no changes, unless a record moved there.
func Compare(was, is []Line, through calendar.Month) Differences {
	p := &pairing{through: through, files: map[[2]string]int{}}
	byPrint := map[string][]*Line{}
	for i := range is {
		byPrint[is[i].Fingerprint] = append(byPrint[is[i].Fingerprint], &is[i])
	}
	// The same record at the same place first, so that copies of one record
	// do not look moved.
	for _, samePlace := range []bool{true, false} {
		p.equal(was, byPrint, samePlace)
	}
	p.gather(was, is)
	p.pair(func(l *Line) string { return keyOf(l, keyColumns[l.Table]) }, Changed)
	p.pair(func(l *Line) string { return withoutDay(l) }, MovedInTime)
	p.pair(func(l *Line) string { return place(l) }, Changed)
	p.alike()
	for _, l := range p.was {
		p.out.Changes = append(p.out.Changes, Change{What: Removed, Was: l})
	}
	for _, l := range p.is {
		if l.Month <= through {
			p.out.Changes = append(p.out.Changes, Change{What: Added, Is: l})
		}
	}
	slices.SortStableFunc(p.out.Changes, func(a, b Change) int {
		return cmp.Or(cmp.Compare(a.Line().Table, b.Line().Table), cmp.Compare(a.Line().Month, b.Line().Month),
			a.Line().Place.Compare(b.Line().Place), cmp.Compare(a.Line().Fingerprint, b.Line().Fingerprint))
	})
	p.out.Lost = lost(was, is, p.out.Changes)
	return p.out
}

// pairing is a comparison under way.
type pairing struct {
	through calendar.Month
	gone    map[*Line]bool // lines that have found their like
	was, is []*Line        // those that have not
	files   map[[2]string]int
	out     Differences
}

// equal takes out the lines that are as they were.
func (p *pairing) equal(was []Line, byPrint map[string][]*Line, samePlace bool) {
	if p.gone == nil {
		p.gone = map[*Line]bool{}
	}
	for i := range was {
		l := &was[i]
		if p.gone[l] {
			continue
		}
		for _, now := range byPrint[l.Fingerprint] {
			if p.gone[now] || samePlace && now.Place != l.Place {
				continue
			}
			p.gone[l], p.gone[now] = true, true
			p.moved(l.Place, now.Place)
			break
		}
	}
}

// moved counts a record that stands elsewhere.
func (p *pairing) moved(from, to fault.Place) {
	if from.File != to.File {
		if p.out.Files == nil {
			p.out.Files = map[string]string{}
		}
		p.out.Files[from.File] = to.File
	}
	if from != to {
		p.out.Rows++
	}
}

// gather is the lines that are left.
func (p *pairing) gather(was, is []Line) {
	for i := range was {
		if !p.gone[&was[i]] {
			p.was = append(p.was, &was[i])
		}
	}
	for i := range is {
		if !p.gone[&is[i]] {
			p.is = append(p.is, &is[i])
		}
	}
}

// pair makes a change of every two lines of one table that answer the same;
// those that answer nothing stay.
func (p *pairing) pair(key func(*Line) string, what What) {
	if len(p.was) == 0 {
		return
	}
	found := map[[2]string][]*Line{}
	for _, l := range p.is {
		if k := key(l); k != "" {
			found[[2]string{l.Table, k}] = append(found[[2]string{l.Table, k}], l)
		}
	}
	for _, l := range p.was {
		k := [2]string{l.Table, key(l)}
		if k[1] == "" || len(found[k]) == 0 {
			continue
		}
		p.change(l, found[k][0], what)
		found[k] = found[k][1:]
	}
	p.rest()
}

// change makes a change of two lines.
func (p *pairing) change(was, is *Line, what What) {
	p.gone[was], p.gone[is] = true, true
	p.out.Changes = append(p.out.Changes, Change{What: what, Was: was, Is: is, Columns: differing(was, is)})
}

// rest drops the lines that have found their like.
func (p *pairing) rest() {
	found := func(l *Line) bool { return p.gone[l] }
	p.was, p.is = slices.DeleteFunc(p.was, found), slices.DeleteFunc(p.is, found)
}

// alikeMax is how many pairs are tried to find the likest.
const alikeMax = 1 << 20

// alike pairs what is left of one table where at least half of the cells are
// the same, the likest first come.
func (p *pairing) alike() {
	if len(p.was)*len(p.is) > alikeMax {
		return
	}
	for _, l := range p.was {
		var best *Line
		most := 0
		for _, now := range p.is {
			if now.Table != l.Table || p.gone[now] || now.Month > p.through {
				continue
			}
			if same := len(l.Cells) - len(differing(l, now)); same > most && 2*same >= len(l.Cells) {
				best, most = now, same
			}
		}
		if best != nil {
			p.change(l, best, Changed)
		}
	}
	p.rest()
}

func keyOf(l *Line, columns []string) string {
	key := ""
	for _, c := range columns {
		key += l.Cells[c] + "\x00"
	}
	return key
}

// withoutDay is a dated record but for its day; blank where it has none.
func withoutDay(l *Line) string {
	if l.DayIn == "" {
		return ""
	}
	rest := maps.Clone(l.Cells)
	delete(rest, l.DayIn)
	return fingerprint(l.Table, slices.Sorted(maps.Keys(rest)), rest)
}

// place is a record's row; nothing in a table whose rows make several.
func place(l *Line) string {
	if l.Row == 0 {
		return ""
	}
	return l.Place.String()
}

// differing is the columns whose cells differ, in order.
func differing(a, b *Line) []string {
	var out []string
	columns := maps.Clone(a.Cells)
	maps.Copy(columns, b.Cells)
	for _, c := range slices.Sorted(maps.Keys(columns)) {
		if a.Cells[c] != b.Cells[c] {
			out = append(out, c)
		}
	}
	return out
}
