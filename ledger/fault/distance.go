package fault

import "github.com/agnivade/levenshtein"

// distance is the number of letters to change, add or take away.
func distance(a, b string) int { return levenshtein.ComputeDistance(a, b) }
