package text

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/report/page"
)

func TestColumnsOfWideAndCombinedLetters(t *testing.T) {
	assert.Equal(t, 4, columns("箪笥"))
	assert.Equal(t, 3, columns("e\u0301te\u0301"))
	assert.Equal(t, 5, columns("żółte"))
	assert.Equal(t, "箪笥  ", padRight("箪笥", 6))
}

func TestWrapNeverGoesOver(t *testing.T) {
	for _, s := range []string{strings.Repeat("x", 200), strings.Repeat("箪笥 ", 50), "a\nb\x1b[31m c",
		strings.Repeat("word ", 40), ""} {
		for _, wide := range []int{2, 7, 80} {
			lines := wrap(s, wide)
			for _, line := range lines {
				assert.LessOrEqual(t, columns(line), wide, "%q", line)
				assert.NotContains(t, line, "\x1b")
			}
			assert.Equal(t, strings.Join(strings.Fields(clean(s)), ""), strings.Join(strings.Fields(strings.Join(lines, "")),
				""))
		}
	}
}

// table is a table with names in wide letters and amounts of all kinds.
func table() page.Table {
	return page.Table{Columns: []page.Column{{Head: "What", Weight: 1}, {Head: "Hours", Kind: page.KindNumber},
		{Head: "Amount", Kind: page.KindMoney}},
		Rows: []page.Row{page.Line(page.Text("箪笥"), page.Number("2.5"), page.Money(123456)), page.Line(page.Text("stół"),
			page.Number("10"), page.Money(-7)),
			page.Line(page.Text("none"), page.Number(page.Dash), page.Money(0)), page.Styled(page.GrandTotal,
				page.Text("all of them together"), page.Empty(), page.Money(123449))}}
}

// TestDecimalsStandUnderEachOther: by columns of the terminal, not by letters.
func TestDecimalsStandUnderEachOther(t *testing.T) {
	out := Render(page.Document{Currency: "USD", Sections: []page.Section{{Blocks: []page.Block{table()}}}}, Width)
	at := -1
	for line := range strings.SplitSeq(out, "\n") {
		before, _, found := cutLast(line, ".")
		if !found {
			continue
		}
		if at >= 0 {
			assert.Equal(t, at, columns(before), line)
		}
		at = columns(before)
	}
	assert.Contains(t, out, "$1,234.56")
	assert.Contains(t, out, "(0.07)")
}

func cutLast(s, sep string) (before, after string, found bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}

// TestNoLineOverTheWidth: whatever the table, no line is longer than the terminal,
// of 80 columns or fewer.
func TestNoLineOverTheWidth(t *testing.T) {
	for n := range 20 {
		tab := page.Table{Caption: strings.Repeat("caption ", 20), Columns: []page.Column{{Head: "What"}}}
		row := page.Line(page.Text(strings.Repeat("long ", 30) + strings.Repeat("y", 90)))
		for i := range n {
			tab.Columns = append(tab.Columns, page.Column{Head: fmt.Sprintf("Supply %d", i), Kind: page.KindMoney})
			row.Cells = append(row.Cells, page.Money(int64(i)*9999999))
		}
		row.Note = strings.Repeat("note ", 40)
		tab.Rows = []page.Row{page.Styled(page.Group, page.Text(strings.Repeat("group ", 30))), row, row}
		tab.Rows = append(tab.Rows, page.Row{Style: page.Total, Cells: row.Cells})
		for _, wide := range []int{Width, 60, narrowest} {
			for line := range strings.SplitSeq(
				Render(page.Document{Sections: []page.Section{{Title: "T", Blocks: []page.Block{tab}}}}, wide), "\n") {
				assert.LessOrEqual(t, columns(line), wide, "%d columns: %s", n, line)
			}
		}
	}
}

func ExampleRender() {
	fmt.Print(Render(page.Document{Title: "Stock", Currency: "USD", Sections: []page.Section{{Blocks: []page.Block{
		page.Table{Columns: []page.Column{{Head: "Piece"}, {Head: "Book cost", Kind: page.KindMoney}},
			Rows: []page.Row{page.Line(page.Text("dresser"), page.Money(4050)), page.Styled(page.GrandTotal, page.Text("all"),
				page.Money(4050))}}}}}}, Width))
	// Output:
	// Piece    Book cost
	// ------------------
	// dresser     $40.50
	//          ---------
	// all         $40.50
	//          =========
	//
	// Stock
}
