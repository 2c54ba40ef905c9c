package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// only is the one table a block is shown as instead.
func only(t *testing.T, b Block) Table {
	t.Helper()
	blocks := b.Fallback()
	require.Len(t, blocks, 1)
	table, ok := blocks[0].(Table)
	require.True(t, ok)
	return table
}

// cells is a row as printed.
func cells(r Row) []string {
	var out []string
	for _, c := range r.Cells {
		out = append(out, c.String(""))
	}
	return out
}

// TestBarsFallback: every amount is a cell, the drawn column is on a scale that
// holds the bars from zero and not their total, and Plain is without it.
func TestBarsFallback(t *testing.T) {
	b := Bars{Rows: []Bar{{Label: "a", Figure: Money(500)}, {Label: "b", Figure: Money(-200)},
		{Label: "all", Figure: Money(300), Style: Total}, {Label: "sum", Figure: Money(9999), Style: Total}}}
	table := only(t, b)
	scale := table.Columns[2].Scale
	assert.Equal(t, Scale{Lo: -200, Hi: 500}, *scale)
	assert.Equal(t, &Interval{0, -200}, table.Rows[1].Cells[2].Drawn.Bar)
	assert.Len(t, table.Rows[2].Cells, 2, "a total is not drawn")
	plain := table.Plain()
	assert.Len(t, plain.Columns, 2)
	assert.Equal(t, []string{"b", "(2.00)"}, cells(plain.Rows[1]))
	assert.InDelta(t, 200.0/700, scale.Place(0), 1e-9)
	assert.Equal(t, 0.0, (*Scale)(nil).Place(3))
}

// TestDotsFallback: the number, the lowest, the median and the highest are
// printed of all points, a row's own among them, and each is on the scale.
func TestDotsFallback(t *testing.T) {
	d := Dots{Points: "Profit", Target: Level{At: 5000, Label: "wanted"},
		Rows: []DotRow{{Label: "desk", Points: []int64{-100, 300}, Own: []int64{700}, Median: FullMoney(300)},
			{Label: "none"}}}
	table := only(t, d)
	assert.Equal(t, []string{"desk", "3", "(1.00)", "3.00", "7.00", ""}, cells(table.Rows[0]))
	assert.Equal(t, []string{"none", "0"}, cells(table.Rows[1]))
	drawn := table.Rows[0].Cells[5].Drawn
	assert.Equal(t, []float64{-100, 300}, drawn.Dots)
	assert.Equal(t, []float64{700}, drawn.Own)
	assert.Equal(t, 300.0, *drawn.Tick)
	assert.Equal(t, Scale{Lo: -100, Hi: 5000, Lines: []Level{{5000, "wanted"}}}, *table.Columns[5].Scale)
}

// TestOthersFallback: months, dates and photos in words.
func TestOthersFallback(t *testing.T) {
	u := only(t, VerticalBars{Items: []VerticalBar{{Label: "Jan\n2026", Figure: Money(5)}}})
	assert.Equal(t, []string{"Jan 2026", "0.05"}, cells(u.Rows[0]))
	assert.Empty(t, VerticalBars{}.Fallback())
	assert.Equal(t, []Block{Paragraph{Text: "3 days waiting, 2 days listed: got Jan 1; sold Jan 6."}},
		Timeline{Stretches: []Stretch{{Label: "3 days waiting"}, {Label: "2 days listed"}},
			Days: []Moment{{Label: "got Jan 1"}, {Label: "sold Jan 6"}}}.Fallback())
	assert.Empty(t, Timeline{}.Fallback())
	assert.Equal(t, []Block{Facts{Columns: 1, Items: []Fact{{Label: "Before", Value: "a.jpg (shown on paper)"},
		{Label: "After", Value: "b.jpg is gone."}}}},
		Photos{Items: []Photo{{Caption: "Before", Name: "a.jpg", JPEG: []byte{1}}, {Caption: "After", Name: "b.jpg",
			Missing: "b.jpg is gone."}}}.Fallback())
}

// TestPageless: page numbers are for paper.
func TestPageless(t *testing.T) {
	assert.Equal(t, "Note 1", Pageless(OnPage("Note 1", "n").Text))
	assert.Equal(t, "", Pageless(PageHere))
	assert.Equal(t, "as it is", Pageless("as it is"))
	assert.Len(t, Table{Columns: []Column{{Head: "a"}, {Head: "Page", Paper: true}},
		Rows: []Row{Line(Text("x"), Text(PageHere))}}.Plain().Columns, 1)
}

// Rings of a strip cover neither each other nor the one it is about; where they
// would stand too high each is several points.
func TestRings(t *testing.T) {
	at := func(cents float64) float64 { return cents / 100 }
	s := Strip{Points: []int64{2100, 1000, 1010, 1399, 1400, 1800}, Own: Point{At: 1750, Label: "this one"}}
	rings, each := s.Rings(at, 4)
	assert.Equal(t, 1, each)
	assert.Equal(t, []Ring{{10, 0}, {10, 1}, {10, 2}, {14, 1}, {18, 1}, {18, 2}}, rings)
	for range 94 {
		s.Points = append(s.Points, 3000)
	}
	rings, each = s.Rings(at, 4)
	assert.Equal(t, 24, each, "94 in four rings")
	assert.Equal(t, []Ring{{10, 0}, {14, 1}, {18, 1}, {30, 0}, {30, 1}, {30, 2}, {30, 3}}, rings)
}
