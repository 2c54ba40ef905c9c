package pdf

import "piecebook/report/page"

// photoHeight is the pictures' common height at most.
const photoHeight = 66.0

// photos stand beside each other at one height, each over its caption; one
// that cannot be shown is told in words in its place.
func (l layout) photos(b page.Photos, width float64) []strip {
	n := len(b.Items)
	if n == 0 {
		return nil
	}
	cell := (width - float64(n-1)*gridGutter) / float64(n)
	height := photoHeight * (1 - l.tight/3)
	for _, p := range b.Items {
		if p.JPEG != nil && p.Width > 0 {
			height = min(height, cell*float64(p.Height)/float64(p.Width))
		}
	}
	out := strip{}
	x := 0.0
	for _, p := range b.Items {
		if p.JPEG == nil || p.Height <= 0 {
			words, deep := merged(l.lines(p.Caption+": "+p.Missing, l.faces.regular, noteSize, notePitch, x, cell, grey))
			out.ops = append(out.ops, words...)
			out.height = max(out.height, deep)
			x += cell + gridGutter
			continue
		}
		wide := height * float64(p.Width) / float64(p.Height)
		out.ops = append(out.ops, op{shape: picture, x: x, y: 0, toX: x + wide, rise: height, jpeg: p.JPEG})
		words, deep := merged(l.lines(p.Caption, l.faces.regular, noteSize, notePitch, x, max(wide, cell/2), grey))
		for i := range words {
			words[i].y += height + 1
		}
		out.ops = append(out.ops, words...)
		out.height = max(out.height, height+1+deep)
		x += max(wide, cell/2) + gridGutter
	}
	return l.captioned(b.Caption, "", out, width)
}
