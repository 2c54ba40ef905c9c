package piece

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/report/testkit"
	"piecebook/templates"
)

// cautioned is the first words of the cautions on the sheet of a piece with the
// given records and no others, at the end of May 2026.
func cautioned(t *testing.T, piece ledger.Piece, supplies []ledger.Supply, tasks []string, parts ...string) []string {
	t.Helper()
	return cautionedAt(t, calendar.MonthOf(2026, 5), piece, supplies, tasks, parts...)
}

func cautionedAt(t *testing.T, at calendar.Month, piece ledger.Piece, supplies []ledger.Supply, tasks []string,
	parts ...string) []string {
	t.Helper()
	cautions, err := templates.Cautions()
	require.NoError(t, err)
	in := testkit.SmallShop(t)
	in.Cautions, in.Month.To = cautions, at
	piece.ID, piece.GotOn = "X", testkit.On(1)
	b := &ledger.Books{Settings: in.Books.Settings, Pieces: []ledger.Piece{piece}, Supplies: supplies}
	for _, s := range supplies {
		b.Uses = append(b.Uses, ledger.Use{On: testkit.On(3), Pieces: []string{"X"}, Supply: s.Name})
	}
	for _, task := range tasks {
		b.Hours = append(b.Hours, ledger.Hours{On: testkit.On(3), Pieces: []string{"X"}, Task: task})
	}
	for _, what := range parts {
		b.Parts = append(b.Parts, ledger.Part{On: testkit.On(3), Pieces: []string{"X"}, What: what})
	}
	in.Books, in.Postings = b, nil
	in.Month.Pieces[0].Record = &b.Pieces[0]
	var out []string
	for _, c := range pieceCautions(&in, in.Month.Pieces[0]) {
		assert.NotEmpty(t, c.Source, "a caution without its authority: %s", c.Words)
		out = append(out, c.Name)
	}
	return out
}

// TestEachCautionCase: each case the reports' contract names appears where the
// records call for it, and not where they do not.
func TestEachCautionCase(t *testing.T) {
	old := ledger.Piece{Kind: "side table", OldFinish: "painted", Made: 1950}
	newer := ledger.Piece{Kind: "side table", OldFinish: "painted", Made: 1990}
	supply := func(name, group, unit string) []ledger.Supply {
		return []ledger.Supply{{Name: name, Group: group, Unit: unit}}
	}
	for _, c := range []struct {
		what     string
		piece    ledger.Piece
		supplies []ledger.Supply
		tasks    []string
		parts    []string
		want     []string
	}{
		{"nothing", newer, nil, nil, nil, nil},
		{"a stripper", newer, supply("Citrus gel", "stripper", "gal"), nil, nil, []string{"strippers and solvents", "methylene chloride"}},
		{"a solvent", newer, supply("Mineral spirits", "solvent", "qt"), nil, nil, []string{"strippers and solvents"}},
		{"an oil stain", newer, supply("Stain, walnut", "stain", "qt"), nil, nil, []string{"oily rags"}},
		{"a water stain", newer, supply("Water stain", "stain", "qt"), nil, nil, nil},
		{"sanding old paint", old, nil, []string{"sand"}, nil, []string{"old paint", "wood dust"}},
		{"stripping paint of unknown age", ledger.Piece{Kind: "desk", OldFinish: "painted"}, nil, []string{"strip"}, nil, []string{"old paint"}},
		{"stripping where nothing is known", ledger.Piece{Kind: "desk"}, nil, []string{"strip"}, nil, []string{"old paint"}},
		{"sandpaper on old paint, no task written", old, supply("Sandpaper", "abrasive", "sheet"), nil, nil, []string{"old paint", "wood dust"}},
		{"made in 1977", ledger.Piece{Kind: "desk", OldFinish: "painted", Made: 1977}, nil, []string{"scrape"}, nil, []string{"old paint", "wood dust"}},
		{"made in 1978", ledger.Piece{Kind: "desk", OldFinish: "painted", Made: 1978}, nil, []string{"scrape"}, nil, []string{"wood dust"}},
		{"old, but clear", ledger.Piece{Kind: "desk", OldFinish: "clear", Made: 1930}, nil, []string{"sand"}, nil, []string{"wood dust"}},
		{"old paint, only waxed", old, supply("Paste wax", "wax", "oz"), nil, nil, []string{"oily rags"}},
		{"a spray can", newer, supply("Satin clear", "topcoat", "oz"), nil, nil, []string{"sprayed finishes"}},
		{"spraying from the quart", newer, supply("Water clear", "topcoat", "qt"), []string{"spray"}, nil, []string{"sprayed finishes"}},
		{"lacquer", newer, supply("Lacquer, gloss", "topcoat", "qt"), nil, nil, []string{"lacquer"}},
		{"a two-part clear", newer, supply("Clear 2K", "topcoat", "qt"), nil, nil, []string{"two-part coatings"}},
		{"epoxy for a repair", newer, nil, nil, []string{"Epoxy for the leg"}, []string{"two-part coatings"}},
		{"new tiles", newer, nil, nil, []string{"Tiles for the top"}, []string{"stone, tile, shell and grout dust"}},
		{"a marble top", ledger.Piece{Kind: "washstand", Description: "marble top, chipped", Made: 1990}, nil, nil, nil, []string{"stone, tile, shell and grout dust"}},
		{"grouting", newer, nil, []string{"grout"}, nil, []string{"stone, tile, shell and grout dust"}},
		{"a dresser", ledger.Piece{Kind: "Tall Dresser", Made: 1990}, nil, nil, nil, []string{"units that can tip"}},
		{"a crib", ledger.Piece{Kind: "crib", Made: 1990}, nil, nil, nil, []string{"children's furniture"}},
		{"a child's chair", ledger.Piece{Kind: "chair", Description: "child's rocker", Made: 1990}, nil, nil, nil, []string{"children's furniture"}},
	} {
		assert.Equal(t, c.want, cautioned(t, c.piece, c.supplies, c.tasks, c.parts...), c.what)
	}
}

// A caution with a day in its words stands from the month of that day on.
func TestCautionOfADay(t *testing.T) {
	stripper := []ledger.Supply{{Name: "Citrus gel", Group: "stripper", Unit: "gal"}}
	for month, want := range map[time.Month][]string{3: {"strippers and solvents"}, 4: {"strippers and solvents",
		"methylene chloride"}} {
		assert.Equal(t, want, cautionedAt(t, calendar.MonthOf(2026, month), ledger.Piece{Kind: "desk", Made: 1990}, stripper,
			nil), month)
	}
}
