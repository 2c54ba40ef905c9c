package guide_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit/bookgen"
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
	set, err := templates.Load()
	require.NoError(t, err)
	read := intake.Read(bookgen.InWords(`
pieces
piece,kind,got_on,price,area
A,dresser,2026-03-01,10,31.50
B,nightstand,2026-03-01,10,20
C,chest,2026-03-01,10,40

supplies
supply,group,container,coverage
Primer,primer,1 qt,100

purchases
bought_on,supply,containers,cost,tax_paid
2026-03-02,Primer,1,18.99,1.20

uses
used_on,pieces,supply,coats
2026-03-10,A,Primer,1
2026-03-11,B,Primer,2
2026-04-10,C,Primer,1

counts
counted_on,supply,left
2026-04-30,Primer,0
`), set)
	require.Empty(t, read.Problems.Errors())
	l := costing.Run(&read.Books, calendar.MonthOf(2026, 4))
	require.Empty(t, l.Problems.Errors())
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
