package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/page"
)

func tinyJPEG(t *testing.T, w, h int) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, w, h))
	img.SetGray(w/2, h/2, color.Gray{255})
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, nil))
	return b.Bytes()
}

func point(v float64) *float64 { return &v }

// charts is every kind of drawing, with what is hard for each: long names,
// losses, one value, no value, large amounts.
func charts(t *testing.T) []page.Block {
	long := strings.Repeat("Szafa gdańska ", 6)
	months := page.VerticalBars{Caption: "Net profit, twelve months", Head: "Net profit", Level: page.Level{At: 6400,
		Label: "the usual, 64.00"}}
	for i := range 12 {
		months.Items = append(months.Items, page.VerticalBar{Label: fmt.Sprintf("M%d\n2025", i),
			Figure: page.Money([]int64{12345678, -1234567, 0, 999, -6400, 6400}[i%6]), Strong: i == 11})
	}
	days := page.Timeline{Stretches: []page.Stretch{{Label: "the same day", From: 0, To: 0}, {Label: "31 days waiting",
		From: 0, To: 31}, {Label: "365 days " + long, From: 31, To: 396, Strong: true}},
		Days: []page.Moment{{Label: "got 2026-01-01"}, {Label: "started 2026-01-01"}, {Label: "listed 2026-02-01", At: 31},
			{Label: "sold 2027-02-01", At: 396}}}
	strips := []page.Block{
		page.Strip{Points: []int64{-123456, 0, 2200, 99999}, Own: page.Point{At: 2100, Label: "this one 21.00"},
			Median: page.Point{At: 2150, Label: "median"}, Target: page.Point{At: 2200, Label: "wanted 22.00"}},
		page.Strip{Points: []int64{500}, Own: page.Point{At: 500, Label: "this one 5.00"}, Median: page.Point{At: 500,
			Label: "median"}},
		page.Strip{Own: page.Point{Label: "this one 0.00"}, Median: page.Point{Label: "median"}}}
	photo := page.Photo{Caption: "Before, " + long, JPEG: tinyJPEG(t, 300, 200), Width: 300, Height: 200}
	tall := page.Photo{Caption: "After", JPEG: tinyJPEG(t, 20, 300), Width: 20, Height: 300}
	return append([]page.Block{
		page.Bars{Caption: "Tied up by age", Heads: [2]string{"Age", "Book cost"},
			Rows: []page.Bar{{Label: long, Figure: page.Money(100)}, {Label: "loss", Figure: page.Money(-5000), Pale: true},
				{Label: "none", Figure: page.Money(0)}, {Label: "All", Figure: page.Money(-4900), Style: page.Total}}},
		page.Dots{Caption: "By kind", Points: "Profit per hour", Rings: true, Target: page.Level{At: 2500,
			Label: "target 25.00"}, Rows: []page.DotRow{
			{Label: long, Points: []int64{-500, 100, 2500, 99999}, Own: []int64{2600}, Median: page.Money(2500)}, {Label: "one", Points: []int64{7}, Median: page.Money(7)}, {Label: "none"}}},
		months, days, page.Photos{Caption: "Photos", Items: []page.Photo{photo, tall,
			{Caption: "Third", Missing: "photos/no such.jpg is not in the books folder. Put it there, or correct the name."}}},
	}, strips...)
}

// TestCharts: every kind of drawing on both papers, alone and in a column;
// nothing on words (rendered looks), and every figure as words, in whole units
// where bars beside each other have no room for cents.
func TestCharts(t *testing.T) {
	all := charts(t)
	for _, paper := range []page.Paper{page.Letter, page.A4} {
		d := document(append(all, page.Columns{LeftSpan: 3, Left: []page.Block{all[0], all[4]}, Right: []page.Block{all[1],
			all[3]}})...)
		d.Paper = paper
		pages := rendered(t, d)
		kept(t, "charts "+string(paper), d)
		said := stream(pages)
		for _, s := range []string{"123,457", "(12,346)", "($5.00)", "(50.00)", "999.99", "target25.00", "n", "5",
			"nosuch.jpg", "sold 2027-02-01", "this one 21.00", "($1,500)", "$1"} {
			assert.Contains(t, said, packed(s))
		}
	}
}

// TestBarsAreToScale: a bar is as long as its amount asks, measured from the
// file, and a build-up's bar begins where the last one ended.
func TestBarsAreToScale(t *testing.T) {
	scale := page.ScaleOf(10000)
	table := page.Table{Columns: []page.Column{{Head: "What"}, {Head: "Amount", Kind: page.KindMoney},
		{Kind: page.KindDrawn, Weight: 1, Scale: scale}}, Rows: []page.Row{
		page.Line(page.Text("receipts"), page.Money(10000), page.Draw(page.Drawn{Bar: &page.Interval{To: 10000}})),
		page.Line(page.Text("cost"), page.Money(2500), page.Draw(page.Drawn{Bar: &page.Interval{From: 10000, To: 7500},
			Pale: true})),
		page.Line(page.Text("left"), page.Money(7500), page.Draw(page.Drawn{Bar: &page.Interval{To: 7500}}))}}
	var b bytes.Buffer
	require.NoError(t, write(&b, document(table), false))
	var boxes []drawnMark
	for _, m := range shapesBack(t, b.Bytes())[0] {
		if m.kind == "box" {
			boxes = append(boxes, m)
		}
	}
	require.Len(t, boxes, 3)
	full := boxes[0].right - boxes[0].left
	assert.InDelta(t, 0.25, (boxes[1].right-boxes[1].left)/full, 0.001)
	assert.InDelta(t, 0.75, (boxes[2].right-boxes[2].left)/full, 0.001)
	assert.InDelta(t, boxes[0].right, boxes[1].right, 0.02, "the cost begins where the receipts end")
	assert.InDelta(t, boxes[1].left, boxes[2].right, 0.02, "what is left ends where the cost ends")
	assert.InDelta(t, boxes[0].left, boxes[2].left, 0.02, "zero-based")
}

// TestFillsInGrey: solid, pale and white bars differ in greyscale,
// and a pale one's outline from the paper. Relative luminance and contrast as
// WCAG 2.2 defines them; 3:1 is its least for graphics (1.4.11).
func TestFillsInGrey(t *testing.T) {
	assert.GreaterOrEqual(t, contrast(solid, pale), 3.0)
	assert.GreaterOrEqual(t, contrast(solid, white), 3.0)
	assert.GreaterOrEqual(t, contrast(accent, white), 3.0, "the outline of a pale bar")
}
