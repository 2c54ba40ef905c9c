package report

import (
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/report/page"
	"piecebook/templates"
)

// pieceCautions are the cautions that a piece's supplies, parts, tasks, kind
// and age call for, in the shipped order, the owner's own words after them.
func (in *Input) pieceCautions(p figures.Piece) []page.Block {
	rec := p.Record
	supplies := in.suppliesOn(rec.ID)
	var out []page.Block
	for _, c := range in.Cautions.List {
		if in.callsFor(c, rec, supplies) {
			out = append(out, cautionBlock(c))
		}
	}
	for _, s := range supplies {
		if s.Caution != "" && !in.shipped(s.Caution) {
			out = append(out, page.Paragraph{Style: page.SmallCaution, Text: s.Name + ": " + s.Caution, Tail: "the shop's own caution, " + s.At.Short()})
		}
	}
	return out
}

func cautionBlock(c templates.Caution) page.Block {
	return page.Paragraph{Style: page.SmallCaution, Text: c.Words, Tail: c.Authority}
}

// callsFor says that a piece's records call for a caution.
func (in *Input) callsFor(c templates.Caution, rec *ledger.Piece, supplies []*ledger.Supply) bool {
	w := c.When
	if !w.Age(rec.Made, rec.OldFinish) {
		return false
	}
	if w.Kind(rec.Kind) || w.Part(rec.Description) {
		return true
	}
	if slices.ContainsFunc(supplies, func(s *ledger.Supply) bool { return supplyCalls(c, s) }) {
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

// supplyCalls says that a supply calls for a caution. A caution of the
// supply's own stands in place of its group's, but not of what depends on the
// piece's age.
func supplyCalls(c templates.Caution, s *ledger.Supply) bool {
	group := s.Group
	if s.Caution != "" && c.When.MadeBefore == 0 {
		if strings.EqualFold(c.Name, s.Caution) {
			return true
		}
		group = ""
	}
	return c.When.Supply(s.Name, group, s.Unit)
}

// shipped says that words name one of the shipped cautions.
func (in *Input) shipped(name string) bool {
	return slices.ContainsFunc(in.Cautions.List, func(c templates.Caution) bool { return strings.EqualFold(c.Name, name) })
}

// suppliesOn are the supplies used on a piece or charged to it, by name.
func (in *Input) suppliesOn(id string) []*ledger.Supply {
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
	return in.suppliesNamed(used)
}

// suppliesNamed are the supplies of the given names, in the order of their names.
func (in *Input) suppliesNamed(names map[string]bool) []*ledger.Supply {
	var out []*ledger.Supply
	for i := range in.Books.Supplies {
		if names[in.Books.Supplies[i].Name] {
			out = append(out, &in.Books.Supplies[i])
		}
	}
	slices.SortFunc(out, func(a, b *ledger.Supply) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// shelfCaution is a caution's name, with what it depends on where neither the
// supply's name nor the owner says so.
func shelfCaution(c templates.Caution, s *ledger.Supply) string {
	if c.If == "" || strings.EqualFold(c.Name, s.Caution) || c.When.Part(s.Name) {
		return c.Name
	}
	return c.Name + " " + c.If
}

// shelfCautions are the names of the cautions a supply calls for on any piece.
func (in *Input) shelfCautions(s *ledger.Supply) []string {
	var out []string
	for _, c := range in.Cautions.List {
		if c.When.MadeBefore == 0 && supplyCalls(c, s) {
			out = append(out, shelfCaution(c, s))
		}
	}
	if s.Caution != "" && !in.shipped(s.Caution) {
		out = append(out, s.Caution)
	}
	return out
}
