package report

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/page"
)

// ProfitTerm is the postings under a term between the pieces' profits and the
// net profit, each with what it adds; nil where there is no such term.
func (in *Input) ProfitTerm(name string, id figures.ID) page.Ref {
	at := slices.IndexFunc(figures.ProfitTerms, func(t figures.ProfitTerm) bool { return t.ID == id })
	if at < 0 {
		return nil
	}
	sold := map[string]bool{}
	for _, p := range in.Month.Pieces {
		sold[p.Record.ID] = in.SoldIn(p)
	}
	parts := figures.ProfitTerms[at].Parts
	leaves := make([][]figures.Leaf, len(parts))
	for i, part := range parts {
		leaves[i] = figures.Leaves(part.Of, part.ID)
	}
	out := &Listed{Title: name}
	for _, p := range in.Postings {
		var cents money.Cents
		for i, part := range parts {
			if !in.whose(part.Whose, &p, sold) {
				continue
			}
			c := in.Adds(leaves[i], &p, in.Month.To)
			if part.Less {
				c = -c
			}
			cents += c
		}
		if cents != 0 {
			p.Cents = cents
			out.Postings = append(out.Postings, p)
		}
	}
	return out
}

// Adds is what a posting adds to a line, by its leaves, as it stands at the end of
// a month.
func (in *Input) Adds(leaves []figures.Leaf, p *ledger.Posting, end calendar.Month) money.Cents {
	var sum money.Cents
	for _, leaf := range leaves {
		if c := leaf.Adds(p); c != 0 && (leaf.ID != figures.LineUnfinished || in.Unfinished(p.Piece, end)) {
			sum += c
		}
	}
	return sum
}

// whose says that a posting is of those that a part of a term is summed from.
func (in *Input) whose(of figures.Whose, p *ledger.Posting, sold map[string]bool) bool {
	corrected, now := p.How.Method == ledger.Corrected, p.Month >= in.Month.From && p.Month <= in.Month.To
	switch of {
	case figures.SoldLife:
		return sold[p.Piece] && p.Month <= in.Month.To
	case figures.SoldNow:
		return sold[p.Piece] && now && !corrected
	case figures.Others:
		return !sold[p.Piece] && p.Piece != "" && now && !corrected
	case figures.Shop:
		return p.Piece == "" && now && !corrected
	case figures.Everyone:
		return now && !corrected
	case figures.Corrected:
		return now && corrected
	}
	return false
}
