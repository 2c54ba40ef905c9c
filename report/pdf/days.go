package pdf

import (
	"math"
	"strconv"

	"piecebook/report/page"
)

// plainNumber is a scale's number without needless decimals.
func plainNumber(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
}

// days are dates with their words, and under them a thin line on which each
// stands to scale, led to by a hairline.
func (l layout) days(b page.Days, width float64) []strip {
	n := len(b.Items)
	if n == 0 {
		return nil
	}
	cell := (width - float64(n-1)*gridGutter) / float64(n)
	out := strip{gap: bodyPitch * 0.75}
	for i, d := range b.Items {
		ops, height := l.stackedFact(page.Fact{Label: d.Label, Value: d.Value, Under: d.Under}, float64(i)*(cell+gridGutter), cell)
		out.ops = append(out.ops, ops...)
		out.height = max(out.height, height)
	}
	lo, hi, known := 0.0, 0.0, 0
	for _, d := range b.Items {
		if d.Unknown {
			continue
		}
		if known == 0 {
			lo, hi = d.At, d.At
		}
		lo, hi = min(lo, d.At), max(hi, d.At)
		known++
	}
	if known < 2 || hi == lo {
		return []strip{out}
	}
	const drop = 11.0
	top := out.height + 2
	y := top + drop
	at := func(v float64) float64 { return 2 + (v-lo)/(hi-lo)*(width-4) }
	out.ops = append(out.ops, stroke(at(lo), y, at(hi), y, rule, grey))
	for i, d := range b.Items {
		if d.Unknown {
			continue
		}
		out.ops = append(out.ops, stroke(float64(i)*(cell+gridGutter)+2, top, at(d.At), y, hairline, grey), dotOf(at(d.At), y, ringRadius, solid))
	}
	out.height = y + ringRadius + 2
	return []strip{out}
}

// photoHeight is the pictures' common height at most.
const photoHeight = 86.0

// photos stand beside each other at one height, each over its caption; one
// that cannot be shown is told in words in its place.
func (l layout) photos(b page.Photos, width float64) []strip {
	n := len(b.Items)
	if n == 0 {
		return nil
	}
	cell := (width - float64(n-1)*gridGutter) / float64(n)
	height := photoHeight
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
