package costing

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// work is what was done on pieces in a month: the bases of sharing.
type work struct {
	lines  map[string][]useLine     // by supply, one per use and piece
	coated map[string]*big.Rat      // by piece, over all supplies' uses
	with   map[[2]string]*big.Rat   // by supply and piece, over the supply's own uses
	hours  map[string]*big.Rat      // by piece
	rows   map[string][]fault.Place // by piece, of its uses and hours
}

// useLine is one use of a supply on one piece.
type useLine struct {
	use    ledger.Use
	piece  string
	coated *big.Rat // area × coats
	amount *big.Rat // measured, in containers; nil: shared
}

func (r *run) gatherWork() work {
	w := work{lines: map[string][]useLine{}, coated: map[string]*big.Rat{}, with: map[[2]string]*big.Rat{},
		hours: map[string]*big.Rat{}, rows: map[string][]fault.Place{}}
	for _, u := range r.index.uses[r.m] {
		for _, line := range r.useLines(u) {
			w.lines[u.Supply] = append(w.lines[u.Supply], line)
			w.coated[line.piece] = addTo(w.coated[line.piece], line.coated)
			own := [2]string{u.Supply, line.piece}
			w.with[own] = addTo(w.with[own], line.coated)
			w.rows[line.piece] = append(w.rows[line.piece], u.At)
		}
	}
	for _, h := range r.index.hours[r.m] {
		for _, of := range r.splitHours(h) {
			w.hours[of.Piece] = addTo(w.hours[of.Piece], of.Hours)
			w.rows[of.Piece] = append(w.rows[of.Piece], h.At)
		}
	}
	return w
}

// useLines is a use of several pieces as one use each. A given area is split
// by the pieces' own areas where all have one, else equally; a measured
// amount likewise by coated area.
func (r *run) useLines(u ledger.Use) []useLine {
	ids := ledger.Distinct(u.Pieces)
	own, by := ledger.AreaWeights(r.piece, ids)
	area := own
	switch {
	case u.Area != nil:
		area = split(u.Area, own)
	case by != ledger.OverAreas:
		area = r.knownAreas(ids)
	}
	var amounts []*big.Rat
	if u.Amount != nil {
		amounts = split(u.Amount, own)
	}
	out := make([]useLine, len(ids))
	for i, id := range ids {
		out[i] = useLine{use: u, piece: id, coated: kept(mul(area[i], u.Coats))}
		if amounts != nil {
			out[i].amount = amounts[i]
		}
	}
	return out
}

// knownAreas is for books that intake should have refused: an unknown area is 0.
func (r *run) knownAreas(ids []string) []*big.Rat {
	out := make([]*big.Rat, len(ids))
	for i, id := range ids {
		out[i] = zero
		if p := r.piece[id]; p != nil && p.Area != nil {
			out[i] = p.Area
		}
	}
	return out
}

// PieceHours is a piece's exact part of an Hours line.
type PieceHours struct {
	Piece string
	Hours *big.Rat
}

// splitHours is an Hours line's exact hours for each of its pieces: by their
// areas where all have one, else equally. A line without pieces is nobody's.
func (ix *index) splitHours(h ledger.Hours) []PieceHours {
	ids := ledger.Distinct(h.Pieces)
	weights, _ := ledger.AreaWeights(ix.piece, ids)
	out := make([]PieceHours, len(ids))
	for i, hours := range split(h.Hours, weights) {
		out[i] = PieceHours{ids[i], hours}
	}
	return out
}

// HoursByPiece is each Hours line's exact hours for each of its pieces, in the
// order of Books.Hours.
func HoursByPiece(b *ledger.Books) [][]PieceHours {
	ix := piecesAlone(b)
	out := make([][]PieceHours, len(b.Hours))
	for i, h := range b.Hours {
		out[i] = ix.splitHours(h)
	}
	return out
}

// piecesAlone is an index of the pieces, which is all that splitting asks.
func piecesAlone(b *ledger.Books) *index {
	ix := &index{b: b, piece: map[string]*ledger.Piece{}, lotPieces: map[string][]string{},
		pieces: map[calendar.Month][]*ledger.Piece{}}
	ix.readPieces()
	return ix
}

func addTo(a, b *big.Rat) *big.Rat {
	if a == nil {
		return b
	}
	return kept(add(a, b))
}

// weights is the month's claims by share basis: one per use for area, one per
// piece and month, dated before the month's first day, for the others.
func (r *run) weights(s *ledger.Supply) []Line {
	var out []Line
	switch s.ShareBy {
	case ledger.ByBench:
		for _, id := range keys(r.work.coated) {
			out = append(out, r.monthLine(id, r.work.coated[id]))
		}
	case ledger.ByHours:
		for _, id := range keys(r.work.hours) {
			out = append(out, r.monthLine(id, r.work.hours[id]))
		}
	case ledger.ByPieces:
		for _, id := range keys(r.work.rows) {
			out = append(out, r.monthLine(id, big.NewRat(1, 1)))
		}
	default:
		for _, l := range r.work.lines[s.Name] {
			if l.amount == nil {
				out = append(out, l.line(l.coated))
			}
		}
	}
	return out
}

func (r *run) monthLine(piece string, weight *big.Rat) Line {
	return Line{Key: Key{Month: r.m, Piece: piece}, Weight: weight, Source: r.work.rows[piece]}
}

func (l useLine) line(weight *big.Rat) Line {
	return Line{Key: Key{Month: l.use.On.InMonth(), Day: l.use.On.Day, Piece: l.piece}, Weight: weight,
		Source: []fault.Place{l.use.At}}
}

// measured is the month's uses of a supply that say how much.
func (r *run) measured(s *ledger.Supply) []Line {
	var out []Line
	for _, l := range r.work.lines[s.Name] {
		if l.amount != nil {
			line := l.line(l.amount)
			line.Measured = true
			out = append(out, line)
		}
	}
	return out
}

// coatedWith is the piece's coated area that stands beside a supply's share:
// that supply's own, or for bench all supplies'; nil by hours or pieces.
func (r *run) coatedWith(s *ledger.Supply, piece string) *big.Rat {
	switch s.ShareBy {
	case ledger.ByHours, ledger.ByPieces:
		return nil
	case ledger.ByBench:
		return money.OrZero(r.work.coated[piece])
	}
	return money.OrZero(r.work.with[[2]string{s.Name, piece}])
}

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
	r := &run{index: piecesAlone(b)}
	var out []Coating
	for _, u := range b.Uses {
		for _, l := range r.useLines(u) {
			out = append(out, Coating{On: u.On, Piece: l.piece, Supply: u.Supply, Area: l.coated, Measured: l.amount != nil})
		}
	}
	return out
}
