package fault

import "github.com/agnivade/levenshtein"

// distance is the number of letters to change, add or take away; two
// neighbours that have changed places are one slip.
func distance(a, b string) int {
	if swapped([]rune(a), []rune(b)) {
		return 1
	}
	return levenshtein.ComputeDistance(a, b)
}

// swapped says that two words differ only by one pair of neighbours in the
// other order.
func swapped(a, b []rune) bool {
	if len(a) != len(b) {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && string(a[i+2:]) == string(b[i+2:])
}
