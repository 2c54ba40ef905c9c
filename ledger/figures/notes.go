package figures

import (
	"piecebook/ledger"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
)

// WithMoney gives notes on usual areas the money they could move, which only
// costing knows: all that supplies have put into the piece so far.
func WithMoney(l *costing.Ledger, notes fault.List) fault.List {
	supplies := map[fault.Place]int64{}
	byPiece := map[string]int64{}
	put := Find(OfPiece, LineSupplies)
	each(l, func(p *ledger.Posting) {
		byPiece[p.Piece] += int64(put.Sign(p)) * int64(p.Cents)
	})
	for _, p := range l.Books.Pieces {
		supplies[p.At.At("")] = byPiece[p.ID]
	}
	var out fault.List
	for _, n := range notes.All() {
		if n.Code == fault.CodeTypicalArea && n.MoneyCents == 0 {
			n.MoneyCents = max(0, supplies[n.Place.At("")])
		}
		out.Add(n)
	}
	return out
}
