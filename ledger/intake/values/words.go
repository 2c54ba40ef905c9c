package values

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"piecebook/ledger/intake/sheets"
)

// Fold is a name for comparing: without regard to case and outer blanks, and
// however its accents are composed.
func Fold(name string) string { return strings.ToLower(norm.NFC.String(strings.TrimSpace(name))) }

// Compact is a name for comparing: small letters and digits only.
func Compact(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, name)
}

// Words are a text's words in small letters.
func Words(text string) []string {
	return strings.FieldsFunc(Fold(text), func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) })
}

// YesNo reads yes, y, true or 1 and no, n, false or 0; ok is false for any other word.
func YesNo(c sheets.Cell) (yes, ok bool) {
	word := Fold(c.Text)
	yes = slices.Contains([]string{"yes", "y", "true", "1"}, word)
	return yes, yes || slices.Contains([]string{"no", "n", "false", "0"}, word)
}

// Choice is the one of some words that a text is, case, blanks and signs apart;
// empty where it is none.
func Choice(text string, words []string) string {
	for _, w := range words {
		if Compact(w) == Compact(text) {
			return w
		}
	}
	return ""
}

// List is a list's items, blank ones left out: what stands between ; , and +.
func List(text string) []string {
	items := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(";,+", c) })
	for i := range items {
		items[i] = strings.TrimSpace(items[i])
	}
	return slices.DeleteFunc(items, func(item string) bool { return item == "" })
}
