package pdf

import (
	"cmp"
	"slices"
	"strings"

	"piecebook/report/page"
)

// lines makes a strip of each line of text, all keeping together where few,
// else the first two and the last two: a line is not left alone.
func (l layout) lines(text string, f *face, size, pitch, x, width float64, color ink) []strip {
	wrapped := f.wrap(f.clean(text), size, width)
	out := make([]strip, len(wrapped))
	for i, line := range wrapped {
		out[i] = strip{height: pitch, keep: i == 0 || i == len(wrapped)-2 || len(wrapped) < 5,
			ops: []op{{x: x, y: baseline(size, pitch), text: line, face: f, size: size, ink: color}}}
	}
	out[len(out)-1].keep = false
	return out
}

// baseline is where words of a size stand in a line of a pitch: the shapes,
// with their ascenders and descenders, are in its middle.
func baseline(size, pitch float64) float64 { return (pitch-size)/2 + size*0.82 }

func (l layout) title(b page.Title, width float64) []strip {
	rightWidth := 0.0
	right := l.faces.regular.clean(b.Right)
	if right != "" {
		rightWidth = min(l.faces.regular.width(right, bodySize), width*0.4) + gridGutter
	}
	out := l.lines(b.Text, l.faces.bold, titleSize, titleSize*1.2, 0, width-rightWidth, accent)
	y := baseline(titleSize, titleSize*1.2)
	for i, line := range l.faces.regular.wrap(right, bodySize, max(1, rightWidth-gridGutter)) {
		if line == "" {
			continue
		}
		if i >= len(out) {
			out = append(out, strip{height: bodyPitch})
		}
		x := width - l.faces.regular.width(line, bodySize)
		out[i].ops = append(out[i].ops, op{x: x, y: min(y, out[i].height*0.8), text: line, face: l.faces.regular,
			size: bodySize, ink: grey})
	}
	if b.Under != "" {
		out = append(out, l.lines(b.Under, l.faces.regular, headSize, 13, 0, width, black)...)
	}
	for i := range out {
		out[i].keep = true
	}
	return out
}

func (l layout) heading(b page.Heading, width float64) []strip {
	size := headSize
	if b.Level == 0 {
		size = headSize + 2
	}
	if b.Level > 1 {
		size = bodySize
	}
	out := l.lines(b.Text, l.faces.bold, size, size*1.4, 0, width, accent)
	out[0].gap = bodyPitch
	if b.Level == 0 {
		out[0].gap = bodyPitch * 1.5
	}
	for i := range out {
		out[i].keep = true
	}
	out[len(out)-1].height += 2
	if b.Anchor != "" {
		out[0].anchors = []string{b.Anchor}
	}
	if b.Bookmark {
		out[0].marks = []mark{{b.Text, max(1, b.Level)}}
	}
	return out
}

func (l layout) paragraph(b page.Paragraph, width float64) []strip {
	var out []strip
	switch b.Style {
	case page.Note:
		out = l.lines(b.Text, l.faces.regular, noteSize, notePitch, 0, width, grey)
	case page.Lead:
		out = l.lines(b.Text, l.faces.regular, leadSize, leadPitch, 0, width, black)
	case page.Caution:
		return l.caution(b, width)
	default:
		out = l.lines(b.Text, l.faces.regular, bodySize, l.linePitch(), 0, width, black)
	}
	out[0].gap = bodyPitch / 3
	if b.Style == page.Lead {
		out[0].gap = bodyPitch
	}
	if b.Tail != "" {
		out[len(out)-1].keep = true
		out = append(out, l.lines(b.Tail, l.faces.regular, noteSize, notePitch, 0, width, grey)...)
	}
	return linked(out, b.Link)
}

// caution is ordinary type with a mark at its left, distinguished by place and
// not by colour, and its authority in grey after it.
func (l layout) caution(b page.Paragraph, width float64) []strip {
	size, pitch := bodySize, l.linePitch()
	mark := l.faces.bold.clean(cmp.Or(b.Mark, "•"))
	inset := max(9, l.faces.bold.width(mark, size)+5)
	out := l.lines(b.Text, l.faces.regular, size, pitch, inset, width-inset, black)
	if rest := l.tailed(&out[len(out)-1], b.Tail, width); rest != "" {
		out = append(out, l.lines(rest, l.faces.regular, noteSize, notePitch, inset, width-inset, grey)...)
	}
	out[0].ops = append([]op{{x: 0, y: baseline(size, pitch), text: mark, face: l.faces.bold, size: size, ink: accent}},
		out[0].ops...)
	out[0].gap = pitch / 3
	return held(linked(out, b.Link), l.sheet.bodyHeight()/2)
}

// tailed puts a caution's authority after its last words, as far as the line
// has room for it, and gives back the rest.
func (l layout) tailed(last *strip, tail string, width float64) (rest string) {
	f := l.faces.regular
	words := last.ops[len(last.ops)-1]
	x := words.x + f.width(words.text, words.size) + columnGap
	var fits string
	for word := range strings.SplitSeq(f.clean(tail), " ") {
		longer := strings.TrimSpace(fits + " " + word)
		if rest != "" || x+f.width(longer, noteSize) > width {
			rest = strings.TrimSpace(rest + " " + word)
			continue
		}
		fits = longer
	}
	if fits != "" {
		last.ops = append(last.ops, op{x: x, y: words.y, text: fits, face: f, size: noteSize, ink: grey})
	}
	return rest
}

// linked makes all words of the strips lead to an anchor.
func linked(strips []strip, anchor string) []strip {
	for i := range strips {
		for j := range strips[i].ops {
			strips[i].ops[j].link = anchor
		}
	}
	return strips
}

// facts are rows of labelled values.
func (l layout) facts(b page.Facts, width float64) []strip {
	n := max(1, b.Columns)
	cell := (width - float64(n-1)*gridGutter) / float64(n)
	labels := l.labelWidth(b, cell)
	var out []strip
	for row := range slices.Chunk(b.Items, n) {
		s := strip{gap: 2}
		for i, f := range row {
			x := float64(i) * (cell + gridGutter)
			var ops []op
			var height float64
			if b.Stacked {
				ops, height = l.stackedFact(f, x, cell)
			} else {
				ops, height = l.sideFact(f, x, labels, cell)
			}
			s.ops = append(s.ops, ops...)
			s.height = max(s.height, height)
		}
		out = append(out, s)
	}
	if len(out) > 0 {
		out[0].gap = bodyPitch * 0.75
	}
	return out
}

// labelWidth is what the labels of facts need beside their values.
func (l layout) labelWidth(b page.Facts, cell float64) float64 {
	widest := 0.0
	for _, f := range b.Items {
		widest = max(widest, l.faces.regular.width(l.faces.regular.clean(f.Label), bodySize))
	}
	return min(widest+columnGap, cell/2)
}

func (l layout) stackedFact(f page.Fact, x, width float64) ([]op, float64) {
	all := l.lines(f.Label, l.faces.regular, noteSize, notePitch, x, width, grey)
	all = append(all, l.lines(f.Value, l.faces.bold, bodySize, bodyPitch, x, width, black)...)
	if f.Under != "" {
		all = append(all, l.lines(f.Under, l.faces.regular, noteSize, notePitch, x, width, grey)...)
	}
	return merged(all)
}

func (l layout) sideFact(f page.Fact, x, labels, width float64) ([]op, float64) {
	left := l.lines(f.Label, l.faces.regular, bodySize, bodyPitch, x, labels-columnGap/2, grey)
	right := l.lines(f.Value, l.faces.regular, bodySize, bodyPitch, x+labels, width-labels, black)
	if f.Under != "" {
		right = append(right, l.lines(f.Under, l.faces.regular, noteSize, notePitch, x+labels, width-labels, grey)...)
	}
	a, leftHeight := merged(left)
	b, rightHeight := merged(right)
	return append(a, b...), max(leftHeight, rightHeight)
}

// merged is the marks of strips under each other, and their height.
func merged(strips []strip) ([]op, float64) {
	var ops []op
	y := 0.0
	for _, s := range strips {
		for _, o := range s.ops {
			o.y += y
			ops = append(ops, o)
		}
		y += s.height
	}
	return ops, y
}
