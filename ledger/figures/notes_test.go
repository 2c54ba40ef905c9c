package figures_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// TestNotesBelongToMonths: a note stands with its record's month, one on a
// piece's row with the last in which the piece came, had supplies or was sold, one that no record
// stands behind with every month; packs of later months leave out the earlier.
func TestNotesBelongToMonths(t *testing.T) {
	day := func(m calendar.Month) calendar.Date { return m.First().AddDays(9) }
	march := calendar.MonthOf(2026, 3)
	at := func(table string) fault.Place { return fault.Place{File: table, Row: 2} }
	b := ledger.Books{
		Pieces:   []ledger.Piece{{At: at("pieces"), ID: "A", Kind: "chair", GotOn: day(march - 1), Price: 1000}},
		Parts:    []ledger.Part{{At: at("parts"), On: day(march), Pieces: []string{"A"}, What: "knob", Cost: 300}},
		Openings: nil,
	}
	var notes fault.List
	for _, p := range []fault.Place{at("pieces").At("area"), at("parts").At("cost"), {File: "settings.toml"}} {
		notes.Add(fault.Problem{Code: "x", Note: true, Place: p, Why: "w"})
	}
	notes.Add(fault.Problem{Code: "y", Note: true, Place: at("parts"), Why: "w", Month: march - 1})
	done := figures.Complete(costing.Run(&b, march+1), notes)
	months := map[string]calendar.Month{}
	for _, n := range done.Notes() {
		months[n.Place.File+string(n.Code)] = n.Month
	}
	assert.Equal(t, map[string]calendar.Month{"piecesx": march - 1, "partsx": march, "settings.tomlx": 0,
		"partsy": march - 1}, months)
	assert.Len(t, figures.OfPeriod(done.Notes(), march, march), 2)
	assert.Len(t, figures.OfPeriod(done.Notes(), march+1, march+1), 1)
	assert.Len(t, figures.OfPeriod(done.Notes(), march-1, march-1), 3)
}

// TestNotesOfOneCauseAreOne: a supply used in three months without any coverage
// is one note, with the last of the months, their names, and the largest amount
// (the same shelf, seen three times).
func TestNotesOfOneCauseAreOne(t *testing.T) {
	january := calendar.MonthOf(2026, 1)
	var notes fault.List
	for i, cents := range []int64{2000, 5000, 4000} {
		notes.Add(fault.Problem{Code: "x", Note: true, Place: fault.Place{File: "supplies", Row: 2}, Why: "None.",
			Month: january + calendar.Month(i), MoneyCents: cents})
	}
	notes.Add(fault.Problem{Code: "x", Note: true, Place: fault.Place{File: "supplies", Row: 3}, Why: "None.",
		Month: january})
	done := figures.Complete(costing.Run(&ledger.Books{}, january+3), notes)
	assert.Equal(t, []fault.Problem{
		{Code: "x", Note: true, Place: fault.Place{File: "supplies", Row: 2}, Month: january + 2, MoneyCents: 5000,
			Why: "None. Months: January 2026, February 2026, March 2026."},
		{Code: "x", Note: true, Place: fault.Place{File: "supplies", Row: 3}, Month: january, Why: "None."},
	}, done.Notes())
}

// TestUsualAreaMovesWhatIsSharedByIt: a note on a usual area has the cost of what
// the area shares in doubt; not what was measured, what has an area of its own,
// or what hours share.
func TestUsualAreaMovesWhatIsSharedByIt(t *testing.T) {
	march := calendar.MonthOf(2026, 3)
	day := march.First().AddDays(9)
	at := func(table string, row int) fault.Place { return fault.Place{File: table, Row: row} }
	one, half := big.NewRat(1, 1), big.NewRat(1, 2)
	b := ledger.Books{
		Pieces: []ledger.Piece{{At: at("pieces", 2), ID: "A", Kind: "chair", GotOn: day, Price: 1000, Area: one}},
		Hours:  []ledger.Hours{{At: at("hours", 2), On: day, Pieces: []string{"A"}, Hours: one}},
	}
	for i, s := range []struct {
		name    string
		by      ledger.ShareBy
		measure ledger.Use
		cost    money.Cents
	}{
		{"primer", ledger.ByArea, ledger.Use{}, 1},
		{"paint", ledger.ByArea, ledger.Use{Amount: half}, 10},
		{"stain", ledger.ByArea, ledger.Use{Area: half}, 100},
		{"gloves", ledger.ByHours, ledger.Use{}, 1000},
		{"rags", ledger.ByBench, ledger.Use{}, 10000},
	} {
		b.Supplies = append(b.Supplies, ledger.Supply{At: at("supplies", i+2), Name: s.name, Group: "paint",
			Container: "1 each", Unit: "each", Size: one, ShareBy: s.by, UseAll: true})
		b.Purchases = append(b.Purchases, ledger.Purchase{At: at("purchases", i+2), On: day, Supply: s.name,
			Amount: one, Cost: s.cost})
		u := s.measure
		u.At, u.On, u.Pieces, u.Supply, u.Coats = at("uses", i+2), day, []string{"A"}, s.name, one
		b.Uses = append(b.Uses, u)
	}
	var notes fault.List
	notes.Add(fault.Problem{Code: fault.CodeTypicalArea, Note: true, Place: at("pieces", 2).At("area"), Why: "w"})
	done := figures.Complete(costing.Run(&b, march), notes)
	assert.EqualValues(t, 10001, done.Notes()[0].MoneyCents)
}
