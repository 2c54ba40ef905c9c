package pdf

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"piecebook/report/page"
)

// The measures of a timeline and a strip.
const (
	bandHeight  = 9.0
	leaderDrop  = 5.0 // from a label to what it is about
	labelGap    = 7.0 // between two labels on a line
	stripHeight = 8.0
	ringStep    = 4.2 // rings of a strip stand so far apart, or on one another
)

// label is words on one line, wanted in the middle of a place.
type label struct {
	text   string
	face   *face
	middle float64
	width  float64
	x      float64 // where they stand
}

func (l layout) label(text string, f *face, middle float64) label {
	text = f.clean(text)
	return label{text: text, face: f, middle: middle, width: f.width(text, noteSize)}
}

// spread places labels, given from left to right, on one line: each as near to
// its place as the others let it, and none outside the width. Labels that have
// no room together are cut.
func spread(labels []label, width float64) {
	room := width - labelGap*float64(max(0, len(labels)-1))
	all := 0.0
	for _, x := range labels {
		all += x.width
	}
	if all > room && all > 0 {
		for i, x := range labels {
			labels[i].text = x.face.shorten(x.text, noteSize, x.width*room/all)
			labels[i].width = x.face.width(labels[i].text, noteSize)
		}
	}
	at := 0.0
	for i, x := range labels {
		labels[i].x = max(at, x.middle-x.width/2)
		at = labels[i].x + x.width + labelGap
	}
	end := width
	for i := len(labels) - 1; i >= 0; i-- {
		labels[i].x = min(labels[i].x, end-labels[i].width)
		end = labels[i].x - labelGap
	}
}

// labelOps is the labels' words with their baseline at y.
func labelOps(labels []label, y float64, color ink) []op {
	var out []op
	for _, x := range labels {
		out = append(out, op{x: x.x, y: y, text: x.text, face: x.face, size: noteSize, ink: color})
	}
	return out
}

// leader is a hairline from a label's middle to what it is about, where the
// label could not stand over it.
func leader(x label, from, to float64) []op {
	at := min(max(x.middle, x.x), x.x+x.width)
	return []op{stroke(at, from, x.middle, to, hairline, grey)}
}

// timeline is a band of stretches with their names over it and the days that
// part them under it.
func (l layout) timeline(b page.Timeline, width float64) []strip {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, x := range b.Stretches {
		lo, hi = min(lo, x.From), max(hi, x.To)
	}
	for _, x := range b.Days {
		lo, hi = min(lo, x.At), max(hi, x.At)
	}
	if len(b.Days) == 0 {
		return nil
	}
	at := func(v float64) float64 {
		if hi <= lo {
			return 0
		}
		return (v - lo) / (hi - lo) * width
	}
	var names, days []label
	for _, x := range b.Stretches {
		names = append(names, l.label(x.Label, l.faces.bold, (at(x.From)+at(x.To))/2))
	}
	for _, x := range b.Days {
		days = append(days, l.label(x.Label, l.faces.regular, at(x.At)))
	}
	spread(names, width)
	spread(days, width)
	out := strip{gap: bodyPitch * 0.75}
	y := 0.0
	if len(names) > 0 && hi > lo {
		out.ops = append(out.ops, labelOps(names, baseline(noteSize, notePitch), black)...)
		band := notePitch + leaderDrop
		for i, x := range b.Stretches {
			fill := [2]ink{white, pale}[i%2]
			if x.Strong {
				fill = solid
			}
			out.ops = append(out.ops, boxOf(at(x.From), band, at(x.To), band+bandHeight, fill))
			out.ops = append(out.ops, leader(names[i], notePitch, band)...)
		}
		for _, x := range days {
			out.ops = append(out.ops, leader(x, band+bandHeight+leaderDrop, band+bandHeight)...)
		}
		y = band + bandHeight + leaderDrop
	}
	out.ops = append(out.ops, labelOps(days, y+baseline(noteSize, notePitch), grey)...)
	out.height = y + notePitch
	return []strip{out}
}

// scaleStrip is points on one scale, with what is marked named over it and
// round amounts under it.
func (l layout) scaleStrip(b page.Strip, width float64) []strip {
	all := []float64{float64(b.Own.At), float64(b.Median.At)}
	for _, v := range b.Points {
		all = append(all, float64(v))
	}
	if b.Target.Label != "" {
		all = append(all, float64(b.Target.At))
	}
	scale := page.ScaleOf(all...)
	ticks := roundAmounts(scale)
	scale.Lo, scale.Hi = min(scale.Lo, ticks[0]), max(scale.Hi, ticks[len(ticks)-1])
	const inset = 14.0
	at := func(v float64) float64 { return inset + scale.Place(v)*(width-2*inset) }
	out := strip{gap: 4}
	rings, each := b.Rings(at, ringStep)
	rise := 0.0
	for _, r := range rings {
		rise = max(rise, ringStep*float64(r.Level))
	}
	top := notePitch + leaderDrop
	lowest := top + stripHeight/2 + rise
	axis := lowest + stripHeight/2 + 1
	out.ops = append(out.ops, stroke(at(scale.Lo), axis, at(scale.Hi), axis, rule, grey))
	if b.Target.Label != "" {
		o := stroke(at(float64(b.Target.At)), top, at(float64(b.Target.At)), axis, rule, black)
		o.dashed = true
		out.ops = append(out.ops, o)
	}
	out.ops = append(out.ops, stroke(at(float64(b.Median.At)), top, at(float64(b.Median.At)), axis, 1.4, black))
	for _, r := range rings {
		out.ops = append(out.ops, dotOf(r.X, lowest-ringStep*float64(r.Level), ringRadius, white))
	}
	out.ops = append(out.ops, dotOf(at(float64(b.Own.At)), lowest, ownRadius, solid))
	marks := l.marks(b, at)
	spread(marks, width)
	out.ops = append(out.ops, labelOps(marks, baseline(noteSize, notePitch), black)...)
	for _, x := range marks {
		out.ops = append(out.ops, leader(x, notePitch, top)...)
	}
	var amounts []label
	for _, v := range ticks {
		amounts = append(amounts, l.label(page.Short(int64(v), l.sign),
			l.faces.regular, at(v)))
		out.ops = append(out.ops, stroke(at(v), axis, at(v), axis+2.5, hairline, grey))
	}
	spread(amounts, width)
	out.ops = append(out.ops, labelOps(amounts, axis+2+baseline(noteSize, notePitch), grey)...)
	out.height = axis + 2 + notePitch
	if each > 1 {
		text := fmt.Sprintf("a ring is up to %d pieces", each)
		out.ops = append(out.ops, labelOps([]label{l.label(text, l.faces.regular, 0)}, out.height+
			baseline(noteSize, notePitch), grey)...)
		out.height += notePitch
	}
	return []strip{out}
}

// marks are the words over a strip, from left to right.
func (l layout) marks(b page.Strip, at func(float64) float64) []label {
	var out []label
	for _, x := range []struct {
		page.Point
		face *face
	}{{b.Own, l.faces.bold}, {b.Median, l.faces.regular}, {b.Target, l.faces.regular}} {
		if x.Label != "" {
			out = append(out, l.label(x.Label, x.face, at(float64(x.At))))
		}
	}
	slices.SortStableFunc(out, func(a, b label) int { return cmp.Compare(a.middle, b.middle) })
	return out
}

// roundAmounts are four to eight round amounts, in whole units, from at or below
// a scale's lowest to at or above its highest.
func roundAmounts(scale *page.Scale) []float64 {
	const unit = 100
	step := math.Pow(10, math.Floor(math.Log10(max(unit, (scale.Hi-scale.Lo)/6))))
	for _, times := range []float64{2, 2.5, 2} {
		if (scale.Hi-scale.Lo)/step > 6 {
			step *= times
		}
	}
	step = max(unit, step)
	var out []float64
	for v := math.Floor(scale.Lo/step) * step; ; v += step {
		out = append(out, v)
		if v >= scale.Hi && len(out) > 1 {
			return out
		}
	}
}
