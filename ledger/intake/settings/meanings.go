package settings

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/intake/values"
)

// Years that a setting may name; others are slips of the hand.
const yearLeast, yearMost = 1950, 2199

// takeYear takes the year of days that are written without one.
func takeYear(r *settingsReading, key string, value any) {
	year, err := strconv.Atoi(valueText(value))
	if err != nil || year < yearLeast || year > yearMost {
		r.wrong(key, value, "Type the year with four digits: year = 2025.")
		return
	}
	r.s.Year = year
}

// takeMeanings takes lines each of which says what a text of the owner's means.
func takeMeanings(of func(*ledger.Settings) map[string]string, form string) func(*settingsReading, string, any) {
	return func(r *settingsReading, key string, value any) {
		table, isTable := value.(map[string]any)
		if !isTable {
			r.wrong(key, value, form)
		}
		first := map[string]string{}
		for _, text := range slices.Sorted(maps.Keys(table)) {
			meant := strings.TrimSpace(valueText(table[text]))
			if r.below(text, key, table[text]) {
				continue
			}
			other, twice := first[values.Fold(text)]
			switch {
			case twice:
				r.wrong(text, table[text], fmt.Sprintf("Take one of the two out: %q and %q are the same text.", other, text))
			case meant == "":
				r.wrong(text, table[text], form)
			default:
				of(&r.s)[text] = meant
			}
			first[values.Fold(text)] = text
		}
	}
}
