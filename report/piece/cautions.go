package piece

import (
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/templates"
)

// pieceCautions are the cautions that a piece's supplies, parts, tasks, kind
// and age call for, in the shipped order, the owner's own words after them.
func pieceCautions(in *report.Input, p figures.Piece) []page.Block {
	rec := p.Record
	supplies := suppliesOn(in, rec.ID)
	var out []page.Block
	for _, c := range in.Cautions.List {
		if callsFor(in, c, rec, supplies) {
			out = append(out, cautionBlock(c))
		}
	}
	for _, s := range supplies {
		if s.Caution != "" && !in.Shipped(s.Caution) {
			out = append(out, page.Paragraph{Style: page.SmallCaution, Text: s.Name + ": " + s.Caution, Tail: "the shop's own caution, " + s.At.Short()})
		}
	}
	return out
}

func cautionBlock(c templates.Caution) page.Block {
	return page.Paragraph{Style: page.SmallCaution, Text: c.Words, Tail: c.Authority}
}

// callsFor says that a piece's records call for a caution.
func callsFor(in *report.Input, c templates.Caution, rec *ledger.Piece, supplies []*ledger.Supply) bool {
	w := c.When
	if !w.Age(rec.Made, rec.OldFinish) {
		return false
	}
	if w.Kind(rec.Kind) || w.Part(rec.Description) {
		return true
	}
	if slices.ContainsFunc(supplies, func(s *ledger.Supply) bool { return report.SupplyCalls(c, s) }) {
		return true
	}
	for _, h := range in.Books.Hours {
		if slices.Contains(h.Pieces, rec.ID) && w.Task(h.Task) {
			return true
		}
	}
	return slices.ContainsFunc(in.Books.Parts, func(x ledger.Part) bool {
		return slices.Contains(x.Pieces, rec.ID) && w.Part(x.What)
	})
}

// suppliesOn are the supplies used on a piece or charged to it, by name.
func suppliesOn(in *report.Input, id string) []*ledger.Supply {
	used := map[string]bool{}
	for _, u := range in.Books.Uses {
		if u.On.InMonth() <= in.Month.To && slices.Contains(u.Pieces, id) {
			used[u.Supply] = true
		}
	}
	for _, p := range in.Postings {
		if p.Piece == id && p.Supply != "" {
			used[p.Supply] = true
		}
	}
	return suppliesNamed(in, used)
}

// suppliesNamed are the supplies of the given names, in the order of their names.
func suppliesNamed(in *report.Input, names map[string]bool) []*ledger.Supply {
	var out []*ledger.Supply
	for i := range in.Books.Supplies {
		if names[in.Books.Supplies[i].Name] {
			out = append(out, &in.Books.Supplies[i])
		}
	}
	slices.SortFunc(out, func(a, b *ledger.Supply) int { return strings.Compare(a.Name, b.Name) })
	return out
}
