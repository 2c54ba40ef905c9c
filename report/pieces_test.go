package report

import (
	"encoding/json"
	"math/big"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// A piece with hours or uses is at the bench, whether or not the day it was
// started is written down; those of a later month do not count yet.
func TestStageOfAPieceWorkedOn(t *testing.T) {
	march, april := calendar.Date{Year: 2026, Month: 3, Day: 5}, calendar.Date{Year: 2026, Month: 4, Day: 1}
	in := Input{Books: &ledger.Books{Hours: []ledger.Hours{{On: march, Pieces: []string{"A"}},
		{On: april, Pieces: []string{"C"}}},
		Uses: []ledger.Use{{On: march, Pieces: []string{"B"}}}}}
	in.Month.To = march.InMonth()
	for piece, want := range map[string]string{"A": atWork, "B": atWork, "C": "waiting", "D": "waiting"} {
		assert.Equal(t, want, in.Stage(&ledger.Piece{ID: piece}), piece)
	}
	assert.Equal(t, "finished", in.Stage(&ledger.Piece{ID: "A", FinishedOn: march}))
}

// Hours and a schedule on a piece's own row have no day of their own: they make
// it worked on, and no day its first day of work. With undated hours a dated use
// is not the first work for certain, so there is no such day either.
func TestFirstWork(t *testing.T) {
	on := func(day int) calendar.Date { return calendar.Date{Year: 2026, Month: 3, Day: day} }
	a := ledger.Piece{ID: "A", At: fault.Place{File: "pieces.csv", Row: 2}}
	hours := ledger.Hours{At: a.At, On: on(20), Pieces: []string{"A"}, OwnRow: true}
	use := ledger.Use{At: a.At, On: on(19), Pieces: []string{"A"}, Schedule: "Painted"}
	in := Input{Books: &ledger.Books{Hours: []ledger.Hours{hours}, Uses: []ledger.Use{use}}}
	in.Month.To = on(31).InMonth()
	assert.True(t, in.FirstWork(&a).IsZero())
	assert.Equal(t, atWork, in.Stage(&a))
	use.At, use.On = fault.Place{File: "uses.csv", Row: 2}, on(12)
	in.Books.Uses, in.ofPieces = append(in.Books.Uses, use), nil
	assert.True(t, in.FirstWork(&a).IsZero())
	in.Books.Hours, in.ofPieces = nil, nil
	assert.Equal(t, on(12), in.FirstWork(&a))
}

// Of many amounts those are left that others stand no closer to than a so
// manyeth of their range: no more than so many, with the least and the greatest
// among them, and each amount that is left out that close to one that is not.
func TestThinned(t *testing.T) {
	const most = 100
	random := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		s := Spread{}
		for range 2000 {
			s.Sorted = append(s.Sorted, money.Cents(random.NormFloat64()*random.Float64()*10_000))
		}
		slices.Sort(s.Sorted)
		out := s.Thinned(most)
		least, greatest := s.Sorted[0], s.Sorted[len(s.Sorted)-1]
		assert.LessOrEqual(t, len(out), most+1)
		assert.Equal(t, []money.Cents{least, greatest}, []money.Cents{out[0], out[len(out)-1]})
		for _, c := range s.Sorted {
			at, _ := slices.BinarySearch(out, c)
			near := min(out[at]-c, c-out[max(0, at-1)])
			assert.LessOrEqual(t, max(0, near), (greatest-least)/most)
			assert.Equal(t, len(s.Sorted)-s.Above(c), sort.Search(len(s.Sorted), func(i int) bool { return s.Sorted[i] > c }))
		}
	}
	same := Spread{Sorted: []money.Cents{5, 5, 5}}
	assert.Equal(t, []money.Cents{5}, same.Thinned(most))
}

// A closed month's pieces have the hours of its figures, also where the records have
// others by now; hours that only its four places round stay exact.
func TestHoursOfAClosedMonthAreItsOwn(t *testing.T) {
	closed := closing.Month{Figures: json.RawMessage(`{"pieces": [{"piece": "A", "hours": "35.25"},
		{"piece": "B", "hours": "0.3333"}, {"piece": "C", "hours": "2"}]}`)}
	piece := func(id string, hours *big.Rat) figures.Piece {
		return figures.Piece{Record: &ledger.Piece{ID: id}, Hours: hours}
	}
	pieces := []figures.Piece{piece("A", big.NewRat(103, 4)), piece("B", big.NewRat(1, 3)), piece("C", nil),
		piece("D", big.NewRat(1, 1))}
	hoursAsClosed(pieces, closed.Hours())
	for i, want := range []*big.Rat{big.NewRat(141, 4), big.NewRat(1, 3), big.NewRat(2, 1), big.NewRat(1, 1)} {
		assert.Zero(t, pieces[i].Hours.Cmp(want), pieces[i].Record.ID)
	}
}
