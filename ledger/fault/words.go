package fault

import (
	"fmt"
	"strings"
)

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

// Few names at most five, and how many more there are.
func Few(names []string) string {
	const most = 5
	if len(names) <= most+1 {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}
