package fault

import (
	"fmt"
	"slices"
	"strings"
)

// Row is a row's number within a sentence.
type Row int

// Naming is a problem whose Why, and Rowless beside it, is the format with the
// arguments, of which a Place stands as its Short, several Places as a list of
// them, a Row as `row 4` and several as `rows 4, 5`.
func (p Problem) Naming(format string, args ...any) Problem {
	p.Why = fmt.Sprintf(format, named(args, true)...)
	p.Rowless = fmt.Sprintf(format, named(args, false)...)
	return p
}

// named is arguments of a sentence with the places and rows among them as words.
func named(args []any, numbered bool) []any {
	short := func(p Place) string {
		if !numbered {
			p.Row = 0
		}
		return p.Short()
	}
	out := slices.Clone(args)
	for i, a := range args {
		switch a := a.(type) {
		case Place:
			out[i] = short(a)
		case []Place:
			var all []string
			for _, p := range slices.CompactFunc(slices.Clone(a), func(p, q Place) bool { return p.Short() == q.Short() }) {
				all = append(all, short(p))
			}
			out[i] = strings.Join(all, ", ")
		case Row:
			out[i] = rowList([]Row{a}, numbered)
		case []Row:
			out[i] = rowList(a, numbered)
		}
	}
	return out
}

// rowList is rows in a sentence, each once and in order; without their numbers nothing.
func rowList(rows []Row, numbered bool) string {
	if !numbered {
		return ""
	}
	var all []string
	for _, r := range slices.Compact(slices.Sorted(slices.Values(rows))) {
		all = append(all, fmt.Sprint(int(r)))
	}
	return Plural(len(all), "row ", "rows ") + Few(all)
}
