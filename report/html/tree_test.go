package html_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/screen"
	"piecebook/report/testkit"
)

// node is a part of the page as a screen reader is told of it.
type node struct {
	Ignored     bool     `json:"ignored"`
	Role        property `json:"role"`
	Name        property `json:"name"`
	Description property `json:"description"`
}

type property struct {
	Value any `json:"value"`
}

func (p property) String() string {
	s, _ := p.Value.(string)
	return strings.TrimSpace(s)
}

// tree is what a screen reader is told of the page.
func (b *browser) tree(t *testing.T) []node {
	t.Helper()
	var out struct {
		Nodes []node `json:"nodes"`
	}
	require.NoError(t, chromedp.Run(b.ctx, accessibility.Enable(), chromedp.ActionFunc(func(ctx context.Context) error {
		return cdp.Execute(ctx, "Accessibility.getFullAXTree", nil, &out)
	})))
	return out.Nodes
}

// TestTree: all that a screen reader stops at has a name: controls, headings,
// tables and their heads, drawings, regions; a drawing has a description, and of
// tables under one heading each has its own name. With a figure open too.
func TestTree(t *testing.T) {
	b := open(t)
	ins, l := testkit.SampleBooks(t)
	for name, data := range map[string][]byte{"month": rendered(t, screen.Month(ins[len(ins)-1])),
		"year": rendered(t, screen.Year(testkit.YearOf(t, ins[11], l)))} {
		b.show(t, written(t, name+".html", data), 1280, "light")
		b.ask(t, name, "open('main table a')")
		require.NoError(t, chromedp.Run(b.ctx, chromedp.Sleep(100*time.Millisecond))) // what is opened is named by then
		seen, tables := map[string]int{}, map[string]bool{}
		for _, n := range b.tree(t) {
			if n.Ignored {
				continue
			}
			role := n.Role.String()
			seen[role]++
			switch role {
			case "heading":
				tables = map[string]bool{}
			case "table":
				assert.False(t, tables[n.Name.String()], "%s: two tables named %s", name, n.Name)
				tables[n.Name.String()] = true
			case "image":
				described := n.Description.String() != "" || n.Name.String() == "Photo"
				assert.True(t, described, "%s: %s has no description", name, n.Name)
			case "link", "button", "spinbutton", "combobox", "columnheader", "rowheader", "form", "region", "navigation",
				"complementary", "RootWebArea", "DisclosureTriangle":
			default:
				continue
			}
			assert.NotEmpty(t, n.Name.String(), "%s: a %s has no name", name, role)
		}
		for role, least := range map[string]int{"link": 400, "heading": 20, "table": 20, "columnheader": 90,
			"rowheader": 200} {
			assert.Greater(t, seen[role], least, "%s: %s", name, role)
		}
		assert.Equal(t, 1, seen["region"], name) // the figure that is open
		if name == "month" {
			assert.Equal(t, []int{1, 2, 4}, []int{seen["form"], seen["combobox"], seen["spinbutton"]})
			assert.Greater(t, seen["image"], 20)
		}
	}
	b.quiet(t, "tree")
}
