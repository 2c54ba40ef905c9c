package intake

import (
	"fmt"
	"maps"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// spelling is a free word (a kind, a channel) as it is used.
type spelling struct {
	word      string // the spelling used most, the last by letters of those used as often
	spellings map[string]int
	times     int
	first     *record
	field     string
}

// claimChannels gives each channel one spelling wherever it is named: that of
// Channels, else the one used most, so that row order never matters. Ones that are spelled nearly alike are noted.
func (r *reading) claimChannels() {
	for _, rec := range r.tables["channels"] {
		name := rec.Raw("channel")
		if known, there := r.names.channels[values.Fold(name)]; name != "" && (!there || name < known) {
			r.names.channels[values.Fold(name)] = name
		}
	}
	listed := maps.Clone(r.names.channels)
	used := map[string]*spelling{}
	for _, table := range slices.Sorted(maps.Keys(r.tables)) {
		for _, rec := range r.tables[table] {
			for i := range rec.Block.Table.Fields {
				f := &rec.Block.Table.Fields[i]
				if f.Cell != templates.ChannelRef {
					continue
				}
				if name := rec.Raw(f.Name); name != "" && listed[values.Fold(name)] == "" {
					addSpelling(used, values.Fold(name), name, rec, f.Name)
				}
			}
		}
	}
	for key, s := range used {
		r.names.channels[key] = s.word
	}
	for key, s := range used {
		if len(used)+len(listed) > suggestionsMax {
			break
		}
		other := r.alike(key, s, used)
		for known, name := range listed {
			if len(listed) > 0 && fault.Alike(key, known) && (other == "" || name < other) {
				other = name
			}
		}
		if other == "" {
			continue
		}
		s.first.Note(s.field, fault.CodeChannelNearlyAlike, 0,
			fmt.Sprintf("%s and %s are spelled nearly alike, so they count as two channels.", s.word, other),
			fmt.Sprintf("If they are one, type %s here%s; otherwise leave it.", other, s.more()))
	}
}

// addSpelling counts a word under what it is compared by.
func addSpelling(used map[string]*spelling, key, word string, rec *record, field string) {
	s := used[key]
	if s == nil {
		s = &spelling{spellings: map[string]int{}, first: rec, field: field}
		used[key] = s
	}
	s.times++
	s.spellings[word]++
	if s.spellings[word] > s.spellings[s.word] || s.spellings[word] == s.spellings[s.word] && word > s.word {
		s.word = word
	}
}

// more is where else a word stands, in numbers.
func (s *spelling) more() string {
	if s.times == 1 {
		return ""
	}
	return fmt.Sprintf(" and in %d more %s", s.times-1, fault.Plural(s.times-1, "line", "lines"))
}

// alike is a word used more often, or as often and earlier by letters, that
// this one is spelled nearly like; empty where there is none.
func (r *reading) alike(key string, s *spelling, used map[string]*spelling) string {
	var best *spelling
	for _, other := range slices.Sorted(maps.Keys(used)) {
		o := used[other]
		if other == key || !fault.Alike(key, other) || o.times < s.times || o.times == s.times && other > key {
			continue
		}
		if best == nil || o.times > best.times {
			best = o
		}
	}
	if best == nil {
		return ""
	}
	return best.word
}

// noteKinds notes a kind that is spelled nearly like another one, so that
// pieces which belong together would count as two kinds. Kinds that have a usual area
// are words of their own.
func (r *reading) noteKinds() {
	used := map[string]*spelling{}
	for _, rec := range r.tables["pieces"] {
		if kind := rec.Raw("kind"); kind != "" && !rec.Block.Broken {
			addSpelling(used, templates.KindKey(kind), kind, rec, "kind")
		}
	}
	for key, s := range used {
		if r.set.Area(key) != nil || len(used) > suggestionsMax {
			continue
		}
		other := r.alike(key, s, used)
		for _, a := range r.set.Areas {
			if fault.Alike(key, a.Kind) {
				other = a.Kind
				break
			}
		}
		if other == "" {
			continue
		}
		s.first.Note("kind", fault.CodeKindNearlyKnown, 0,
			fmt.Sprintf("%s is spelled nearly like %s, and the two count as different kinds.", s.word, other),
			fmt.Sprintf("If they are one, type %s here%s; otherwise leave it.", other, s.more()))
	}
}
