package text

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/report/page"
)

// For a screen reader each line says one fact by itself, no line is drawn, and
// amounts below nothing are said in words.
func TestPlain(t *testing.T) {
	d := page.Document{Title: "Profit", Shop: "Shop", Period: "March 2026", Currency: "USD", Fingerprint: "12ab",
		Sections: []page.Section{{Title: "Money", Blocks: []page.Block{
			page.Table{Caption: "By piece", Note: "A note.", Columns: []page.Column{{Head: "Piece"}, {Head: "Profit"},
				{Head: "Sold"}, {}},
				Rows: []page.Row{page.Styled(page.Group, page.Text("Sold")),
					{Cells: []page.Cell{page.Text("P1"), page.Money(-1200), page.Empty()}, Note: "20 − 32"},
					page.Styled(page.Total, page.Text("All"), page.Money(0), page.Text("2026-03-04"), page.Text("UTC"))}},
			page.KeyFigures{Items: []page.KeyFigure{{Figure: page.Money(500), Words: "an hour",
				Small: []page.SubFigure{{Label: "month before", Figure: page.Money(400)}}}}},
			page.Paragraph{Text: "Words\nin two lines."}}}}}
	assert.Equal(t, `Money
By piece
Sold
P1, Profit: minus $12.00
20 − 32
All, Profit: $0.00
All, Sold: 2026-03-04 UTC
A note.
an hour: $5.00
an hour, month before: $4.00
Words in two lines.
Shop
Profit
March 2026
Records: 12ab
`, Plain(d))
}
