package intake

import (
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/values"
)

// kind is a piece's kind: by its own cell, or where settings.toml says so by its name.
func (rec *record) kind() string {
	name := rec.Raw("piece")
	if !rec.r.settings.KindFromName || rec.Filled("kind") || name == "" {
		return rec.Words("kind")
	}
	kind, all := values.KindsIn(name, rec.r.kinds())
	if kind != "" && len(all) == 1 {
		rec.NoteForCause("piece", "", fault.CodeKindFromName, 0, func(s *rows.Cause) (string, string) {
			return fmt.Sprintf("%s read from %s, here %s (%s).", fault.Plural(s.Cells, "The kind of a piece is",
					fmt.Sprintf("The kinds of %d pieces are", s.Cells)), fault.Plural(s.Cells, "its name", "their names"), kind,
					rows.RowList(s.Rows)),
				"It may stay. A kind that is typed in a column Kind goes first."
		})
		return kind
	}
	rec.FailForCause("piece", "", fault.CodeKindNotInName, func(s *rows.Cause) (string, string) {
		return fmt.Sprintf("The kind is to be read from the piece's name, and %s with one kind that is known, or %s two: %s.",
				fault.Plural(s.Cells, "this name does not end", "these names do not end"),
				fault.Plural(s.Cells, "holds", "hold"), s.Listed()),
			"Type the kind of each in a column Kind, such as side chair."
	})
	return ""
}

// kinds are the kinds of furniture that are known, and those that pieces have in
// their own cells.
func (r *reading) kinds() []string {
	if r.names.allKinds == nil {
		r.names.allKinds = slices.Clone(r.set.Kinds)
		for _, rec := range r.tables["pieces"] {
			if kind := rec.Raw("kind"); kind != "" && !slices.Contains(r.names.allKinds, kind) {
				r.names.allKinds = append(r.names.allKinds, kind)
			}
		}
	}
	return r.names.allKinds
}
