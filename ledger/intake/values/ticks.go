package values

import "slices"

// Marks that tick a cell, and those that leave it unticked.
var (
	ticks   = []string{"x", "xx", "✓", "✔", "✅", "☑", "☒", "v", "yes", "y", "true", "sold", "done", "1"}
	noTicks = []string{"no", "n", "false", "0", "☐", "□", "-", "not yet", "unsold"}
)

// Ticked says whether a text is a tick; ok is false for other words.
func Ticked(text string) (yes, ok bool) {
	word := Fold(text)
	yes = slices.Contains(ticks, word)
	return yes, yes || slices.Contains(noTicks, word)
}
