package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// A piece with hours or uses is being worked on, whether or not the day it was
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
