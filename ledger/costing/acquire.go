package costing

import (
	"fmt"
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
		words := ownCostWords(p)
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
			words = r.lotWords(lot, p, part) + words
		}
		r.post(ledger.Posting{Date: p.GotOn, Cents: p.Price + p.TaxPaid + p.Pickup + lotShare,
			From: ledger.Paid, To: ledger.Pieces, Piece: p.ID, Reason: ledger.ReasonAcquired,
			Source: source, Arithmetic: words, Of: of, Line: line})
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
	return r.sharing(ledger.Shared{Reason: ledger.ReasonAcquired, What: "lot " + lot.ID, Total: lot.Total(), Unit: basis, Source: []fault.Place{lot.At}}, ids, weights, parts)
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

func (ix *index) lotWords(lot *ledger.Lot, p *ledger.Piece, part money.Part) string {
	ids := ix.lotPieces[lot.ID]
	weights, basis := ledger.LotWeights(lot, ix.piece, ids)
	if basis == ledger.Equally {
		return fmt.Sprintf("lot %s, %s shared equally over %d pieces = %s%s", lot.ID, lot.Total().Grouped(), len(ids), part.Cents.Grouped(), extra(part))
	}
	return fmt.Sprintf("lot %s, %s shared by worth: %s of %s = %s%s", lot.ID, lot.Total().Grouped(),
		p.Worth.Grouped(), money.Round(sum(weights)).Grouped(), part.Cents.Grouped(), extra(part))
}

// ownCostWords tells the piece's own price, tax and pickup as a sum.
func ownCostWords(p *ledger.Piece) string {
	out := ""
	for _, t := range []struct {
		word  string
		cents money.Cents
	}{{"price", p.Price}, {"tax", p.TaxPaid}, {"pickup", p.Pickup}} {
		if t.cents == 0 {
			continue
		}
		if out != "" || p.Lot != "" {
			out += " + "
		}
		out += t.word + " " + t.cents.Grouped()
	}
	if out == "" && p.Lot == "" {
		return string(p.How) + ", nothing paid"
	}
	return out
}

// extra tells of the cent that a pocket calculator would not give.
func extra(p money.Part) string {
	if p.Off == 0 {
		return ""
	}
	sign := ""
	if p.Off > 0 {
		sign = "+"
	}
	return ", " + sign + p.Off.Grouped() + " so that the shares add up"
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
		var of *ledger.Shared
		if len(ids) > 1 && p.Cost+p.TaxPaid != 0 {
			of = r.sharing(ledger.Shared{Reason: why, What: p.What, Total: p.Cost + p.TaxPaid, Unit: basis, Source: []fault.Place{p.At}}, ids, weights, parts)
		}
		for i, part := range parts {
			words := p.What
			if len(ids) > 1 {
				words = fmt.Sprintf("%s: %s over %d pieces %s = %s%s", p.What, (p.Cost + p.TaxPaid).Grouped(), len(ids), basis, part.Cents.Grouped(), extra(part))
			}
			r.post(ledger.Posting{Date: p.On, Cents: part.Cents, From: ledger.Paid, To: ledger.Pieces, Piece: ids[i],
				Reason: why, Source: []fault.Place{p.At}, Arithmetic: words, Of: of, Line: i})
		}
	}
	for _, mv := range r.index.moves[r.m] {
		r.movedOut[mv.From] = mv
		common := ledger.Posting{Date: mv.On, From: ledger.Paid, To: ledger.Pieces, Reason: ledger.ReasonMove, Source: []fault.Place{mv.At}}
		out, in := common, common
		out.Piece, out.Cents, out.Arithmetic = mv.From, -mv.Value, fmt.Sprintf("%s moved to %s", mv.What, mv.To)
		in.Piece, in.Cents, in.Arithmetic = mv.To, mv.Value, fmt.Sprintf("%s moved from %s", mv.What, mv.From)
		r.post(out)
		r.post(in)
	}
}
