package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"

	"piecebook/report/page"
)

// word is a string drawn on a page, as a reader of the file finds it: its box
// in points from the page's lower left corner.
type word struct {
	text                   string
	left, right, low, high float64
	size                   float64
	bold                   bool
}

// readBack is the words of each page of a PDF file, in the order drawn.
func readBack(t *testing.T, file []byte) [][]word {
	t.Helper()
	faces, err := loadFaces()
	require.NoError(t, err)
	bold := boldFonts(file)
	var pages [][]word
	for _, content := range contents(t, file) {
		pages = append(pages, wordsIn(t, content, faces, bold))
	}
	return pages
}

var (
	fontName = regexp.MustCompile(`/F([0-9a-f]+) (\d+) 0 R`)
	setFont  = regexp.MustCompile(`^BT /F([0-9a-f]+) ([0-9.]+) Tf ET`)
	showText = regexp.MustCompile(`(?s)BT ([0-9.-]+) ([0-9.-]+) Td \((.*)\) Tj ET`)
)

// boldFonts says of each font of the file whether it is the bold face.
func boldFonts(file []byte) map[string]bool {
	out := map[string]bool{}
	for _, m := range fontName.FindAllSubmatch(file, -1) {
		object := regexp.MustCompile(`(?s)\n` + string(m[2]) + ` 0 obj\n(.*?)endobj`).FindSubmatch(file)
		if object != nil {
			out[string(m[1])] = bytes.Contains(bytes.ToLower(object[1]), []byte("sansb"))
		}
	}
	return out
}

// contents are the pages' content streams, inflated. Only they set text.
func contents(t *testing.T, file []byte) []string {
	t.Helper()
	var out []string
	for rest := file; ; {
		_, after, found := bytes.Cut(rest, []byte("\nstream\n"))
		if !found {
			return out
		}
		body, next, found := bytes.Cut(after, []byte("\nendstream"))
		require.True(t, found)
		rest = next
		plain := body
		if r, err := zlib.NewReader(bytes.NewReader(body)); err == nil {
			if inflated, err := io.ReadAll(r); err == nil {
				plain = inflated
			}
		}
		if bytes.Contains(plain, []byte(") Tj ET")) {
			out = append(out, string(plain))
		}
	}
}

// wordsIn reads one page. A line may hold line feeds inside a string, so the
// strings' ends are looked for, not the lines'.
func wordsIn(t *testing.T, content string, faces faces, bold map[string]bool) []word {
	t.Helper()
	var out []word
	font, size := "", 0.0
	for content != "" {
		var line string
		line, content, _ = strings.Cut(content, "\n")
		if m := setFont.FindStringSubmatch(line); m != nil {
			font = m[1]
			size = float(t, m[2])
			continue
		}
		for strings.Contains(line, " Td (") && !strings.Contains(line, ") Tj ET") {
			more, rest, _ := strings.Cut(content, "\n")
			line, content = line+"\n"+more, rest
		}
		m := showText.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		w := word{text: unescape(m[3]), left: float(t, m[1]), size: size, bold: bold[font]}
		base := float(t, m[2])
		f := faces.regular
		if w.bold {
			f = faces.bold
		}
		w.right = w.left + f.width(w.text, size)
		w.low, w.high = base-0.2*size, base+0.72*size
		out = append(out, w)
	}
	return out
}

// unescape turns a PDF string in UTF-16 into text.
func unescape(s string) string {
	var raw []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) {
			i++
			if s[i] == 'r' {
				raw = append(raw, '\r')
				continue
			}
		}
		raw = append(raw, s[i])
	}
	units := make([]uint16, len(raw)/2)
	for i := range units {
		units[i] = uint16(raw[2*i])<<8 | uint16(raw[2*i+1])
	}
	return string(utf16.Decode(units))
}

func float(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return f
}

// overlaps tells where words stand on each other or outside the margins.
func overlaps(p page.Paper, pages [][]word) []string {
	const touch = 0.3 // points that boxes may share, letters being smaller than them
	s := sheetOf(p)
	var out []string
	for n, words := range pages {
		for i, a := range words {
			if a.left < s.left-touch || a.right > s.right+touch || a.low < s.height-s.footLine-3 ||
				a.high > s.height-s.headLine+noteSize {
				out = append(out, fmt.Sprintf("page %d: %q is outside the margins: %.1f to %.1f, %.1f to %.1f", n+1, a.text, a.left,
					a.right, a.low, a.high))
			}
			for _, b := range words[i+1:] {
				if min(a.right, b.right)-max(a.left, b.left) > touch && min(a.high, b.high)-max(a.low, b.low) > touch {
					out = append(out, fmt.Sprintf("page %d: %q stands on %q", n+1, a.text, b.text))
				}
			}
		}
	}
	return out
}

// stream is all words of all pages without white space, in the order drawn.
func stream(pages [][]word) string {
	var b strings.Builder
	for _, words := range pages {
		for _, w := range words {
			b.WriteString(packed(w.text))
		}
	}
	return b.String()
}

// packed is text without any white space.
func packed(s string) string { return strings.Join(strings.Fields(s), "") }

// said is every text that a document's blocks hold, as the page should show it.
func said(d page.Document, f *face) []string {
	var out []string
	var walk func([]page.Block)
	add := func(s string) {
		s = strings.ReplaceAll(s, page.PageHere, "\n") // some number of digits
		for part := range strings.SplitSeq(f.clean(s), "\n") {
			out = append(out, packed(part))
		}
	}
	walk = func(blocks []page.Block) {
		for _, b := range blocks {
			switch b := b.(type) {
			case page.Title:
				add(b.Under)
			case page.Heading:
				add(b.Text)
			case page.Paragraph:
				add(b.Text)
				add(b.Tail)
			case page.Facts:
				for _, x := range b.Items {
					add(x.Value)
				}
			case page.Table:
				for _, r := range b.Rows {
					add(r.Note)
					for _, c := range r.Cells {
						// Of money the digits: sign and bracket stand as its row asks.
						add(strings.Trim(c.String(""), "()"))
					}
				}
			case page.Columns:
				walk(b.Left)
				walk(b.Right)
			case page.KeepTogether:
				walk(b.Blocks)
			}
		}
	}
	for _, s := range d.Sections {
		walk(s.Blocks)
	}
	return out
}

// rendered writes a document and holds it to what every page must keep:
// nothing on anything else, nothing outside, nothing lost, the same bytes again.
func rendered(t *testing.T, d page.Document) [][]word {
	t.Helper()
	var plain, again, small bytes.Buffer
	require.NoError(t, write(&plain, d, false))
	require.NoError(t, write(&again, d, false))
	require.NoError(t, Write(&small, d))
	require.True(t, bytes.Equal(plain.Bytes(), again.Bytes()), "the same document gave other bytes")
	pages := readBack(t, plain.Bytes())
	require.Equal(t, pages, readBack(t, small.Bytes()), "compressed and not say different things")
	require.Empty(t, overlaps(d.Paper, pages))
	require.Empty(t, collisions(d.Paper, pages, shapesBack(t, plain.Bytes())))
	faces, err := loadFaces()
	require.NoError(t, err)
	all := stream(pages)
	for _, s := range said(d, faces.regular) {
		if !strings.Contains(all, s) {
			t.Errorf("%q is nowhere on the pages", s)
		}
	}
	for i, words := range pages {
		foot := fmt.Sprintf("page %d of %d", i+1, len(pages))
		require.True(t, slices.ContainsFunc(words, func(w word) bool { return w.text == foot }), foot)
	}
	return pages
}
