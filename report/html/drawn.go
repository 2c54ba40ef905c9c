package html

import (
	"slices"
	"strings"

	"piecebook/report/page"
)

// The measures of drawn cells, bands and strips.
const (
	cellWide, cellHigh = 120.0, 16.0
	wide               = 640.0
	inset              = 4.0
)

// drawnCell is a bar or dots on the column's scale.
func (r *renderer) drawnCell(c page.Cell, col page.Column) *drawing {
	d := c.Drawn
	if d == nil || col.Scale == nil {
		return nil
	}
	x := func(v float64) float64 { return inset + col.Scale.Place(v)*(cellWide-2*inset) }
	out := &drawing{Class: "cell", Width: at(cellWide), Height: at(cellHigh)}
	out.Marks = append(out.Marks, line("axis", x(0), 0, x(0), cellHigh))
	for _, l := range col.Scale.Lines {
		out.Marks = append(out.Marks, line("level", x(l.At), 0, x(l.At), cellHigh))
	}
	if b := d.Bar; b != nil && b.From != b.To {
		fill := "solid"
		if d.Pale {
			fill = "pale"
		}
		out.Marks = append(out.Marks, rect(fill, x(b.From), 3, x(b.To), cellHigh-3))
	}
	for _, v := range d.Dots {
		out.Marks = append(out.Marks, circle("ring", x(v), cellHigh/2, 3))
	}
	if d.Tick != nil {
		out.Marks = append(out.Marks, line("tick", x(*d.Tick), 1, x(*d.Tick), cellHigh-1))
	}
	for _, v := range d.Own {
		out.Marks = append(out.Marks, circle("solid", x(v), cellHigh/2, 4))
	}
	return out
}

// timeline is a band of stretches; their names and the days stand under it as a
// sentence, which has room on any screen.
func (r *renderer) timeline(b page.Timeline) {
	told := b.Fallback()
	if len(told) == 0 {
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
		var names []string
		for i, s := range b.Stretches {
			fill := []string{"ring", "pale"}[i%2]
			if s.Strong {
				fill = "solid"
			}
			marks = append(marks, rect(fill, x(s.From), 1, x(s.To), 15))
			names = append(names, s.Label)
		}
		r.put("chart", struct {
			Caption string
			Drawing drawing
		}{"", r.named("Time", strings.Join(names, ", ")+".", wide, 16, marks)})
		r.put("chartend", "")
	}
	r.blocks(told)
}

// strip is points on one scale. The sentence beside it prints what is marked.
func (r *renderer) strip(b page.Strip) {
	const top, high = 18.0, 14.0
	all := []float64{float64(b.Own.At), float64(b.Median.At)}
	for _, p := range b.Points {
		all = append(all, float64(p))
	}
	if b.Target.Label != "" {
		all = append(all, float64(b.Target.At))
	}
	scale := page.ScaleOf(all...)
	x := func(v int64) float64 { return 30 + scale.Place(float64(v))*(wide-60) }
	marks := []mark{line("axis", x(int64(scale.Lo)), top+high+2, x(int64(scale.Hi)), top+high+2)}
	amount := func(v float64) string {
		return strings.TrimSuffix(page.Amount(int64(v), r.sign, true), ".00")
	}
	for _, v := range slices.Compact([]float64{scale.Lo, 0, scale.Hi}) {
		marks = append(marks, words("", x(int64(v)), top+high+16, "middle", amount(v)))
	}
	for _, p := range b.Points {
		marks = append(marks, circle("ring", x(p), top+high/2, 4))
	}
	told := []string{}
	mark := func(p page.Point, m mark) {
		if p.Label != "" {
			marks = append(marks, m)
			told = append(told, p.Label)
		}
	}
	mark(b.Target, line("level", x(b.Target.At), top, x(b.Target.At), top+high))
	mark(b.Median, line("tick", x(b.Median.At), top-2, x(b.Median.At), top+high))
	mark(b.Own, circle("solid", x(b.Own.At), top+high/2, 5))
	if b.Own.Label != "" {
		marks = append(marks, words("strong", x(b.Own.At), top-6, anchorAt(x(b.Own.At)), b.Own.Label))
	}
	r.put("chart", struct {
		Caption string
		Drawing drawing
	}{"", r.named("Among its kind", strings.Join(told, "; ")+". A ring each for the others.", wide, top+high+20, marks)})
	r.put("chartend", "")
}

// anchorAt keeps words near an end of a drawing within it.
func anchorAt(x float64) string {
	switch {
	case x < wide/5:
		return "start"
	case x > wide*4/5:
		return "end"
	}
	return "middle"
}
