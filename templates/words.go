package templates

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// Units is where Meant finds everyday words for units.
const Units = "unit"

// Meant is the word that a column takes for an everyday one: topcoat for
// varnish. column is `supplies.group`, or Units. Empty where none is known.
// Case and outer blanks do not count.
func (s *Set) Meant(column, word string) string {
	return s.words[column][plainWord(word)]
}

// plainWord is a word as it is looked up.
func plainWord(word string) string { return strings.Join(strings.Fields(strings.ToLower(word)), " ") }

// loadWords reads the everyday words. One that is said to mean two things is a
// mistake in the file.
func (s *Set) loadWords() error {
	var raw map[string]any
	if _, err := toml.DecodeFS(files, "data/words.toml", &raw); err != nil {
		return err
	}
	delete(raw, "source")
	s.words = map[string]map[string]string{}
	for _, column := range slices.Sorted(maps.Keys(raw)) {
		of, isTable := raw[column].(map[string]any)
		if !isTable {
			return fmt.Errorf("words.toml, %s: no table", column)
		}
		s.words[column] = map[string]string{}
		for _, meant := range slices.Sorted(maps.Keys(of)) {
			list, isList := of[meant].([]any)
			if !isList {
				return fmt.Errorf("words.toml, %s, %s: no list", column, meant)
			}
			for _, word := range list {
				text := plainWord(fmt.Sprint(word))
				if other, twice := s.words[column][text]; twice {
					return fmt.Errorf("words.toml, %s: %q means both %s and %s", column, text, other, meant)
				}
				s.words[column][text] = meant
			}
		}
	}
	return nil
}
