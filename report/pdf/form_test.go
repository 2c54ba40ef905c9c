package pdf

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/page"
)

// Four cards are on one page of either paper, each within its part, no blank
// over another, and what stands in a blank is not wider than it.
func TestFormsOnAPage(t *testing.T) {
	faces, err := loadFaces()
	require.NoError(t, err)
	form := page.Form{Title: "Card", Under: "words", Down: 2, Rows: []page.FormRow{{Head: true,
		Blanks: []page.Blank{{Label: "Head"}}}}}
	for range 12 {
		form.Rows = append(form.Rows, page.FormRow{Blanks: []page.Blank{{Label: "A label that is far too long for its place",
			Value: "a value that is far too long for it as well"}, {Part: 2, Ticks: []string{"1", "2", "3"}}}})
	}
	pair := page.Columns{LeftSpan: 3, Left: []page.Block{form}, Right: []page.Block{form}}
	for _, paper := range []page.Paper{page.Letter, page.A4} {
		l := layout{faces: faces, sheet: sheetOf(paper)}
		pages := paginate(l.document(page.Document{Sections: []page.Section{{Blocks: []page.Block{pair, pair}}}}),
			l.sheet.bodyHeight())
		require.Len(t, pages, 1)
		boxes := 0
		for _, o := range pages[0].ops {
			assert.LessOrEqual(t, o.toX, l.sheet.bodyWidth()+0.01)
			assert.LessOrEqual(t, o.y+o.rise, l.sheet.bodyHeight()+0.01)
			if o.shape == box && o.rise > tickSide+1 {
				boxes++
			}
		}
		assert.Equal(t, 4*(1+12*2), boxes)
	}
}
