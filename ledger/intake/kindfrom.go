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
	if rec.Reported("kind") {
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

// suppliesWords are words that say of what was bought that it is no furniture.
var suppliesWords = []string{"supply", "supplies"}

// isSupply says that a row of Pieces names supplies and no furniture in a column, and
// was not sold.
func (rec *record) isSupply(field string) bool {
	kinds := rec.r.kinds()
	if field == "kind" {
		kinds = rec.r.set.Kinds // what is typed there is what is doubted
	}
	name := rec.Raw(field)
	_, known := values.KindsIn(name, kinds)
	return len(known) == 0 && !rec.Filled("sold_on") && !rec.Filled("sold_price") &&
		(receipts.GroupOf(name, rec.r.groupWord) != "" || slices.ContainsFunc(values.Words(name), func(w string) bool {
			return rec.r.groupWord(w) != "" || slices.Contains(suppliesWords, w)
		}))
}

// askSupply asks whether rows of Pieces are purchases of supplies, with what to type for
// the first of them: where the kind or, without one, the name says so. One with a number
// and a kind stays a piece, with a note before all others.
func (rec *record) askSupply() {
	field := "kind"
	if !rec.Filled("kind") {
		field = "piece"
	}
	if !rec.isSupply(field) {
		return
	}
	day := rec.Raw("got_on")
	if on := rec.Day("got_on"); !on.IsZero() {
		day = on.String()
	}
	if rec.Filled("piece") && rec.Filled("kind") {
		cents, _ := values.Money(rec.Cell("price"), rec.r.settings)
		cause := rec.NoteForCause(field, "whole row", fault.CodeSupplyAsPiece, int64(cents),
			func(s *rows.Cause) (string, string) {
				return fmt.Sprintf("By %s supplies and no furniture, and %s read as %s: %s.", fault.Plural(s.Cells,
						"its kind this row is", "their kinds these rows are"), fault.Plural(s.Cells, "it is", "they are"),
						fault.Plural(s.Cells, "a piece", "pieces"), s.Listed()),
					rec.toPurchases(field, day) + " If it is furniture, it may stay."
			})
		cause.First.First, cause.First.AsksNothing = true, false
		return
	}
	for _, name := range []string{"piece", "kind", "price"} {
		rec.SetReported(name)
	}
	rec.FailForCause(field, "supply", fault.CodeSupplyAsPiece, func(s *rows.Cause) (string, string) {
		lacks := map[string]string{"kind": "number", "piece": "kind"}[field]
		return fmt.Sprintf("By %s supplies and no furniture, and with a %s typed %s become %s: %s.",
				fault.Plural(s.Cells, "its name this row is", "their names these rows are"), lacks, fault.Plural(s.Cells,
					"it would", "they would"), fault.Plural(s.Cells, "a piece", "pieces"), s.Listed()),
			fmt.Sprintf("%s If it is furniture, type its %s in a column %s.", rec.toPurchases(field, day), lacks,
				map[string]string{"kind": "Piece", "piece": "Kind"}[field])
	})
}

// toPurchases says how a row of Pieces that is a supply is entered.
func (rec *record) toPurchases(field, day string) string {
	return fmt.Sprintf("Move what was bought for the shelf to a sheet Purchases, with the columns Bought on, Supply, "+
		"Containers, Cost; for the first %s, %s, 1, %s.", cmp.Or(day, "its day"), rec.Raw(field),
		cmp.Or(rec.Raw("price"), "what it cost"))
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
