package headers

import (
	"fmt"
	"slices"

	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// kindInNames says that a column is that of the kind and not needed, since the pieces
// have their kinds from their names.
func (r *Reader) kindInNames(t *templates.Table, name string) bool {
	return t.Name == "pieces" && name == "kind" && r.settings.KindFromName
}

// kindLine proposes that pieces have their kind from their names, where the column is
// missing and more than half of the names end with one; empty for others.
func (r *Reader) kindLine(b *Block, f *templates.Field) string {
	const line = `kind_from = "piece"`
	name, there := b.Columns["piece"]
	if !there || b.Table.Name != "pieces" || f.Name != "kind" {
		return ""
	}
	first, kind, some := "", "", 0
	cells := slices.DeleteFunc(columns.Samples(b.sheet, name.Index),
		func(x columns.Sample) bool { return values.IsPeriod(x.Cell.Text) })
	for _, x := range cells {
		if last, all := values.KindsIn(x.Cell.Text, r.set.Kinds); last != "" && len(all) == 1 {
			if some++; first == "" {
				first, kind = x.Cell.Text, last
			}
		}
	}
	if 2*some <= len(cells) || !r.lines.Propose("", line, b.at("")) {
		return ""
	}
	return fmt.Sprintf(" Or, if the kind stands last in each name, such as %s in %q, %s: "+
		"%d of %d names end with a kind that is known.", kind, first, settings.Put("", line), some, len(cells))
}
