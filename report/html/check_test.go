package html_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// every visits all elements of a file as a browser's parser builds it.
func every(n *html.Node, visit func(*html.Node)) {
	if n.Type == html.ElementNode {
		visit(n)
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		every(c, visit)
	}
}

// value is an attribute of an element; blank where it has none.
func value(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

// words is the text in an element.
func words(n *html.Node) string {
	if n.Type == html.TextNode {
		return n.Data
	}
	var out strings.Builder
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		out.WriteString(words(c))
	}
	return out.String()
}

// parsed is a file as a browser's parser builds it, by the HTML standard's rules.
func parsed(t *testing.T, data []byte) *html.Node {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(data))
	require.NoError(t, err)
	return root
}

// ownElements are those that the renderer writes. Whatever else a parser finds
// came in by a record.
var ownElements = " html head meta title style body a header p nav ul li main section div h1 h2 h3 h4 b " +
	"small dl dt dd " +
	"figure figcaption svg desc path line circle text tspan details summary img table caption thead tbody " +
	"tr th td aside " +
	"footer script "

// ownAttributes are those of elements that hold no code and load nothing.
var ownAttributes = " lang charset http-equiv content name class href id tabindex role aria-label aria-labelledby " +
	"aria-describedby " +
	"aria-hidden scope colspan data-v data-find viewBox d x y width height x1 y1 x2 y2 cx cy r dy text-anchor src alt "

// holds checks what must be so of every file: elements and attributes are the
// renderer's own, ids stand once, links lead to a place in the file, headings
// go down by one level at most, and the policy names the one style and script.
func holds(t *testing.T, name string, data []byte) *html.Node {
	t.Helper()
	root := parsed(t, data)
	ids := map[string]bool{}
	every(root, func(n *html.Node) {
		if id := value(n, "id"); id != "" {
			assert.False(t, ids[id], "%s: the id %s stands twice", name, id)
			ids[id] = true
		}
	})
	level, policy := 0, ""
	every(root, func(n *html.Node) {
		if !strings.Contains(ownElements, " "+n.Data+" ") {
			t.Errorf("%s: a record made an element <%s>", name, n.Data)
		}
		for _, a := range n.Attr {
			if !strings.Contains(ownAttributes, " "+a.Key+" ") {
				t.Errorf("%s: <%s> has an attribute %s", name, n.Data, a.Key)
			}
		}
		switch n.DataAtom {
		case atom.A:
			to, local := strings.CutPrefix(value(n, "href"), "#")
			assert.True(t, local && ids[to], "%s: %q leads to %q", name, words(n), value(n, "href"))
		case atom.Img:
			assert.True(t, strings.HasPrefix(value(n, "src"), "data:image/jpeg;base64,"), name)
		case atom.H1, atom.H2, atom.H3, atom.H4:
			now := int(n.Data[1] - '0')
			assert.LessOrEqual(t, now, level+1, "%s: heading %q", name, words(n))
			level = now
		case atom.Meta:
			if value(n, "http-equiv") == "Content-Security-Policy" {
				policy = value(n, "content")
			}
		case atom.Style, atom.Script:
			sum := sha256.Sum256([]byte(words(n)))
			assert.Contains(t, policy, n.Data+"-src 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'", name)
		}
	})
	assert.True(t, strings.HasPrefix(policy, "default-src 'none'; img-src data:; "), policy)
	return root
}
