package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// Page 1 tells what can be done, each thing with what stands there; a column
// of the owner's own, of which nothing need be done, is told with the notes.
func TestWhatWantsDoingCanBeDone(t *testing.T) {
	at := fault.Place{File: "records/pieces.csv", Row: 1}
	unknown := func(column, fix string) fault.Problem {
		return fault.Problem{Code: fault.CodeHeaderUnknown, Note: true, Place: at.At(column), Found: column,
			Why: "Pieces has no column of that name, so it is not read.", Fix: fix}
	}
	in := Input{Books: &ledger.Books{}, Notes: []fault.Problem{
		unknown("Style", "Nothing need be done if it is your own."),
		unknown("piecs", "It looks like piece. If it is, rename it."),
		unknown("colr", "It looks like color. If it is, rename it."),
		{Note: true, Place: at, Why: "The count moves 0.29.", Fix: "Nothing to type; counting sooner keeps such corrections small."},
	}}
	items := in.attentionItems()
	require.Len(t, items, 2)
	assert.Equal(t, `"piecs": Pieces has no column of that name, so it is not read (pieces.csv:1, piecs).`, items[0].words)
	assert.Equal(t, "Note 2", items[0].look, "by its number among all notes")
	assert.NotEqual(t, items[0].words, items[1].words)
}

// A piece with hours or uses is being worked on, whether or not the day it was
// started is written down; those of a later month do not count yet.
func TestStageOfAPieceWorkedOn(t *testing.T) {
	march, april := calendar.Date{Year: 2026, Month: 3, Day: 5}, calendar.Date{Year: 2026, Month: 4, Day: 1}
	in := Input{Books: &ledger.Books{Hours: []ledger.Hours{{On: march, Pieces: []string{"A"}}, {On: april, Pieces: []string{"C"}}},
		Uses: []ledger.Use{{On: march, Pieces: []string{"B"}}}}}
	in.Month.To = march.InMonth()
	for piece, want := range map[string]string{"A": atWork, "B": atWork, "C": "waiting", "D": "waiting"} {
		assert.Equal(t, want, in.stage(&ledger.Piece{ID: piece}), piece)
	}
	assert.Equal(t, "finished", in.stage(&ledger.Piece{ID: "A", FinishedOn: march}))
}

// A return a year is told from 30 days and 5.00 on; one day and a free table
// would make thousands of percent.
func TestReturnAYearNeedsDaysAndCost(t *testing.T) {
	for _, c := range []struct {
		days int
		cost money.Cents
		told bool
	}{{30, 500, true}, {29, 500, false}, {30, 499, false}} {
		p := figures.Piece{DaysHeld: &c.days, BookCost: c.cost, ReturnAYear: hundred}
		assert.Equal(t, c.told, yearlyReturn(p) != nil, c)
	}
	assert.Nil(t, yearlyReturn(figures.Piece{BookCost: 500, ReturnAYear: hundred}), "not sold")
}
