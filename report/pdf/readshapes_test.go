package pdf

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/report/page"
)

// mark is a drawn shape as a reader of the file finds it: its box in points
// from the page's lower left corner.
type drawnMark struct {
	kind                   string // box, dot, line, picture
	left, right, low, high float64
}

const decimal = `(-?[0-9.]+) `

var (
	rectOp  = regexp.MustCompile(`^` + strings.Repeat(decimal, 4) + `re (B|S|f)$`)
	lineOp  = regexp.MustCompile(`^` + strings.Repeat(decimal, 2) + `m ` + strings.Repeat(decimal, 2) + `l S$`)
	moveOp  = regexp.MustCompile(`^` + strings.Repeat(decimal, 2) + `m$`)
	curveOp = regexp.MustCompile(`^` + strings.Repeat(decimal, 6) + `c$`)
	imageOp = regexp.MustCompile(`q ` + decimal + `0 0 ` + strings.Repeat(decimal, 3) + `cm /I\S+ Do Q$`)
)

// shapesBack is the shapes of each page of a PDF file, in the order drawn.
func shapesBack(t *testing.T, file []byte) [][]drawnMark {
	t.Helper()
	var pages [][]drawnMark
	for _, content := range contents(t, file) {
		pages = append(pages, shapesIn(t, content))
	}
	return pages
}

func shapesIn(t *testing.T, content string) []drawnMark {
	t.Helper()
	var out []drawnMark
	var path *drawnMark // a curve being drawn
	for line := range strings.SplitSeq(content, "\n") {
		num := func(m []string) []float64 {
			var n []float64
			for _, s := range m[1:] {
				if s != "B" && s != "S" && s != "f" {
					n = append(n, float(t, s))
				}
			}
			return n
		}
		switch {
		case rectOp.MatchString(line):
			n := num(rectOp.FindStringSubmatch(line))
			out = append(out, spanning("box", n[0], n[1], n[0]+n[2], n[1]+n[3]))
		case lineOp.MatchString(line):
			n := num(lineOp.FindStringSubmatch(line))
			out = append(out, spanning("line", n[0], n[1], n[2], n[3]))
		case imageOp.MatchString(line):
			n := num(imageOp.FindStringSubmatch(line))
			out = append(out, spanning("picture", n[2], n[3], n[2]+n[0], n[3]+n[1]))
		case moveOp.MatchString(line):
			n := num(moveOp.FindStringSubmatch(line))
			m := spanning("dot", n[0], n[1], n[0], n[1])
			path = &m
		case curveOp.MatchString(line) && path != nil:
			n := num(curveOp.FindStringSubmatch(line))
			*path = spanning("dot", min(path.left, n[4]), min(path.low, n[5]), max(path.right, n[4]), max(path.high, n[5]))
		case line == "B" && path != nil:
			out, path = append(out, *path), nil
		}
	}
	return out
}

func spanning(kind string, x, y, toX, toY float64) drawnMark {
	return drawnMark{kind, min(x, toX), max(x, toX), min(y, toY), max(y, toY)}
}

// collisions tells where a shape stands on words or outside the margins. A
// slanted line is looked at where it runs, not by its box.
func collisions(p page.Paper, words [][]word, shapes [][]drawnMark) []string {
	const touch = 0.3
	s := sheetOf(p)
	var out []string
	for n := range shapes {
		for _, m := range shapes[n] {
			if m.left < s.left-touch || m.right > s.right+touch || m.low < s.height-s.bottom-touch ||
				m.high > s.height-s.headLine {
				out = append(out, fmt.Sprintf("page %d: a %s is outside the margins: %.1f to %.1f, %.1f to %.1f", n+1, m.kind,
					m.left, m.right, m.low, m.high))
			}
			for _, w := range words[n] {
				across := min(m.right, w.right) - max(m.left, w.left)
				up := min(m.high, w.high) - max(m.low, w.low)
				on := across > touch && up > touch
				switch {
				case m.kind == "line" && m.right-m.left > touch && m.high-m.low > touch:
					on = false // a slanted line: only lines of charts are, whose words stand at their ends
				case m.kind == "line":
					// A line has no breadth: words are on it where it runs through their middle.
					low, high := w.low+0.2*w.size+touch, w.high-0.2*w.size
					on = min(m.right, w.right)-max(m.left, w.left) > -0.01 && math.Min(m.high, high)-math.Max(m.low, low) > -0.01 &&
						(m.right-m.left > touch && across > touch || m.high-m.low > touch && m.left > w.left+touch &&
							m.left < w.right-touch)
				}
				if on {
					out = append(out, fmt.Sprintf("page %d: a %s (%.1f to %.1f, %.1f to %.1f) stands on %q (%.1f to "+
						"%.1f, %.1f to %.1f)", n+1, m.kind, m.left, m.right, m.low, m.high, w.text, w.left, w.right, w.low, w.high))
				}
			}
		}
	}
	return out
}

// TestShapesAreRead: what the reader of shapes finds is what was drawn, and it
// sees a shape on words; else the tests that rest on it prove nothing.
func TestShapesAreRead(t *testing.T) {
	content := "10.00 700.00 50.00 -20.00 re B\n10.00 600.00 m 60.00 600.00 l S\nq 30.00000 0 0 40.00000 100.00000 " +
		"500.00000 cm /Iab Do Q\n" +
		"22.00 300.00 m\n22.0 301.0 21.0 302.0 20.00000 302.00000 c\n19.0 302.0 18.0 301.0 18.00000 300.00000 c\nB\n"
	got := shapesIn(t, content)
	require.Equal(t, []drawnMark{{"box", 10, 60, 680, 700}, {"line", 10, 60, 600, 600}, {"picture", 100, 130, 500, 540},
		{"dot", 18, 22, 300, 302}}, got)
	on := word{text: "covered", left: 20, right: 50, low: 685, high: 695, size: 9}
	through := word{text: "struck", left: 20, right: 50, low: 596, high: 604, size: 9}
	found := strings.Join(collisions(page.Letter, [][]word{{on, through}}, [][]drawnMark{got}), "\n")
	require.Contains(t, found, `stands on "covered"`)
	require.Contains(t, found, `stands on "struck"`)
	require.Contains(t, found, "a box is outside the margins", "10 is left of the margin")
}
