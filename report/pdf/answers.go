package pdf

import "piecebook/report/page"

// answerApart is the least room after a figure, so that two never read as one.
const answerApart = 10

// answers is a row of big figures, all in the largest size that they all fit.
func (l layout) answers(b page.Answers, width float64) []strip {
	n := len(b.Items)
	if n == 0 {
		return nil
	}
	cell := (width - float64(n-1)*gridGutter) / float64(n)
	size := answerSize
	figures := make([]string, n)
	for i, a := range b.Items {
		figures[i] = l.faces.bold.clean(l.answerText(a.Figure))
		for size > answerSmallest && l.faces.bold.width(figures[i], size) > cell-answerApart {
			size -= 0.5
		}
	}
	out := strip{gap: bodyPitch}
	for i, a := range b.Items {
		ops, height := l.answer(a, figures[i], size, float64(i)*(cell+gridGutter), cell)
		out.ops = append(out.ops, ops...)
		out.height = max(out.height, height)
	}
	return []strip{out}
}

// answerText is a figure as it is told large: nothing is said as such.
func (l layout) answerText(c page.Cell) string {
	if c.IsEmpty() {
		return page.Dash
	}
	return c.String(l.sign)
}

func (l layout) answer(a page.Answer, figure string, size, x, width float64) ([]op, float64) {
	all := l.lines(figure, l.faces.bold, size, size*1.15, x, width, accent)
	all = append(all, l.lines(a.Words, l.faces.regular, bodySize, bodyPitch, x, width, black)...)
	all[len(all)-1].height += 2
	// In a wide answer the figures stand near their labels, not at the far end,
	// and under each other.
	wide := 92.0
	for _, b := range a.Beside {
		wide = max(wide, l.faces.regular.width(l.faces.regular.clean(b.Label), noteSize)+l.faces.regular.width(l.faces.regular.clean(l.answerText(b.Figure)), noteSize)+columnGap)
	}
	for _, b := range a.Beside {
		all = append(all, l.beneath(b, x, min(width, wide))...)
	}
	return merged(all)
}

// beneath is a comparative: its label left and its figure right on one line
// where they fit, else under each other.
func (l layout) beneath(b page.Beneath, x, width float64) []strip {
	f := l.faces.regular
	figure := f.clean(l.answerText(b.Figure))
	label := f.clean(b.Label)
	wide := f.width(figure, noteSize)
	if f.width(label, noteSize)+wide+3 > width {
		return append(l.lines(label, f, noteSize, notePitch, x, width, grey),
			l.lines(figure, f, noteSize, notePitch, x, width, grey)...)
	}
	s := l.lines(label, f, noteSize, notePitch, x, width, grey)
	s[0].ops = append(s[0].ops, op{x: x + width - wide, y: baseline(noteSize, notePitch), text: figure, face: f, size: noteSize, ink: grey})
	return s
}
