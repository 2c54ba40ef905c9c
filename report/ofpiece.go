package report

import (
	"math/big"
	"slices"

	"piecebook/ledger"
)

// OfPiece is what the ledger and the books hold of one piece up to the period's
// end, each list in the order it stands there.
type OfPiece struct {
	Postings []*ledger.Posting
	Uses     []*ledger.Use
	Hours    []HoursOf
	Parts    []*ledger.Part
	Sales    []*ledger.Sale
	Removals []*ledger.Removal
}

// HoursOf is a line of Hours and the piece's exact part of it; nil where parts
// were not worked out.
type HoursOf struct {
	*ledger.Hours
	Part *big.Rat
}

// OfPiece is what there is of a piece. The first call gathers it for all pieces:
// who composes a sheet for each would else go through all records for each. A
// document is composed from its own copy of in, by one goroutine.
func (in *Input) OfPiece(id string) *OfPiece {
	if in.ofPieces == nil {
		in.ofPieces = in.gatherPieces()
	}
	if of := in.ofPieces[id]; of != nil {
		return of
	}
	return &OfPiece{}
}

func (in *Input) gatherPieces() map[string]*OfPiece {
	out := make(map[string]*OfPiece, len(in.All))
	of := func(id string) *OfPiece {
		if out[id] == nil {
			out[id] = &OfPiece{}
		}
		return out[id]
	}
	for i := range in.Postings {
		if p := &in.Postings[i]; p.Piece != "" && p.Month <= in.Month.To {
			of(p.Piece).Postings = append(of(p.Piece).Postings, p)
		}
	}
	if in.Books == nil {
		return out
	}
	end := in.Month.To
	for i := range in.Books.Uses {
		if u := &in.Books.Uses[i]; u.On.InMonth() <= end {
			each(u.Pieces, func(id string) { of(id).Uses = append(of(id).Uses, u) })
		}
	}
	for i := range in.Books.Hours {
		h := &in.Books.Hours[i]
		if h.On.InMonth() > end {
			continue
		}
		each(h.Pieces, func(id string) {
			line := HoursOf{Hours: h}
			if i < len(in.HoursByPiece) {
				for _, of := range in.HoursByPiece[i] {
					if of.Piece == id {
						line.Part = of.Hours
					}
				}
			}
			of(id).Hours = append(of(id).Hours, line)
		})
	}
	for i := range in.Books.Parts {
		if p := &in.Books.Parts[i]; p.On.InMonth() <= end {
			each(p.Pieces, func(id string) { of(id).Parts = append(of(id).Parts, p) })
		}
	}
	for i := range in.Books.Sales {
		if s := &in.Books.Sales[i]; s.On.InMonth() <= end {
			each(s.Pieces, func(id string) { of(id).Sales = append(of(id).Sales, s) })
		}
	}
	for i := range in.Books.Removals {
		if r := &in.Books.Removals[i]; r.On.InMonth() <= end {
			of(r.Piece).Removals = append(of(r.Piece).Removals, r)
		}
	}
	return out
}

// each hands out the pieces that a record names, each once.
func each(pieces []string, take func(id string)) {
	for i, id := range pieces {
		if !slices.Contains(pieces[:i], id) {
			take(id)
		}
	}
}
