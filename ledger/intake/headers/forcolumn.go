package headers

import (
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
)

// forHeaders name a column that says which piece a line is for.
var forHeaders = []string{"for", "for piece", "for which piece", "piece", "pieces", "which piece", "used for",
	"used on", "project"}

// takeFor takes the column of a list of receipts that says which piece a line is for.
func (r *Reader) takeFor(b *Block) {
	if _, counts := b.Columns["containers"]; b.Table.Name != "purchases" || counts {
		return
	}
	i := slices.IndexFunc(b.unknown, func(c Column) bool {
		return slices.ContainsFunc(forHeaders, func(h string) bool {
			return settings.HeaderKey(h) == settings.HeaderKey(c.Header)
		}) && len(columns.Samples(b.sheet, c.Index)) > 0
	})
	if i < 0 {
		return
	}
	c := b.unknown[i]
	b.For, b.unknown = c.Index+1, slices.Delete(slices.Clone(b.unknown), i, i+1)
	r.problems.Add(fault.Problem{Code: fault.CodeForPiece, Note: true, AsksNothing: true, Place: b.at(c.Header),
		Found: c.Header,
		Why: "Lines of this list that name one piece here are read as its parts; where it names none, or words of several, " +
			"the line is read as if the cell were blank.",
		Fix: "If it is something else, " + b.put(c.Header, settings.NoTable) + "."})
}
