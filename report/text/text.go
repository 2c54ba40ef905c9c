// Package text renders a page.Document as plain text for a terminal of 80
// columns, without colour. A table that has no room even with its words
// wrapped is shown row by row.
package text

import (
	"cmp"
	"strings"

	"piecebook/report/page"
)

// Width is the terminal's, in columns; narrowest is the fewest that lines are
// made for.
const (
	Width     = 80
	narrowest = 40
)

// writer gathers lines.
type writer struct {
	lines []string
	sign  string
	wide  int
}

// Render is d as text, each line ended, for a terminal of so many columns. It is
// made for Width where those are more, or fewer than the narrowest.
func Render(d page.Document, columns int) string {
	t := writer{sign: page.Sign(d.Currency), wide: Width}
	if columns >= narrowest {
		t.wide = min(Width, columns)
	}
	if d.Banner != "" {
		t.say("", d.Banner)
	}
	for _, s := range d.Sections {
		if s.Title != "" && !s.Untitled {
			t.heading(s.Title, "=")
		}
		t.blocks(s.Blocks)
	}
	t.foot(d)
	var out strings.Builder
	for _, line := range t.lines {
		out.WriteString(strings.TrimRight(line, " "))
		out.WriteByte('\n')
	}
	return out.String()
}

// foot says what on paper the running head and foot say: the answer comes first.
func (t *writer) foot(d page.Document) {
	var words []string
	for _, s := range []string{d.Shop, d.Title, d.Period} {
		if s != "" {
			words = append(words, s)
		}
	}
	t.blank()
	if len(words) > 0 {
		t.say("", strings.Join(words, " · "))
	}
	if d.Fingerprint != "" {
		t.say("", "records "+d.Fingerprint)
	}
}

// say adds words, wrapped, with an indent before each line.
func (t *writer) say(indent, text string) {
	for _, line := range wrap(text, t.wide-columns(indent)) {
		t.lines = append(t.lines, indent+line)
	}
}

// blank adds an empty line where the last is not one.
func (t *writer) blank() {
	if n := len(t.lines); n > 0 && t.lines[n-1] != "" {
		t.lines = append(t.lines, "")
	}
}

func (t *writer) heading(text, under string) {
	t.blank()
	wrapped := wrap(text, t.wide)
	widest := 0
	for _, line := range wrapped {
		widest = max(widest, columns(line))
	}
	t.lines = append(t.lines, wrapped...)
	if under != "" {
		t.lines = append(t.lines, strings.Repeat(under, widest))
	}
}

func (t *writer) blocks(blocks []page.Block) {
	for _, b := range blocks {
		switch b := b.(type) {
		case page.Title:
			t.heading(b.Text, "=")
			for _, s := range []string{b.Under, b.Right} {
				if s != "" {
					t.say("", s)
				}
			}
		case page.Heading:
			under := "-"
			if b.Level == 0 {
				under = "="
			}
			t.heading(b.Text, under)
		case page.Paragraph:
			t.paragraph(b)
		case page.KeyFigures:
			t.keyFigures(b)
		case page.Facts:
			t.facts(b)
		case page.Table:
			t.table(b.Plain())
		case page.Columns:
			t.blocks(b.Left)
			t.blocks(b.Right)
		case page.KeepTogether:
			t.blocks(b.Blocks)
		case page.Break, page.Gap:
			t.blank()
		default:
			t.blocks(b.Fallback())
		}
	}
}

func (t *writer) paragraph(b page.Paragraph) {
	t.blank()
	if b.Style == page.Caution {
		t.hung(cmp.Or(b.Mark, "*")+" ", b.Text)
		if b.Tail != "" {
			t.say("  ", "("+b.Tail+")")
		}
		return
	}
	t.say("", b.Text)
	if b.Tail != "" {
		t.say("", b.Tail)
	}
}

// keyFigures are shown as labelled amounts, comparatives after them.
func (t *writer) keyFigures(b page.KeyFigures) {
	t.blank()
	widest := 0
	figures := make([]string, len(b.Items))
	for i, a := range b.Items {
		figures[i] = a.Figure.String(t.sign)
		if a.Figure.IsEmpty() {
			figures[i] = page.Dash
		}
		if a.By != "" {
			figures[i] = string(a.By) + " " + figures[i]
		}
		widest = max(widest, columns(figures[i]))
	}
	for i, a := range b.Items {
		words := a.Words
		var beside []string
		if sum := a.Sum(); sum != "" {
			beside = append(beside, sum)
		}
		for _, x := range a.Small {
			figure := x.Figure.String(t.sign)
			if x.Figure.IsEmpty() {
				figure = page.Dash
			}
			beside = append(beside, x.Label+" "+figure)
		}
		if len(beside) > 0 {
			words += " (" + strings.Join(beside, ", ") + ")"
		}
		t.hung(padLeft(figures[i], widest)+"  ", words)
	}
}

// hung adds words after a label, their later lines under their first.
func (t *writer) hung(label, words string) {
	indent := strings.Repeat(" ", columns(label))
	for i, line := range wrap(words, max(20, t.wide-columns(label))) {
		if i == 0 {
			t.lines = append(t.lines, label+line)
			continue
		}
		t.lines = append(t.lines, indent+line)
	}
}

func (t *writer) facts(b page.Facts) {
	t.blank()
	widest := 0
	for _, f := range b.Items {
		widest = max(widest, columns(f.Label))
	}
	widest = min(widest, 30)
	for _, f := range b.Items {
		value := f.Value
		if f.Under != "" {
			value += " (" + f.Under + ")"
		}
		t.hung(padRight(f.Label, widest)+"  ", value)
	}
}
