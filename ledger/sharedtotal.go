package ledger

import (
	"math/big"
	"sync"

	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Shared is one total shared over lines in proportion to their weights, the
// call of money.Share behind a posting's cents: for anyone who wants to work a
// share out again. It holds no money of its own; what each line got is in the
// postings that point here.
type Shared struct {
	Month  calendar.Month `json:"month,omitzero"` // it is posted in
	Reason Reason         `json:"reason,omitempty"`
	How    Derivation     `json:"how,omitzero"`     // how the total came about; nothing for supplies, which have a Draw
	Supply string         `json:"supply,omitempty"` // blank: none
	Total  money.Cents    `json:"total"`            // Σ of the lines' cents
	By     ShareBy        `json:"by,omitempty"`     // what the weights are
	Unit   string         `json:"unit,omitempty"`   // of areas; of containers, one as typed
	Lines  []SharedLine   `json:"lines,omitempty"`
	// the records the total rests on; none for supplies, whose total the shelf gives
	Source []fault.Place `json:"source,omitempty"`
	Draw   Draw          `json:"draw,omitzero"`   // of supplies
	Drawn  []Drawn       `json:"drawn,omitempty"` // of supplies, the purchases it was drawn from, oldest first
	// Opened is, of a span shared again, its first month. Of a counted span the
	// uses of months before Month are lines too; of one estimated again, whose
	// months are each shared by themselves, they are those of Months. What their
	// pieces were charged before, against what these lines come to, is posted as
	// corrections.
	Opened calendar.Month `json:"opened,omitzero"`
	Months []*Shared      `json:"months,omitempty"` // of a span estimated again, its earlier months in order

	summed  sync.Once
	weight  *big.Rat // what Weight gives
	indexed sync.Once
	byPiece map[string][]int // what LinesOf looks up
}

// Drawn is what a supply's shared total took of one purchase on the shelf (or
// opening, or what a count found above the records). Cents is the layer's cost
// up to this drawing, rounded half to even, less what it had cost before; the
// Cents of all add up to the Shared's Total.
type Drawn struct {
	Amount *big.Rat      `json:"containers,omitempty"` // containers taken
	Cents  money.Cents   `json:"amount"`               // what they cost
	Of     *big.Rat      `json:"of,omitempty"`         // containers of the layer, less what was taken back
	Cost   money.Cents   `json:"cost,omitzero"`        // of those
	On     calendar.Date `json:"on,omitzero"`          // bought
	At     fault.Place   `json:"at,omitzero"`          // its record
}

// SharedLine is one line's part. Its exact share is Total × Weight ÷ the sum
// of all lines' weights; Cents is less than a cent away from that.
type SharedLine struct {
	Piece  string         `json:"piece,omitempty"` // blank: a loss that is charged to no piece
	Month  calendar.Month `json:"month,omitzero"`  // of the use or the work
	Weight *big.Rat       `json:"weight,omitempty"`
	Cents  money.Cents    `json:"amount"`
	Off    money.Cents    `json:"off,omitzero"` // the leftover cent: see money.Part
	// Apart is what the line's posting holds besides: a lot's piece has its own
	// price, tax and pickup in it.
	Apart money.Cents `json:"apart,omitzero"`
}

// Weight is the sum of the lines' weights, not to be changed. The lines must
// all be there by the first call.
func (s *Shared) Weight() *big.Rat {
	s.summed.Do(func() {
		s.weight = new(big.Rat)
		for _, l := range s.Lines {
			s.weight.Add(s.weight, l.Weight)
		}
	})
	return s.weight
}

// LinesOf are a piece's lines, in order. A month's total of a busy shop has a
// thousand lines and a thousand pieces that ask, so where each stands is looked up.
// The lines must all be there by the first call.
func (s *Shared) LinesOf(piece string) []SharedLine {
	s.indexed.Do(func() {
		s.byPiece = map[string][]int{}
		for i, l := range s.Lines {
			s.byPiece[l.Piece] = append(s.byPiece[l.Piece], i)
		}
	})
	var out []SharedLine
	for _, i := range s.byPiece[piece] {
		out = append(out, s.Lines[i])
	}
	return out
}

// Calls are the shared totals that hold the lines of earlier months: of a span
// estimated again one a month, else itself.
func (s *Shared) Calls() []*Shared {
	if s.Reason == ReasonBoughtAgain {
		return s.Months
	}
	return []*Shared{s}
}

// Earlier is, by piece, what uses of the span's earlier months come to.
func (s *Shared) Earlier() map[string]money.Cents {
	out := map[string]money.Cents{}
	for _, call := range s.Calls() {
		for _, l := range call.Lines {
			if l.Month < s.Month {
				out[l.Piece] += l.Cents
			}
		}
	}
	return out
}
