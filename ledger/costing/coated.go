package costing

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// Coating is one use of a supply on one piece: its part of the line's area,
// times the coats, in sq ft (sq m).
type Coating struct {
	On     calendar.Date
	Piece  string
	Supply string
	Area   *big.Rat
	// Measured: the line says how much was used, so that its area shares nothing.
	Measured bool
}

// Coatings is every use, piece by piece, in the order of Books.Uses.
func Coatings(b *ledger.Books) []Coating {
	r := &run{index: newIndex(b)}
	var out []Coating
	for _, u := range b.Uses {
		for _, l := range r.useLines(u) {
			out = append(out, Coating{On: u.On, Piece: l.piece, Supply: u.Supply, Area: l.coated, Measured: l.amount != nil})
		}
	}
	return out
}
