package html

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"piecebook/report/page"
)

// The measures of drawn cells, bands and strips.
const (
	cellWide = 120.0
	wide     = 640.0
	inset    = 4.0
)

// barUnits are how many units of style.css's bars a drawn cell is wide.
const barUnits = 56

// barClass says a bar that starts at the left on a scale from zero, which
// needs no drawing: style.css makes it as far in and as wide. Blank: draw it.
func barClass(c page.Cell, col page.Column) string {
	d, scale := c.Drawn, col.Scale
	if d == nil || d.Bar == nil || scale == nil || scale.Lo < 0 || len(scale.Lines)+len(d.Dots)+len(d.Own) > 0 ||
		d.Tick != nil {
		return ""
	}
	place := func(v float64) int { return int(math.Round(scale.Place(v) * barUnits)) }
	from, to := place(min(d.Bar.From, d.Bar.To)), place(max(d.Bar.From, d.Bar.To))
	class := "w" + strconv.Itoa(to-from)
	if from > 0 {
		class = "b" + strconv.Itoa(from) + " " + class
	}
	if !d.Pale {
		class = "c " + class
	}
	return class
}

// barRules are the rules of style.css for how far in and how wide bars are.
func barRules() string {
	var out strings.Builder
	for i := range barUnits + 1 {
		fmt.Fprintf(&out, ".b%d:before{margin-left:%dpx}.w%d:before{width:%dpx}", i, 2*i, i, max(2, 2*i))
	}
	return out.String()
}

// drawnCell writes a bar or dots on the column's scale, in units of its size in
// style.css. What it shows is printed beside it.
func (r *renderer) drawnCell(c page.Cell, col page.Column) {
	d := c.Drawn
	if d == nil || col.Scale == nil {
		return
	}
	x := func(v float64) string { return whole(inset + col.Scale.Place(v)*(cellWide-2*inset)) }
	upright := func(v float64) string { return "M" + x(v) + ",0v16" }
	class, path, lines := "c", upright(0), ""
	if b := d.Bar; b != nil && b.From != b.To {
		if d.Pale {
			class = ""
		}
		path += "M" + x(b.From) + ",3H" + x(b.To) + "v10H" + x(b.From) + "z"
	}
	for _, l := range col.Scale.Lines {
		lines += upright(l.At)
	}
	r.raw("<svg")
	r.attribute("class", class)
	r.raw(" aria-hidden=true>")
	r.path("", path)
	r.path("level", lines)
	r.path("dots", dots(d.Dots, x, "8"))
	if d.Tick != nil {
		r.path("tick", upright(*d.Tick))
	}
	r.path("own", dots(d.Own, x, "8"))
	r.raw("</svg>")
}

// path writes a path of a cell's drawing; nothing where there is none.
func (r *renderer) path(class, d string) {
	if d != "" {
		r.raw("<path")
		r.attribute("class", class)
		r.raw(" d=" + d + " />")
	}
}

// whole is a length to the unit.
func whole(v float64) string { return strconv.Itoa(int(math.Round(v))) }

// dots is a path of points, which are drawn as dots by their line's round ends.
func dots(values []float64, x func(float64) string, y string) string {
	var b strings.Builder
	for _, v := range values {
		b.WriteString("M" + x(v) + "," + y + "h0")
	}
	return b.String()
}

// timeline is a band of stretches; their names and the days stand under it as a
// sentence, which has room on any screen.
func (r *renderer) timeline(b page.Timeline) {
	shown := b.Fallback()
	if len(shown) == 0 {
		return
	}
	var ends []float64
	for _, x := range b.Stretches {
		ends = append(ends, x.From, x.To)
	}
	if len(ends) > 0 && slices.Max(ends) > slices.Min(ends) {
		lo, hi := slices.Min(ends), slices.Max(ends)
		x := func(v float64) float64 { return 1 + (v-lo)/(hi-lo)*(wide-2) }
		var marks []mark
		for i, s := range b.Stretches {
			fill := []string{"ring", "pale"}[i%2]
			if s.Strong {
				fill = "solid"
			}
			marks = append(marks, rect(fill, x(s.From), 1, x(s.To), 15))
		}
		r.put("alone", r.named("Time", "", wide, 16, marks))
		r.put("described", headingView{ID: fmt.Sprintf("g%d", r.drawn), Text: shown[0].(page.Paragraph).Text})
		return
	}
	r.blocks(shown)
}

// strip is points on one scale. The sentence beside it prints what is marked.
func (r *renderer) strip(b page.Strip) {
	const top, wide, dotStep = 18.0, 360.0, 7.0 // it stands beside something else
	all := []float64{float64(b.Own.At), float64(b.Median.At)}
	for _, p := range b.Points {
		all = append(all, float64(p))
	}
	if b.Target.Label != "" {
		all = append(all, float64(b.Target.At))
	}
	scale := page.ScaleOf(all...)
	place := func(v float64) float64 { return 30 + scale.Place(v)*(wide-60) }
	x := func(v int64) float64 { return place(float64(v)) }
	rings, each := b.Rings(place, dotStep)
	high := 14.0
	for _, p := range rings {
		high = max(high, 14+dotStep*float64(p.Level))
	}
	marks := []mark{line("axis", x(int64(scale.Lo)), top+high+2, x(int64(scale.Hi)), top+high+2)}
	amount := func(v float64) string { return page.Short(int64(v), r.sign) }
	for _, v := range slices.Compact([]float64{scale.Lo, 0, scale.Hi}) {
		marks = append(marks, words("", x(int64(v)), top+high+16, "middle", amount(v)))
	}
	var others strings.Builder
	for _, p := range rings {
		others.WriteString(dots([]float64{p.X}, whole, at(top+high-7-dotStep*float64(p.Level))))
	}
	marks = append(marks, mark{Shape: "path", Class: "dots", D: others.String()})
	shown := []string{}
	mark := func(p page.Point, m mark) {
		if p.Label != "" {
			marks = append(marks, m)
			shown = append(shown, p.Label)
		}
	}
	mark(b.Target, line("level", x(b.Target.At), top, x(b.Target.At), top+high))
	mark(b.Median, line("tick", x(b.Median.At), top-2, x(b.Median.At), top+high))
	mark(b.Own, circle("solid", x(b.Own.At), top+high-7, 5))
	if b.Own.Label != "" {
		marks = append(marks, words("strong", x(b.Own.At), top-6, anchorAt(x(b.Own.At), wide), b.Own.Label))
	}
	d := r.named("Among its kind", strings.Join(shown, "; ")+". "+dotsMean(each), wide, top+high+20, marks)
	d.Class = "strip"
	r.put("alone", d)
}

// dotsMean says what a dot of a strip is.
func dotsMean(each int) string {
	if each == 1 {
		return "A dot each for the others."
	}
	return fmt.Sprintf("A dot for up to %d others.", each)
}

// anchorAt keeps words near an end of a drawing so wide within it.
func anchorAt(x, wide float64) string {
	switch {
	case x < wide/5:
		return "start"
	case x > wide*4/5:
		return "end"
	}
	return "middle"
}
