package cli

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
)

// Named resolves names of pieces, lots and sets, without regard to case, to
// pieces, each once, in the order given.
func (b *Books) Named(names []string) ([]string, error) {
	var out, known []string
	for _, name := range names {
		found := false
		for _, p := range b.Read.Books.Pieces {
			known = append(known, p.ID)
			if matches(p, name) {
				found = true
				if !slices.Contains(out, p.ID) {
					out = append(out, p.ID)
				}
			}
		}
		if !found {
			return nil, Usagef("There is no piece, lot or set %q.%s", name, Suggest(name, known))
		}
	}
	return out, nil
}

func matches(p ledger.Piece, name string) bool {
	name = strings.TrimSpace(name)
	return strings.EqualFold(p.ID, name) || p.Lot != "" && strings.EqualFold(p.Lot, name) ||
		p.Set != "" && strings.EqualFold(p.Set, name)
}

// Suggest names the nearest known name, with a space before, or nothing.
func Suggest(name string, known []string) string {
	if near := fault.Nearest(name, known); near != "" {
		return fmt.Sprintf(" The nearest is %s.", near)
	}
	return ""
}
