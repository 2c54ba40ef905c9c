package fault

import "strings"

// Plural is the word for a number of things: one for 1, many for any other.
func Plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// LowerFirst is a sentence that goes on after a colon or a semicolon.
func LowerFirst(sentence string) string {
	if sentence == "" {
		return sentence
	}
	return strings.ToLower(sentence[:1]) + sentence[1:]
}
