package pdf

import (
	"piecebook/report/page"
)

// The measures of a form, in points.
const (
	formTitle = 17.0 // of its title line
	formHead  = 12.0 // of a row of heads
	formInset = 3.0  // from a blank's edge to its words
	tickSide  = 8.0
	// formRowMost is the most height of a row: more invites nobody to write more.
	formRowMost = 40.0
)

// form is a card: one strip, so that a page break never splits it.
func (l layout) form(b page.Form, width float64) []strip {
	height := l.sheet.bodyHeight() * 0.88
	if b.Down > 1 {
		height = (l.sheet.bodyHeight() - float64(b.Down-1)*bodyPitch) / float64(b.Down)
	}
	heads, rows := 0, 0
	for _, r := range b.Rows {
		if r.Head {
			heads++
		} else {
			rows++
		}
	}
	deep := min(formRowMost, (height-formTitle-float64(heads)*formHead)/float64(max(1, rows)))
	out := strip{gap: bodyPitch, height: height}
	f := l.faces.regular
	under := f.clean(b.Under)
	out.ops = append(out.ops,
		op{x: 0, y: formTitle - 5, text: l.faces.bold.clean(b.Title), face: l.faces.bold, size: headSize, ink: accent},
		op{x: width - f.width(under, refSize), y: formTitle - 5, text: under, face: f, size: refSize, ink: grey})
	y := formTitle
	for _, r := range b.Rows {
		tall := deep
		if r.Head {
			tall = formHead
		}
		out.ops = append(out.ops, l.formRow(r, y, width, tall)...)
		y += tall
	}
	return []strip{out}
}

// formRow is a row's blanks, from y downward.
func (l layout) formRow(r page.FormRow, y, width, tall float64) []op {
	parts := 0
	for _, b := range r.Blanks {
		parts += max(1, b.Part)
	}
	var out []op
	f, x := l.faces.regular, 0.0
	for _, b := range r.Blanks {
		wide := width * float64(max(1, b.Part)) / float64(parts)
		fill := white
		if r.Head {
			fill = pale
		}
		out = append(out, boxOf(x, y, x+wide, y+tall, fill))
		label := f.shorten(f.clean(b.Label), refSize, wide-2*formInset)
		out = append(out, op{x: x + formInset, y: y + refSize + 1, text: label, face: f, size: refSize, ink: grey})
		value := f.shorten(f.clean(b.Value), tableSize, wide-2*formInset)
		out = append(out, op{x: x + formInset, y: y + tall - 6, text: value, face: f, size: tableSize, ink: black})
		out = append(out, l.ticks(b.Ticks, x+formInset, y+(tall-tickSide)/2)...)
		x += wide
	}
	return out
}

// ticks are small boxes, each with its word.
func (l layout) ticks(words []string, x, y float64) []op {
	var out []op
	f := l.faces.regular
	for _, word := range words {
		out = append(out, boxOf(x, y, x+tickSide, y+tickSide, white),
			op{x: x + tickSide + 2, y: y + tickSide - 1, text: f.clean(word), face: f, size: refSize, ink: grey})
		x += tickSide + 2 + f.width(f.clean(word), refSize) + 5
	}
	return out
}

// photoHeight is the pictures' common height at most.
const photoHeight = 66.0

// photos stand beside each other at one height, each over its caption; one
// that cannot be shown is said in words in its place.
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
