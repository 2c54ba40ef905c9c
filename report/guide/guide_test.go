package guide_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
	"piecebook/report/guide"
	"piecebook/report/page"
	"piecebook/report/text"
	"piecebook/templates"
)

// pictures are pages for both pictures of the guide.
func pictures() map[string]page.Section {
	one := page.Section{Blocks: []page.Block{page.Paragraph{Text: "A page of the sample."}}}
	return map[string]page.Section{"month": one, "sheet": one}
}

// Every word of guide.md is in the document: nothing of it is left out, and no
// sign of Markdown stays.
func TestAllOfItIsLaidOut(t *testing.T) {
	d, err := guide.Doc(page.A4, pictures())
	require.NoError(t, err)
	laid := strings.Join(strings.Fields(text.Render(d, text.Width)), " ")
	assert.Equal(t, 2, strings.Count(laid, "A page of the sample."))
	source := regexp.MustCompile("(?m)^```.*$|^#+ |^\\d\\. |[`|]|^!\\[|\\]\\(.*\\)$|---").ReplaceAllString(
		string(guide.Text), " ")
	for word := range strings.FieldsSeq(source) {
		assert.True(t, strings.Contains(laid, word), word)
	}
	assert.NotRegexp(t, "[`|]|!\\[|\\*\\*", laid)
	assert.Equal(t, page.A4, d.Paper)
}

// A picture that is not there is an error, never a hole.
func TestAPictureIsMissing(t *testing.T) {
	_, err := guide.Doc(page.Letter, nil)
	require.ErrorContains(t, err, `"month"`)
}

// The guide says of every table what it buys.
func TestEveryTableIsNamed(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	for _, table := range set.Tables {
		assert.True(t, regexp.MustCompile(`(?m)^\|[^|]*\b`+table.Title+`\b[^|]*\|[^|]*\|$`).Match(guide.Text), table.Title)
	}
}

// The guide's can is shared as the program shares it (COSTING, 'Worked by
// hand').
func TestTheCanIsSharedSo(t *testing.T) {
	words, err := os.ReadFile(filepath.Join("..", "..", "ledger", "testdata", "worked-can.txt"))
	require.NoError(t, err)
	l := testkit.Costed(t, string(words), "2026-04")
	share := map[string]map[string]money.Cents{"march": {}, "all": {}}
	left := money.Cents(2019)
	for _, p := range l.Postings() {
		if p.From != ledger.Shelf && p.To != ledger.Shelf || p.Piece == "" {
			continue
		}
		cents := p.Cents
		if p.To == ledger.Shelf {
			cents = -cents
		}
		if p.Month == calendar.MonthOf(2026, 3) {
			share["march"][p.Piece] += cents
			left -= cents
		}
		share["all"][p.Piece] += cents
	}
	for _, row := range [][]string{
		{"A, a dresser", "31.5", "1", "31.5", "31.5 %", share["march"]["A"].String()},
		{"B, a nightstand", "20", "2", "40", "40 %", share["march"]["B"].String()},
		{"Left in the can", "", "", "", "28.5 %", left.String()},
		{"A", "31.5", share["all"]["A"].String(), (share["march"]["A"] - share["all"]["A"]).String() + " less"},
		{"B", "40", share["all"]["B"].String(), (share["march"]["B"] - share["all"]["B"]).String() + " less"},
		{"C", "40", share["all"]["C"].String(), ""}} {
		line := strings.ReplaceAll("| "+strings.Join(row, " | ")+" |", "|  ", "| ")
		assert.True(t, strings.Contains(string(guide.Text), line), line)
	}
}
