package figures

import (
	"cmp"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// CorrectedLine is what corrections to closed months add to one line.
type CorrectedLine struct {
	Of    Scope
	ID    ID
	Group string // of expenses
	Cents money.Cents
}

// CorrectedLines is what corrections add to each line of the statement, then of
// the roll-forwards of pieces and shelf, in the order of the table; lines of
// nothing are left out.
func CorrectedLines(postings []ledger.Posting) []CorrectedLine {
	type key struct {
		of    Scope
		at    int
		group string
	}
	sums := map[key]money.Cents{}
	for p := range ledger.Each(postings) {
		for _, of := range []Scope{OfStatement, OfStock, OfShelf} {
			l, sign := LineOf(of, p)
			if l == nil {
				continue
			}
			k := key{of: of, at: index(of, l.ID)}
			if l.ByGroup {
				k.group = p.Group
			}
			sums[k] += money.Cents(sign) * p.Cents
		}
	}
	var out []CorrectedLine
	for k, c := range sums {
		if c != 0 {
			out = append(out, CorrectedLine{k.of, Lines[k.at].ID, k.group, c})
		}
	}
	slices.SortFunc(out, func(a, b CorrectedLine) int {
		return cmp.Or(cmp.Compare(a.Of, b.Of), cmp.Compare(index(a.Of, a.ID), index(b.Of, b.ID)),
			cmp.Compare(a.Group, b.Group))
	})
	return out
}

// Effect is what postings add to a line in the end, whatever their months: the
// net profit of corrections, say. Conditions are not judged.
func Effect(of Scope, id ID, postings []ledger.Posting) money.Cents {
	var sum money.Cents
	for _, leaf := range Leaves(of, id) {
		for i := range postings {
			sum += leaf.Adds(&postings[i])
		}
	}
	return sum
}
