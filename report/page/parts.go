package page

import "strings"

// Parts cuts a figure where its column aligns: money and numbers after the
// whole units; what follows (decimals, a bracket, a unit) hangs to the right.
// A dash stands where the units would.
func Parts(text string, kind Kind) (before, after string) {
	if kind == KindMoney {
		if i := strings.LastIndexByte(text, '.'); i >= 0 {
			return text[:i], text[i:]
		}
		return text, ""
	}
	// The digits and separators at the front, a sign or bracket before them.
	start := strings.IndexAny(text, "0123456789")
	if start < 0 {
		return text, ""
	}
	end := start
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || text[end] == ',') {
		end++
	}
	return text[:end], text[end:]
}
