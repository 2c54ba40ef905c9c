package intake

import (
	"cmp"
	"fmt"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/receipts"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/values"
)

// kind is a piece's kind: by its own cell, or where settings.toml says so by its name.
func (rec *record) kind() string {
	name := rec.Raw("piece")
	if !rec.Filled("kind") && rec.isSupply(name) {
		rec.askSupply()
		return ""
	}
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

// isSupply says that a row of Pieces without a kind names supplies and no furniture, and
// was not sold.
func (rec *record) isSupply(name string) bool {
	_, kinds := values.KindsIn(name, rec.r.kinds())
	return len(kinds) == 0 && !rec.Filled("sold_on") && !rec.Filled("sold_price") &&
		(receipts.GroupOf(name, rec.r.groupWord) != "" || slices.ContainsFunc(values.Words(name), func(w string) bool {
			return rec.r.groupWord(w) != ""
		}))
}

// askSupply asks whether rows of Pieces are purchases of supplies, with what to type for
// the first of them.
func (rec *record) askSupply() {
	rec.SetReported("kind")
	rec.SetReported("price")
	day := rec.Raw("got_on")
	if on, _, refusal := values.Date(rec.Cell("got_on"), rec.r.settings.DayFirst); refusal == nil && !on.IsZero() {
		day = on.String()
	}
	rec.FailForCause("piece", "supply", fault.CodeKindNotInName, func(s *rows.Cause) (string, string) {
		return fmt.Sprintf("By %s supplies and no furniture, and with a kind typed %s become %s: %s.",
				fault.Plural(s.Cells, "its name this row is", "their names these rows are"), fault.Plural(s.Cells, "it would",
					"they would"), fault.Plural(s.Cells, "a piece", "pieces"), s.Listed()),
			fmt.Sprintf("Move what was bought for the shelf to a sheet Purchases, with the columns Bought on, Supply, "+
				"Containers, Cost; for the first %s, %s, 1, %s. If it is furniture, type its kind in a column Kind.",
				cmp.Or(day, "its day"), rec.Raw("piece"), cmp.Or(rec.Raw("price"), "what it cost"))
	})
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
