package costing

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// acquire posts what the pieces that came this month cost: their own price,
// tax and pickup, and their share of a lot's.
func (r *run) acquire() {
	shared := map[string]map[string]money.Part{}
	calls := map[string]*ledger.Shared{}
	for _, p := range r.index.pieces[r.m] {
		var lotShare money.Cents
		var of *ledger.Shared
		line := 0
		source := []fault.Place{p.At}
		if lot := r.lot(p.Lot); lot != nil {
			if shared[lot.ID] == nil {
				shared[lot.ID] = r.lotShares(lot)
				calls[lot.ID] = r.lotCall(lot, shared[lot.ID])
			}
			part := shared[lot.ID][p.ID]
			lotShare = part.Cents
			of, line = calls[lot.ID], slices.Index(r.lotPieces[lot.ID], p.ID)
			of.Lines[line].Apart = p.Price + p.TaxPaid + p.Pickup
			source = append(source, lot.At)
		}
		r.post(ledger.Posting{Date: p.GotOn, Cents: p.Price + p.TaxPaid + p.Pickup + lotShare,
			From: ledger.Paid, To: ledger.Pieces, Piece: p.ID, Reason: ledger.ReasonAcquired,
			Source: source, How: ownPrice(p), Of: of, Line: line})
	}
}

// lotCall remembers how a lot's money was shared.
func (r *run) lotCall(lot *ledger.Lot, shares map[string]money.Part) *ledger.Shared {
	ids := r.lotPieces[lot.ID]
	weights, basis := ledger.LotWeights(lot, r.piece, ids)
	parts := make([]money.Part, len(ids))
	for i, id := range ids {
		parts[i] = shares[id]
	}
	return r.sharing(&ledger.Shared{Reason: ledger.ReasonAcquired, How: ledger.Derivation{Method: ledger.LotPrice,
		Words: lot.ID}, Total: lot.Total(), By: basis, Source: []fault.Place{lot.At}}, ids, weights, parts)
}

func (ix *index) lot(id string) *ledger.Lot {
	for i := range ix.b.Lots {
		if id != "" && ix.b.Lots[i].ID == id {
			return &ix.b.Lots[i]
		}
	}
	return nil
}

// lotShares is each piece's part of a lot's price, fees, tax and pickup.
func (ix *index) lotShares(lot *ledger.Lot) map[string]money.Part {
	ids := ix.lotPieces[lot.ID]
	weights, _ := ledger.LotWeights(lot, ix.piece, ids)
	out := map[string]money.Part{}
	for i, part := range money.Share(lot.Total(), weights) {
		out[ids[i]] = part
	}
	return out
}

// ownPrice is what the piece itself cost; what is 0.00 is left out.
func ownPrice(p *ledger.Piece) ledger.Derivation {
	d := ledger.Derivation{Method: ledger.OwnPrice, Came: p.How}
	for _, a := range []ledger.Amount{{Name: ledger.AmountPrice, Cents: p.Price}, {Name: ledger.AmountTax,
		Cents: p.TaxPaid}, {Name: ledger.AmountPickup, Cents: p.Pickup}} {
		if a.Cents != 0 {
			d.Amounts = append(d.Amounts, a)
		}
	}
	return d
}

// partsAndMoves posts hardware, outside work, and parts moved between pieces.
func (r *run) partsAndMoves() {
	for _, p := range r.index.parts[r.m] {
		why := ledger.ReasonPart
		if p.Outside {
			why = ledger.ReasonOutsideWork
		}
		ids := sorted(p.Pieces)
		weights, basis := ledger.AreaWeights(r.piece, ids)
		parts := money.Share(p.Cost+p.TaxPaid, weights)
		how := ledger.Derivation{Method: ledger.Typed, Words: p.What}
		var of *ledger.Shared
		if len(ids) > 1 && p.Cost+p.TaxPaid != 0 {
			of = r.sharing(&ledger.Shared{Reason: why, How: how, Total: p.Cost + p.TaxPaid, By: basis,
				Source: []fault.Place{p.At}}, ids, weights, parts)
		}
		for i, part := range parts {
			r.post(ledger.Posting{Date: p.On, Cents: part.Cents, From: ledger.Paid, To: ledger.Pieces, Piece: ids[i],
				Reason: why, Source: []fault.Place{p.At}, How: how, Of: of, Line: i})
		}
	}
	for _, mv := range r.index.moves[r.m] {
		r.movedOut[mv.From] = mv
		common := ledger.Posting{Date: mv.On, From: ledger.Paid, To: ledger.Pieces, Reason: ledger.ReasonMove,
			Source: []fault.Place{mv.At}}
		out, in := common, common
		out.Piece, out.Cents, out.How = mv.From, -mv.Value, ledger.Derivation{Method: ledger.MovedTo, Words: mv.What,
			Other: mv.To}
		in.Piece, in.Cents, in.How = mv.To, mv.Value, ledger.Derivation{Method: ledger.MovedFrom, Words: mv.What,
			Other: mv.From}
		r.post(out)
		r.post(in)
	}
}
