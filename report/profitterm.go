package report

import (
	"slices"

	"piecebook/ledger"
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
	out := &Listed{Title: name}
	for i := range in.Postings {
		p := in.Postings[i]
		var cents money.Cents
		for _, part := range figures.ProfitTerms[at].Parts {
			if !in.whose(part.Whose, &p, sold) {
				continue
			}
			for _, leaf := range figures.Leaves(part.Of, part.ID) {
				sign := money.Cents(leaf.Sign * leaf.Line.Sign(&p))
				if sign == 0 || leaf.ID == figures.LineUnfinished && !in.Unfinished(p.Piece, in.Month.To) {
					continue
				}
				if part.Less {
					sign = -sign
				}
				cents += sign * p.Cents
			}
		}
		if cents != 0 {
			p.Cents = cents
			out.Postings = append(out.Postings, p)
		}
	}
	return out
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
