package pdf

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/page"
)

// document is a document of one section.
func document(blocks ...page.Block) page.Document {
	return page.Document{Title: "Month report", Shop: "Drawer & Door", Period: "March 2026", Fingerprint: "0123456789ab",
		Currency: "USD",
		Stamp:    time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC), Sections: []page.Section{{Title: "Everything",
			Blocks: blocks}}}
}

// find is the only word of all pages with the given text.
func find(t *testing.T, pages [][]word, text string) word {
	t.Helper()
	var found []word
	for _, words := range pages {
		for _, w := range words {
			if w.text == text {
				found = append(found, w)
			}
		}
	}
	require.Len(t, found, 1, text)
	return found[0]
}

func moneyTable(rows ...page.Row) page.Table {
	return page.Table{Columns: []page.Column{{Head: "What", Weight: 1}, {Head: "Amount", Kind: page.KindMoney}},
		Rows: rows}
}

// TestMoneyColumn: decimals under each other in rows, totals and negatives; the
// sign on the first line and on totals; a dash for zero.
func TestMoneyColumn(t *testing.T) {
	pages := rendered(t, document(moneyTable(
		page.Line(page.Text("a"), page.Money(123456)),
		page.Line(page.Text("b"), page.Money(-7)),
		page.Line(page.Text("c"), page.Money(0)),
		page.Styled(page.Subtotal, page.Text("d"), page.Money(1100)),
		page.Styled(page.GrandTotal, page.Text("e"), page.Money(99999)))))
	faces, err := loadFaces()
	require.NoError(t, err)
	point := func(w word) float64 {
		f := faces.regular
		if w.bold {
			f = faces.bold
		}
		return w.left + f.width(w.text[:strings.IndexByte(w.text, '.')], w.size)
	}
	want := point(find(t, pages, "$1,234.56"))
	for _, text := range []string{"(0.07)", "11.00", "$999.99"} {
		assert.InDelta(t, want, point(find(t, pages, text)), 0.02, text)
	}
	assert.InDelta(t, want, find(t, pages, page.Dash).right, 0.02)
}

// TestHeadsRepeatAndTotalsHaveCompany: on every page of a long table the head
// stands again, and no total opens a page.
func TestHeadsRepeatAndTotalsHaveCompany(t *testing.T) {
	for n := range 140 {
		var rows []page.Row
		for i := range n + 1 {
			rows = append(rows, page.Line(page.Text(fmt.Sprintf("row %d", i)), page.Money(int64(i))))
		}
		rows = append(rows, page.Styled(page.Total, page.Text("total"), page.Money(1)), page.Styled(page.GrandTotal,
			page.Text("all"), page.Money(1)))
		pages := paginate(layoutOf(t).document(document(moneyTable(rows...))), sheetOf(page.Letter).bodyHeight())
		for i, p := range pages {
			var texts []string
			for _, o := range p.ops {
				if o.thick == 0 {
					texts = append(texts, o.text)
				}
			}
			all := strings.Join(texts, " ")
			require.Contains(t, all, "Amount", "page %d of %d rows has no head", i+1, n+1)
			if strings.Contains(all, "total") {
				require.Contains(t, all, "row ", "a total alone on page %d with %d rows", i+1, n+1)
			}
			if i > 0 {
				require.GreaterOrEqual(t, strings.Count(all, "row "), 1)
			}
		}
	}
}

func layoutOf(t *testing.T) layout {
	t.Helper()
	f, err := loadFaces()
	require.NoError(t, err)
	return layout{faces: f, sheet: sheetOf(page.Letter), sign: "$"}
}

// TestHardWords: what people paste into a cell is drawn or visibly not drawn.
func TestHardWords(t *testing.T) {
	long := strings.Repeat("Unterschrankschubladenknopf", 5)
	hard := []string{
		strings.Repeat("x", 120), long, long + " " + long,
		"Zażółć gęślą jaźń Łódź", "Tủ đựng quần áo gỗ sồi của bà Nguyễn", "e\u0301te\u0301", // combining marks
		"dresser 🪑👩‍🔧 two", "日本の箪笥", "a\tb\nc\r\nd", "\u202Eright to left\u202C", "zero\u200bwidth", "",
		strings.Repeat("word ", 900),
	}
	var blocks []page.Block
	t4 := page.Table{Caption: hard[0], Columns: []page.Column{{Head: long}, {Head: "Ż", Weight: 1},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "n", Kind: page.KindNumber}, {Head: "Record", Small: true}}}
	for _, h := range hard {
		blocks = append(blocks, page.Paragraph{Text: h}, page.Paragraph{Style: page.Caution, Text: h, Tail: h},
			page.Facts{Columns: 3, Stacked: true, Items: []page.Fact{{Label: h, Value: h[:min(len(h), 120)]},
				{Label: "b", Value: "c", Under: h}}})
		row := page.Line(page.Text(h), page.Text(h), page.Money(math.MaxInt64), page.Number("12.5"), page.Text(h))
		row.Note = h
		t4.Rows = append(t4.Rows, row)
	}
	blocks = append(blocks, t4, page.KeyFigures{Items: []page.KeyFigure{{Figure: page.Money(math.MinInt64), Words: long},
		{Figure: page.Money(1), Words: "b",
			Small: []page.SubFigure{{Label: long, Figure: page.Money(math.MaxInt64)}}}, {Figure: page.Empty(), Words: ""},
		{Words: "d"}, {Words: "e"}}})
	for i, b := range blocks {
		if f, ok := b.(page.Facts); ok { // cut at bytes above
			f.Items[0].Value = strings.ToValidUTF8(f.Items[0].Value, "")
			blocks[i] = f
		}
	}
	d := document(append([]page.Block{page.Title{Text: long, Under: hard[0], Right: long}}, blocks...)...)
	d.Shop, d.Title, d.Banner, d.Currency = hard[0], hard[4], "DRAFT", "PLN"
	d.Sections[0].Head = long
	for _, paper := range []page.Paper{page.Letter, page.A4} {
		d.Paper = paper
		pages := rendered(t, d)
		all := stream(pages)
		assert.Contains(t, all, "dresser□□□two")
		assert.Contains(t, all, "□□□□□")
		assert.Contains(t, all, "été")
		assert.Contains(t, all, "Nguyễn")
	}
}

// TestManyColumns: a table too wide for its page is folded into parts under
// each other, each with its first column, in the same type; and never prints
// one figure on another.
func TestManyColumns(t *testing.T) {
	for _, n := range []int{6, 10, 14, 24} {
		tab := page.Table{Columns: []page.Column{{Head: "Piece with a name", Weight: 1}}}
		row := page.Line(page.Text("Chest of drawers"))
		for i := range n {
			tab.Columns = append(tab.Columns, page.Column{Head: fmt.Sprintf("Supply number %d", i), Kind: page.KindMoney})
			row.Cells = append(row.Cells, page.Money(int64(-100000*(i+1))))
		}
		tab.Rows = []page.Row{row, row}
		first := 0
		for _, words := range rendered(t, document(tab)) {
			for _, w := range words {
				assert.GreaterOrEqual(t, w.size, tableSize, w.text)
				if strings.HasPrefix(w.text, "Chest") {
					first++
				}
			}
		}
		assert.Equal(t, 2*((n+8)/9), first, "%d columns: two rows a part, nine columns in each at most", n)
	}
}

// TestUnknownBlock: a kind this room does not know shows its fallback.
func TestUnknownBlock(t *testing.T) {
	pages := rendered(t, document(strange{}))
	find(t, pages, "the table of it")
}

type strange struct{}

func (strange) Fallback() []page.Block { return []page.Block{page.Paragraph{Text: "the table of it"}} }

// TestMetadata: title, author and a date that is the document's, not the clock's.
func TestMetadata(t *testing.T) {
	d := document(page.Heading{Text: "In it", Level: 1, Bookmark: true, Anchor: "here"}, page.Paragraph{Text: "go there",
		Link: "here"})
	d.Author, d.Subject = "Drawer & Door", "Costs"
	var b bytes.Buffer
	require.NoError(t, write(&b, d, false))
	file := b.String()
	assert.Contains(t, file, "D:20260331000000")
	for _, key := range []string{"/Title ", "/Author ", "/Subject ", "/Outlines ", "/Annots ", "/Dest ",
		"/Lang (en-US)", "/DisplayDocTitle true"} {
		assert.Contains(t, file, key)
	}
}

// TestTogether: many documents at once give the bytes each gives alone.
func TestTogether(t *testing.T) {
	d := document(page.Paragraph{Text: "Zażółć"}, moneyTable(page.Line(page.Text("a"), page.Money(1))))
	var alone bytes.Buffer
	require.NoError(t, Write(&alone, d))
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			var b bytes.Buffer
			assert.NoError(t, Write(&b, d))
			assert.True(t, bytes.Equal(alone.Bytes(), b.Bytes()))
		})
	}
	group.Wait()
}

// contrast is the contrast ratio of two inks, as WCAG 2.2 defines it.
func contrast(a, b ink) float64 {
	light := func(i ink) float64 {
		linear := func(v uint8) float64 {
			c := float64(v) / 255
			if c <= 0.04045 {
				return c / 12.92
			}
			return math.Pow((c+0.055)/1.055, 2.4)
		}
		return 0.2126*linear(i.r) + 0.7152*linear(i.g) + 0.0722*linear(i.b)
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestInkContrast: all words at least 7:1 on white, which is WCAG 2.2's
// enhanced contrast (1.4.6).
func TestInkContrast(t *testing.T) {
	for _, i := range []ink{black, accent, grey} {
		assert.GreaterOrEqual(t, contrast(i, white), 7.0, i)
	}
}
