package intake

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// zerosAhead are the zeros in front of a number within a name.
var zerosAhead = regexp.MustCompile(`(^|\D)0+(\d)`)

// padded is a name for comparing without regard to zeros in front of its
// numbers, blanks and signs: p3 for P003, P-3 and p 03.
func padded(name string) string {
	return zerosAhead.ReplaceAllString(values.Compact(name), "$1$2")
}

// samePadded is the one known name that is the one typed but for zeros, blanks
// and signs; empty where there is none, or several.
func samePadded(typed string, known []string) string {
	key := padded(typed)
	if key == "" {
		return ""
	}
	return onlyOne(known, func(k string) bool { return padded(k) == key })
}

// wordsMost is up to how many known names are looked through word by word: it
// takes longer than a glance at their letters, and more are no shop's.
const wordsMost = 5000

// wordLeast is how many letters a word needs to tell a name from others.
const wordLeast = 4

// sharedWord is the one known name that is wholly within the one typed or has
// it within itself, word for word, or else the one that has a longer word in
// common with it: Primer for Zinsser primer. Empty where there is none, or
// several.
func sharedWord(typed string, known []string) string {
	of := nameWords(typed)
	holds := func(all, some []string) bool {
		return len(some) > 0 && !slices.ContainsFunc(some, func(w string) bool { return !slices.Contains(all, w) })
	}
	long := func(w string) bool { return len([]rune(w)) >= wordLeast && strings.IndexFunc(w, unicode.IsDigit) < 0 }
	within := onlyOne(known, func(k string) bool {
		words := nameWords(k)
		return (holds(of, words) || holds(words, of)) && slices.ContainsFunc(words, long) && slices.ContainsFunc(of, long)
	})
	if within != "" {
		return within
	}
	return onlyOne(known, func(k string) bool {
		return slices.ContainsFunc(nameWords(k), func(w string) bool { return long(w) && slices.Contains(of, w) })
	})
}

// nameWords are a name's words in small letters.
func nameWords(name string) []string {
	return strings.FieldsFunc(values.Fold(name), func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
}

// onlyOne is the one of the texts that is so; empty where none is, or several.
func onlyOne(all []string, is func(string) bool) string {
	found := ""
	for _, text := range all {
		if is(text) {
			if found != "" && found != text {
				return ""
			}
			found = text
		}
	}
	return found
}

// sameNumber is the known name that is the same number as the one typed, but
// for zeros in front or after a point: 007 for 7, 101 for 101.0.
func sameNumber(typed string, known []string) string {
	digits := bareNumber(typed)
	if digits == "" {
		return ""
	}
	found := ""
	for _, k := range known {
		if bareNumber(k) == digits && (found == "" || k < found) {
			found = k
		}
	}
	return found
}

// bareNumber is a whole number's digits without zeros in front and after the
// point; empty for other texts.
func bareNumber(text string) string {
	text = strings.TrimSpace(text)
	if whole, zeros, point := strings.Cut(text, "."); point && strings.Trim(zeros, "0") == "" {
		text = whole
	}
	if text == "" || len(text) > 15 || strings.Trim(text, "0123456789") != "" {
		return ""
	}
	n, _ := strconv.ParseInt(text, 10, 64)
	return strconv.FormatInt(n, 10)
}

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
					addSpelling(used, name, rec, f.Name)
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

// addSpelling counts a word.
func addSpelling(used map[string]*spelling, word string, rec *record, field string) {
	s := used[values.Fold(word)]
	if s == nil {
		s = &spelling{spellings: map[string]int{}, first: rec, field: field}
		used[values.Fold(word)] = s
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
	best := ""
	for _, other := range slices.Sorted(maps.Keys(used)) {
		o := used[other]
		if other == key || !fault.Alike(key, other) || o.times < s.times || o.times == s.times && other > key {
			continue
		}
		if best == "" || o.times > used[values.Fold(best)].times {
			best = o.word
		}
	}
	return best
}

// noteKinds notes a kind that is spelled nearly like another one, so that
// pieces which belong together would count as two kinds. Kinds that have a usual area
// are words of their own.
func (r *reading) noteKinds() {
	used := map[string]*spelling{}
	for _, rec := range r.tables["pieces"] {
		if kind := rec.Raw("kind"); kind != "" && !rec.Block.Broken {
			addSpelling(used, kind, rec, "kind")
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
