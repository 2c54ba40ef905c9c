package pdf

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/kinds"
	"piecebook/report"
	kindpages "piecebook/report/kinds"
	"piecebook/report/month"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/testkit"
	"piecebook/report/year"
)

// TestMonthInFivePages: how many pages a month takes, in every month of the
// sample, in a shop with one sale, in one with forty, and in an empty month, on
// both papers; and no page but the last with less than a quarter used.
func TestMonthInFivePages(t *testing.T) {
	sample := testkit.SampleInputs(t)
	one := testkit.OneSale(t)
	for _, c := range []struct {
		name        string
		ins         []report.Input
		least, most int
	}{{"sample", sample, 4, 5}, {"one sale", one[:1], 2, 3}, {"empty", one[1:], 1, 2},
		{"47 sales", testkit.ManySales(t), 8, 16}} {
		for _, in := range c.ins {
			for _, paper := range []page.Paper{page.Letter, page.A4} {
				d := month.Doc(in)
				d.Paper = paper
				pages := pagesOf(t, d)
				where := fmt.Sprintf("%s, %s, %s", c.name, in.Month.To, paper)
				assert.LessOrEqual(t, len(pages), c.most, where)
				assert.GreaterOrEqual(t, len(pages), c.least, where)
				for i, p := range pages[:len(pages)-1] {
					assert.GreaterOrEqual(t, p.used, sheetOf(paper).bodyHeight()/4, "%s, page %d", where, i+1)
				}
				noneStranded(t, pages, where)
			}
		}
	}
}

// TestSmallestType: read back from the files, no type is under 8.5 point but
// record references, which have 7.5: of month and profit sheets in every month
// of the sample, in a shop with one sale, in an empty month, in one with forty
// sales, of the kinds and of the year; the papers take turns.
func TestSmallestType(t *testing.T) {
	sample, ledger := testkit.SampleBooks(t)
	one := testkit.OneSale(t)
	last := sample[len(sample)-1]
	docs := []page.Document{kindpages.Doc(last, kinds.Of(ledger, kinds.Scope{})),
		year.Doc(testkit.YearInput(t, filepath.Join("..", "..", "sample"), 2025))}
	for _, in := range slices.Concat(sample, one, testkit.ManySales(t)) {
		docs = append(docs, month.Doc(in), piece.PeriodSheets(in))
	}
	small := 0
	for i, d := range docs {
		d.Paper = []page.Paper{page.Letter, page.A4}[i%2]
		refs := references(t, d)
		var b bytes.Buffer
		require.NoError(t, write(&b, d, false))
		for n, words := range readBack(t, b.Bytes()) {
			for _, w := range words {
				if w.size < 8.5 {
					small++
					assert.Equal(t, 7.5, w.size, "%s, %s, page %d: %s", d.Title, d.Period, n+1, w.text)
					assert.Contains(t, refs, strings.TrimSuffix(packed(w.text), "…"), "%s, %s, page %d", d.Title, d.Period, n+1)
				}
			}
		}
	}
	assert.Greater(t, small, 1000)
}

// references are all record references of a document, packed: nothing else is
// in a column of small type.
func references(t *testing.T, d page.Document) string {
	var out strings.Builder
	testkit.EveryBlock(d, func(_ string, b page.Block) {
		table, ok := b.(page.Table)
		for _, c := range table.Columns {
			assert.True(t, !c.Small || slices.Contains([]string{"Record", "Records", "Receipt", "Where"}, c.Head), c.Head)
		}
		for _, r := range table.Rows {
			for c, cell := range r.Cells {
				if ok && table.Columns[c].Small {
					out.WriteString(packed(cell.Text) + "\n")
				}
			}
		}
	})
	return out.String()
}

// noneStranded holds that no page but the last ends with a heading, a table's
// head or a group's: words in bold accent above what they name.
func noneStranded(t *testing.T, pages []placed, where string) {
	t.Helper()
	for i, p := range pages[:len(pages)-1] {
		var lowest op
		for _, o := range p.ops {
			if o.text != "" && o.thick == 0 && o.shape == noShape && o.y > lowest.y {
				lowest = o
			}
		}
		heads := lowest.ink == accent && lowest.face.style == "B" && lowest.size < titleSize
		assert.False(t, heads, "%s, page %d ends with %q", where, i+1, lowest.text)
	}
}

// pagesOf lays a document out.
func pagesOf(t *testing.T, d page.Document) []placed {
	l := layoutOf(t)
	l.sheet, l.sign = sheetOf(d.Paper), page.Sign(d.Currency)
	return paginate(l.document(d), l.sheet.bodyHeight())
}

// TestNothingStranded: wherever a page ends, no heading and no table's or group's
// head stands last on it.
func TestNothingStranded(t *testing.T) {
	money := page.Column{Head: "Amount", Kind: page.KindMoney}
	for n := range 70 {
		blocks := make([]page.Block, n, n+2)
		for i := range blocks {
			blocks[i] = page.Paragraph{Text: "A line."}
		}
		table := page.Table{Caption: "A table", Columns: []page.Column{{Head: "What"}, money}}
		for range 3 {
			table.Rows = append(table.Rows, page.Styled(page.Group, page.Text("A group")),
				page.Line(page.Text("one"), page.Money(100)), page.Line(page.Text("two"), page.Money(200)))
		}
		blocks = append(blocks, page.Heading{Text: "A heading", Level: 1}, table)
		noneStranded(t, pagesOf(t, page.Document{Sections: []page.Section{{Title: "T", Blocks: blocks}}}), fmt.Sprint(n))
	}
}
