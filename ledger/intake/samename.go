package intake

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/values"
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
	of := values.Words(typed)
	holds := func(all, some []string) bool {
		return len(some) > 0 && !slices.ContainsFunc(some, func(w string) bool { return !slices.Contains(all, w) })
	}
	long := func(w string) bool { return len([]rune(w)) >= wordLeast && strings.IndexFunc(w, unicode.IsDigit) < 0 }
	within := onlyOne(known, func(k string) bool {
		words := values.Words(k)
		return (holds(of, words) || holds(words, of)) && slices.ContainsFunc(words, long) && slices.ContainsFunc(of, long)
	})
	if within != "" {
		return within
	}
	return onlyOne(known, func(k string) bool {
		return slices.ContainsFunc(values.Words(k), func(w string) bool { return long(w) && slices.Contains(of, w) })
	})
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

// looseKeys are a name for comparing without regard to case and signs, and to
// the order of its words: `Dresser, oak` for `Oak dresser`. Numbers keep their
// order, and what parts two of them: P1-1 is not P11.
func looseKeys(name string) []string {
	var letters, numbers []string
	for _, w := range values.Words(name) {
		if strings.IndexFunc(w, unicode.IsDigit) >= 0 {
			numbers = append(numbers, w)
		} else {
			letters = append(letters, w)
		}
	}
	slices.Sort(letters)
	keys := []string{strings.Join(append(letters, numbers...), " ")}
	var joined strings.Builder
	last, signBetween := ' ', false
	for _, c := range values.Fold(name) {
		if !unicode.IsLetter(c) && !unicode.IsDigit(c) {
			signBetween = true
			continue
		}
		if signBetween && unicode.IsDigit(c) && unicode.IsDigit(last) {
			joined.WriteByte('-')
		}
		joined.WriteRune(c)
		last, signBetween = c, false
	}
	return append(keys, joined.String())
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
	of := values.Words(name)
	if len(of) == 0 || len(known) > wordsMost {
		return nil
	}
	var out []string
	for _, k := range known {
		words := values.Words(k)
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
