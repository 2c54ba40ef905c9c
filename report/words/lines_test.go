package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
)

// Goal: every figure that pages print has one label, and is found by it. Method:
// the labels against the ledger's table of lines, each asked for by its label,
// its name in figures.json and its name with blanks.
func TestEveryLineHasItsLabel(t *testing.T) {
	for of, names := range labels {
		seen := map[string]bool{}
		for _, l := range figures.LinesOf(of) {
			label := Label(of, l.ID)
			assert.NotEmpty(t, label, l.ID)
			assert.False(t, seen[label], "%s stands twice", label)
			seen[label] = true
			for _, name := range []string{label, string(l.ID), askedAs(label)} {
				assert.Equal(t, l.ID, Asked(of, name), name)
			}
		}
		assert.Len(t, names, len(seen), "a label of no line")
	}
	for name, id := range otherNames {
		ratio := false
		for _, r := range figures.RatioNames() {
			ratio = ratio || r == string(id)
		}
		assert.True(t, ratio || figures.Find(figures.OfPiece, id) != nil ||
			figures.Find(figures.OfStatement, id) != nil || figures.Find(figures.OfShelf, id) != nil, name)
		assert.Equal(t, id, Asked(figures.OfPiece, name), name)
	}
}

// Every term of every reconciliation of the ledger's figures has words.
func TestEveryTermHasItsWords(t *testing.T) {
	l := costing.Run(&ledger.Books{}, calendar.MonthOf(2026, 1))
	for _, tie := range figures.For(l, calendar.MonthOf(2026, 1), calendar.MonthOf(2026, 1)).TieOut {
		assert.NotEmpty(t, tie.Terms, tie.Name)
		for _, x := range tie.Terms {
			assert.NotEmpty(t, Term(tie.Name, x), "%s: %s", tie.Name, x.ID)
		}
	}
	for _, x := range figures.ProfitTerms {
		assert.NotEmpty(t, terms[figures.TieProfit][x.ID], x.ID)
	}
}

// Every note of a tax year has its words.
func TestYearNotes(t *testing.T) {
	for s := taxyear.Sentence(1); s < taxyear.Sentences; s++ {
		assert.NotEmpty(t, yearNotes[s], s)
	}
	counted := taxyear.Note{Says: taxyear.NotCounted, Of: []any{2, []string{"{a|b}", "50 %"}}}
	assert.Contains(t, YearNote(counted), "for 2 supplies: {a|b}, 50 %. A count")
}
