package pdf

import (
	"strings"

	"piecebook/report/page"
)

// The measures of drawings.
const (
	verticalHeight = 60.0
	lineHeight     = 78.0
	barWidth       = 0.56 // of the room of one
)

// captioned puts a drawing under its caption, and its note under it; they stay
// together.
func (l layout) captioned(caption, note string, drawing strip, width float64) []strip {
	var out []strip
	drawing.gap = bodyPitch * 0.75
	if caption != "" {
		out = l.heading(page.Heading{Text: caption, Level: 1}, width)
		drawing.gap = 3
	}
	drawing.keep = note != ""
	out = append(out, drawing)
	if note != "" {
		words := l.lines(note, l.faces.regular, noteSize, notePitch, 0, width, grey)
		words[0].gap = 3
		out = append(out, words...)
	}
	return held(out, l.sheet.bodyHeight())
}

// verticalBars are standing bars; where their amounts have no room beside each
// other, the table instead.
func (l layout) verticalBars(b page.VerticalBars, width float64) []strip {
	n := len(b.Items)
	if n == 0 {
		return nil
	}
	// A few bars are not spread over the whole page.
	room := min(width/float64(n), width/8)
	amounts, ok := l.barAmounts(b, room)
	if !ok {
		return l.blocks(b.Fallback(), width)
	}
	const size = noteSize
	scale := page.ScaleOf(b.Level.At)
	for _, x := range b.Items {
		scale = page.ScaleOf(scale.Lo, scale.Hi, float64(x.Figure.Cents))
	}
	top := size + 3
	bottom := top + verticalHeight
	if scale.Lo < 0 {
		bottom -= size // the room of an amount under its bar is part of the height
	}
	at := func(v float64) float64 { return bottom - scale.Place(v)*(bottom-top) }
	out := strip{}
	end := room * float64(n)
	below := bottom
	if scale.Lo < 0 {
		below += size + 3
	}
	deep := 0
	for i, x := range b.Items {
		left := float64(i) * room
		bar := l.verticalBar(x, amounts[i], left, room, at)
		if b.Level.Label != "" {
			bar = append(bar, l.levelPast(bar[len(bar)-1], left, room, at(b.Level.At))...)
		}
		out.ops = append(out.ops, bar...)
		lines := strings.Split(l.faces.regular.clean(x.Label), "\n")
		deep = max(deep, len(lines))
		for j, line := range lines {
			f := l.faces.regular
			if x.Strong {
				f = l.faces.bold
			}
			line = f.shorten(line, noteSize, room-1)
			out.ops = append(out.ops, op{x: left + (room-f.width(line, noteSize))/2, y: below + float64(j)*notePitch +
				baseline(noteSize, notePitch) + 1, text: line, face: f, size: noteSize, ink: black})
		}
	}
	out.ops = append(out.ops, stroke(0, at(0), end, at(0), rule, black))
	out.height = below + float64(deep)*notePitch + 2
	note := b.Note
	if b.Level.Label != "" && !b.LevelTold {
		note = strings.TrimSpace("The dashed line is " + b.Level.Label + ". " + note)
	}
	return l.captioned(b.Caption, note, out, width)
}

// verticalBar is one bar with its amount at its end.
func (l layout) verticalBar(x page.VerticalBar, text string, left, room float64, at func(float64) float64) []op {
	var out []op
	v := float64(x.Figure.Cents)
	fill, f := pale, l.faces.regular
	if x.Strong {
		fill, f = solid, l.faces.bold
	}
	inset := room * (1 - barWidth) / 2
	if v != 0 {
		out = append(out, boxOf(left+inset, at(0), left+room-inset, at(v), fill))
	}
	const size = noteSize
	y := at(v) - 2.5
	if v < 0 {
		y = at(v) + size*0.72 + 2.5
	}
	return append(out, op{x: left + (room-f.width(text, size))/2, y: y, text: text, face: f, size: size, ink: black})
}

// levelPast is a level's line over one bar's room, left out where the bar's
// amount stands.
func (l layout) levelPast(amount op, left, room, y float64) []op {
	from, to := amount.x-2, amount.x+amount.face.width(amount.text, amount.size)+2
	line := func(x, toX float64) op {
		o := stroke(x, y, toX, y, rule, grey)
		o.dashed = true
		return o
	}
	if y > amount.y+0.3*amount.size || y < amount.y-0.9*amount.size {
		return []op{line(left, left+room)}
	}
	return []op{line(left, max(left, from)), line(min(left+room, to), left+room)}
}

// barAmounts are the amounts as they stand at their bars: with cents where all
// have room so, else in whole units; false where even these have none.
func (l layout) barAmounts(b page.VerticalBars, room float64) ([]string, bool) {
	for _, text := range []func(page.Cell) string{func(c page.Cell) string { return c.String("") }, page.Cell.Whole} {
		out, fits := make([]string, len(b.Items)), true
		for i, x := range b.Items {
			out[i] = l.faces.bold.clean(text(x.Figure))
			fits = fits && l.faces.bold.width(out[i], noteSize) <= room-2
		}
		if fits {
			return out, true
		}
	}
	return nil, false
}
