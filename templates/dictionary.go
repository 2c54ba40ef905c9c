package templates

import (
	"fmt"
	"slices"
	"strings"
)

// Told is what an owner reads of a column, in whole sentences: what it
// holds, when it is needed, what a blank means, and its limits.
func (f Field) Told() []string {
	out := []string{f.Description}
	if f.NeededWhen != "" {
		out = append(out, "Needed where "+f.NeededWhen+".")
	}
	if f.Default != "" {
		out = append(out, "Blank: "+f.Default+".")
	}
	c := f.Constraints
	unsaid := func(word string) bool { return !strings.Contains(f.Description, word) }
	if slices.ContainsFunc(c.Enum, unsaid) {
		out = append(out, "One of: "+strings.Join(c.Enum, ", ")+".")
	}
	switch {
	case c.Minimum != "" && c.Maximum != "":
		out = append(out, fmt.Sprintf("From %s to %s.", c.Minimum, c.Maximum))
	case c.Minimum != "":
		out = append(out, fmt.Sprintf("%s or more.", c.Minimum))
	case c.ExclusiveMinimum != "":
		out = append(out, fmt.Sprintf("Above %s.", c.ExclusiveMinimum))
	}
	return out
}
