package pdf

import (
	"slices"

	"piecebook/report/page"
)

// keyFigureGap is the least room after a figure, so that two never read as one.
const keyFigureGap = 10

// operatorRoom is the room between two figures where an operator stands
// between them, and operatorSize its size.
const operatorRoom, operatorSize = 20.0, 16.0

// keyFigures are big figures, all in the largest size that they all fit.
func (l layout) keyFigures(b page.KeyFigures, width float64) []strip {
	across := len(b.Items)
	if across == 0 {
		return nil
	}
	if b.Across > 0 {
		across = b.Across
	}
	gutter := gridGutter
	if slices.ContainsFunc(b.Items, func(k page.KeyFigure) bool { return k.By != "" }) {
		gutter = operatorRoom
	}
	cell := (width - float64(across-1)*gutter) / float64(across)
	size := keyFigureSize
	figures := make([]string, len(b.Items))
	for i, a := range b.Items {
		figures[i] = l.faces.bold.clean(l.keyFigureText(a.Figure))
		for size > keyFigureSizeMin && l.faces.bold.width(figures[i], size) > cell-keyFigureGap {
			size -= 0.5
		}
	}
	out := make([]strip, (len(b.Items)+across-1)/across)
	deep := make([]int, len(out)) // the most lines that words of a row have
	for i, a := range b.Items {
		deep[i/across] = max(deep[i/across], len(l.faces.regular.wrap(l.faces.regular.clean(a.Words), bodySize, cell)))
	}
	for i, a := range b.Items {
		row, x := &out[i/across], float64(i%across)*(cell+gutter)
		ops, height := l.keyFigure(a, figures[i], size, x, cell, deep[i/across])
		row.ops = append(row.ops, ops...)
		row.height = max(row.height, height)
		if a.By != "" {
			f, text := l.faces.regular, string(a.By)
			row.ops = append(row.ops, op{x: x - (gutter+f.width(text, operatorSize))/2 - 2, y: baseline(size, size*1.15),
				text: text, face: f, size: operatorSize, ink: grey})
		}
	}
	for i := range out {
		out[i].gap = bodyPitch
	}
	return out
}

// keyFigureText is a figure in full, a dash where there is none.
func (l layout) keyFigureText(c page.Cell) string {
	if c.IsEmpty() {
		return page.Dash
	}
	return c.String(l.sign)
}

// keyFigure is one big figure, its words with the room of so many lines, and
// what stands under them.
func (l layout) keyFigure(a page.KeyFigure, figure string, size, x, width float64, deep int) ([]op, float64) {
	all := l.lines(figure, l.faces.bold, size, size*1.15, x, width, accent)
	label := l.lines(a.Words, l.faces.regular, bodySize, bodyPitch, x, width, black)
	all = append(all, label...)
	if len(a.From)+len(a.Small) > 0 && len(label) < deep {
		all = append(all, strip{height: float64(deep-len(label)) * bodyPitch})
	}
	if sum := a.Sum(); sum != "" {
		all = append(all, l.lines(sum, l.faces.regular, noteSize, notePitch, x, width, grey)...)
	}
	// In a wide cell the figures stand near their labels, not at the far end,
	// and under each other.
	wide := 104.0
	for _, b := range a.Small {
		wide = max(wide, l.faces.regular.width(l.faces.regular.clean(b.Label), noteSize)+
			l.faces.regular.width(l.faces.regular.clean(l.keyFigureText(b.Figure)), noteSize)+columnGap)
	}
	for _, b := range a.Small {
		all = append(all, l.subFigure(b, x, min(width, wide))...)
	}
	return merged(all)
}

// subFigure is a comparative: its label left and its figure right on one line
// where they fit, else under each other.
func (l layout) subFigure(b page.SubFigure, x, width float64) []strip {
	f := l.faces.regular
	figure := f.clean(l.keyFigureText(b.Figure))
	label := f.clean(b.Label)
	wide := f.width(figure, noteSize)
	if f.width(label, noteSize)+wide+3 > width {
		return append(l.lines(label, f, noteSize, notePitch, x, width, grey),
			l.lines(figure, f, noteSize, notePitch, x, width, grey)...)
	}
	s := l.lines(label, f, noteSize, notePitch, x, width, grey)
	s[0].ops = append(s[0].ops, op{x: x + width - wide, y: baseline(noteSize, notePitch), text: figure, face: f,
		size: noteSize, ink: grey})
	return s
}
