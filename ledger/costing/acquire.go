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
	calls := map[string]*ledger.Shared{}
	for _, p := range r.index.pieces[r.m] {
		var lotShare money.Cents
		var of *ledger.Shared
		line := 0
		source := []fault.Place{p.At}
		if lot := r.lot(p.Lot); lot != nil {
			if calls[lot.ID] == nil {
				calls[lot.ID] = r.lotCall(lot)
			}
			of, line = calls[lot.ID], slices.Index(r.lotPieces[lot.ID], p.ID)
			lotShare = of.Lines[line].Cents
			of.Lines[line].Apart = p.Price + p.TaxPaid + p.Pickup
			source = append(source, lot.At)
		}
		r.post(ledger.Posting{Date: p.GotOn, Cents: p.Price + p.TaxPaid + p.Pickup + lotShare,
			From: ledger.Paid, To: ledger.Pieces, Piece: p.ID, Reason: ledger.ReasonAcquired,
			Source: source, How: ownPrice(p), Of: of, Line: line})
	}
}

// lotCall shares a lot's price, fees, tax and pickup over its pieces.
func (r *run) lotCall(lot *ledger.Lot) *ledger.Shared {
	ids := r.lotPieces[lot.ID]
	weights, basis := ledger.LotWeights(lot, r.piece, ids)
	return r.sharing(&ledger.Shared{Reason: ledger.ReasonAcquired, How: ledger.Derivation{Method: ledger.LotPrice,
		Words: lot.ID}, Total: lot.Total(), By: basis, Source: []fault.Place{lot.At}}, ids, weights,
		money.Share(lot.Total(), weights))
}

func (ix *index) lot(id string) *ledger.Lot {
	for i := range ix.b.Lots {
		if id != "" && ix.b.Lots[i].ID == id {
			return &ix.b.Lots[i]
		}
	}
	return nil
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
		ids := ledger.Distinct(p.Pieces)
		weights, basis := ledger.AreaWeights(r.piece, ids)
		r.over(p.Cost+p.TaxPaid, ids, weights, basis, ledger.Posting{Date: p.On, From: ledger.Paid, To: ledger.Pieces,
			Reason: why, Source: []fault.Place{p.At}, How: ledger.Derivation{Method: ledger.Typed, Words: p.What}})
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
