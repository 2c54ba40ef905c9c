package cards_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/cards"
	"piecebook/report/page"
	"piecebook/report/text"
	"piecebook/templates"
)

func doc(t *testing.T, o cards.Order) (*templates.Set, page.Document) {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	return set, cards.Doc(set, o)
}

// forms are a document's cards, in order.
func forms(blocks []page.Block) (out []page.Form) {
	for _, b := range blocks {
		switch b := b.(type) {
		case page.Form:
			out = append(out, b)
		case page.Columns:
			out = append(out, forms(append(slices.Clone(b.Left), b.Right...))...)
		}
	}
	return out
}

// Typing in is copying down: the places of each card are columns of the tables
// it names, in the order of the starter workbook.
func TestInTheTablesOrder(t *testing.T) {
	set, d := doc(t, cards.Order{One: true})
	require.Len(t, d.Sections, 3)
	for i, tables := range [][]string{{"pieces", "uses", "hours"}, {"counts"}, {"sales"}} {
		f := forms(d.Sections[i].Blocks)[0]
		var labels []string
		for _, r := range f.Rows {
			for _, b := range r.Blanks {
				if b.Label != "" && len(r.Blanks) > 1 || b.Label == "Counted on" {
					labels = append(labels, b.Label)
				}
			}
		}
		at := -1
		for _, name := range tables {
			assert.Contains(t, f.Under, set.Table(name).Title)
			fields, _ := set.Table(name).InOrderOfUse()
			at = -1
			for len(labels) > 0 {
				next := slices.IndexFunc(fields, func(c templates.Field) bool { return c.Title == labels[0] })
				if next < 0 {
					break
				}
				assert.Greater(t, next, at, "%s: %s", name, labels[0])
				at, labels = next, labels[1:]
			}
		}
		assert.Empty(t, labels, "no column of %v", tables)
	}
}

// Four to a page or one; the shelf card names the books' supplies, the first
// five in front, on as many cards as they need.
func TestFourOrOne(t *testing.T) {
	var supplies []string
	for i := range 30 {
		supplies = append(supplies, fmt.Sprintf("Supply %d", i))
	}
	_, d := doc(t, cards.Order{Kinds: []cards.Kind{cards.Shelf}, Supplies: supplies})
	four := forms(d.Sections[0].Blocks)
	require.Len(t, four, 4, "three cards and a spare one")
	for _, f := range four {
		assert.Equal(t, 2, f.Down)
	}
	words := text.Render(d, text.Width)
	for _, s := range supplies {
		assert.Contains(t, words, s)
	}
	first := text.Render(page.Document{Sections: []page.Section{{Blocks: []page.Block{four[0]}}}}, text.Width)
	assert.Less(t, strings.Index(first, "Supply 4"), strings.Index(first, "Then the others"))
	assert.Greater(t, strings.Index(first, "Supply 5"), strings.Index(first, "Then the others"))
	_, d = doc(t, cards.Order{Kinds: []cards.Kind{cards.Bench}, One: true})
	one := forms(d.Sections[0].Blocks)
	require.Len(t, one, 1)
	assert.Equal(t, 1, one[0].Down)
	assert.Len(t, one[0].Rows, 2+11+11)
}
