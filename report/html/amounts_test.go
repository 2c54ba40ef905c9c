package html_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	nethtml "golang.org/x/net/html"

	"piecebook/report/page"
	"piecebook/report/screen"
	"piecebook/report/testkit"
)

// amount is an amount of money as pages print it; what measures something else
// has a unit after it, or is hours to divide by.
var amount = regexp.MustCompile(`(÷ )?([0-9][0-9,]*\.[0-9]{2})\b(\s?(?:sq ft|hours?|%))?`)

// figureLink is where a figure's link leads.
var figureLink = regexp.MustCompile(`^#[A-Z]`)

// noFigure are amounts that are none of the shop's figures, and what they are.
var noFigure = map[string]string{
	"0.00":     "that two ways to a total do not differ, or that nothing is left",
	"0.01":     "the leftover cent of a share, of the supply named beside it",
	"75.00":    "receipts_over in settings.toml",
	"600.00":   "the law's limit of payments to one payee, to 2025",
	"2,000.00": "the law's limit of payments to one payee, from 2026",
	"2,500.00": "the law's limit of what is written off at once",
}

// TestEveryAmountOpens: each amount in words on the pages is a link to what it
// is made of, or stands where a reader has it beside: in a row of a table with an
// amount that opens to the same; in a drawing, whose numbers are a table under it,
// and its caption; or is none of the shop's figures (noFigure). Amounts alone in a table's cell are
// TestEveryFigureOpens's.
func TestEveryAmountOpens(t *testing.T) {
	ins, l := testkit.SampleBooks(t)
	docs := []page.Document{screen.Month(ins[1]), screen.Month(ins[7]), screen.Month(ins[13]),
		screen.Year(testkit.YearOf(t, ins[11], l)), screen.Year(testkit.YearOf(t, ins[13], l))}
	for _, d := range docs {
		n := 0
		every(parsed(t, rendered(t, d)), func(e *nethtml.Node) {
			if e.Data == "main" {
				n += bare(t, d.Title+", "+d.Period, e)
			}
		})
		assert.Greater(t, n, 2, d.Period)
	}
}

// bare checks an element's words, and says how many amounts in words it has.
func bare(t *testing.T, where string, e *nethtml.Node) int {
	t.Helper()
	n := 0
	for c := e.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == nethtml.ElementNode && (c.Data == "svg" || c.Data == "figcaption") {
			continue
		}
		if c.Type == nethtml.ElementNode {
			n += bare(t, where, c)
			continue
		}
		for _, m := range amount.FindAllStringSubmatch(c.Data, -1) {
			switch {
			case m[1]+m[3] != "" || strings.Trim(strings.TrimSpace(c.Data), "$()") == m[2] || noFigure[m[2]] != "":
			case e.Data == "a" || opensBeside(e):
				n++
			default:
				t.Errorf("%s: %s in %q", where, m[2], c.Data)
			}
		}
	}
	return n
}

// opensBeside says that a row of a table, or the one that its small words are
// under, has an amount that opens.
func opensBeside(e *nethtml.Node) bool {
	for e != nil && e.Data != "tr" {
		e = e.Parent
	}
	if e != nil && value(e, "class") == "n" {
		e = e.PrevSibling
	}
	found := false
	if e != nil {
		every(e, func(x *nethtml.Node) { found = found || figureLink.MatchString(value(x, "href")) })
	}
	return found
}
