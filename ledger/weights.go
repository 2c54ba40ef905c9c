package ledger

import (
	"math/big"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// The bases that more than one room shares by. Pieces come in code-point
// order, each once; the lookup gives a piece by its name, or nil.

// EqualWeights is n weights of one.
func EqualWeights(n int) []*big.Rat {
	out := make([]*big.Rat, n)
	for i := range out {
		out[i] = big.NewRat(1, 1)
	}
	return out
}

// moneyWeights is each piece's amount as a weight, or nil where one has none.
func moneyWeights(piece map[string]*Piece, ids []string, of func(*Piece) *money.Cents) []*big.Rat {
	out := make([]*big.Rat, len(ids))
	for i, id := range ids {
		p := piece[id]
		if p == nil || of(p) == nil {
			return nil
		}
		out[i] = of(p).Rat()
	}
	return out
}

// What else than work a total is shared by.
const (
	ByAsking     ShareBy = "asking price"
	ByWorth      ShareBy = "worth"
	OverAreas    ShareBy = "finish area"
	Equally      ShareBy = "equal"
	ByContainers ShareBy = "containers" // of a supply, measured, lost or shared
)

// SaleWeights is what the money of a Sales line for several pieces is shared
// by: asking price where every piece has one, else worth where every piece
// has one, else equally.
func SaleWeights(piece map[string]*Piece, ids []string) ([]*big.Rat, ShareBy) {
	if w := moneyWeights(piece, ids, func(p *Piece) *money.Cents { return p.Asking }); w != nil {
		return w, ByAsking
	}
	if w := moneyWeights(piece, ids, func(p *Piece) *money.Cents { return p.Worth }); w != nil {
		return w, ByWorth
	}
	return EqualWeights(len(ids)), Equally
}

// LotWeights is what a lot's money is shared over its pieces by: worth where
// every piece has one, unless the lot says equal, else equally.
func LotWeights(lot *Lot, piece map[string]*Piece, ids []string) ([]*big.Rat, ShareBy) {
	if lot.ShareBy != "equal" {
		if w := moneyWeights(piece, ids, func(p *Piece) *money.Cents { return p.Worth }); w != nil {
			return w, ByWorth
		}
	}
	return EqualWeights(len(ids)), Equally
}

// AreaWeights is the finish areas of the pieces where all have one, else
// equal weights.
func AreaWeights(piece map[string]*Piece, ids []string) ([]*big.Rat, ShareBy) {
	out := make([]*big.Rat, len(ids))
	for i, id := range ids {
		p := piece[id]
		if p == nil || p.Area == nil {
			return EqualWeights(len(ids)), Equally
		}
		out[i] = p.Area
	}
	return out, OverAreas
}

// RateOn is the mileage rate of a day; nil before the first. Rates come by date.
func RateOn(rates []MileageRate, on calendar.Date) *MileageRate {
	var found *MileageRate
	for i := range rates {
		if !rates[i].From.After(on) {
			found = &rates[i]
		}
	}
	return found
}

// Driven is what a trip's distance comes to at a rate, without tolls: rounded
// once, half to even.
func (t Trip) Driven(rate *MileageRate) money.Cents {
	amount := new(big.Rat).Mul(t.Miles, rate.PerMile)
	return money.Round(amount.Mul(amount, big.NewRat(100, 1)))
}
