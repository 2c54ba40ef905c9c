package pdf

import "piecebook/report/page"

// The measures of a drawn column.
const (
	drawnLeast, drawnWant = 40.0, 120.0
	drawnInset            = 3.0 // so that a dot at an end is whole
	ringRadius, ownRadius = 1.9, 2.5
	barShare              = 0.58 // of a row's pitch
)

// at is where a value of a drawn column stands.
func (c placedColumn) at(v float64) float64 {
	return c.x + drawnInset + c.Scale.Place(v)*(c.width-2*drawnInset)
}

// drawn is a drawn cell's marks, in a row of the given style.
func (s *setting) drawn(cell page.Cell, col placedColumn) []op {
	d := cell.Drawn
	if d == nil || col.Scale == nil {
		return nil
	}
	thick := s.pitch * barShare
	top := (s.pitch - thick) / 2
	middle := s.pitch / 2
	zero := stroke(col.at(0), 0, col.at(0), s.pitch, hairline, grey)
	zero.tall = true
	out := []op{zero}
	for _, l := range col.Scale.Lines {
		o := stroke(col.at(l.At), 0, col.at(l.At), s.pitch, rule, black)
		o.dashed, o.tall = true, true
		out = append(out, o)
	}
	if b := d.Bar; b != nil && b.From != b.To {
		fill := solid
		if d.Pale {
			fill = pale
		}
		out = append(out, boxOf(col.at(b.From), top, col.at(b.To), top+thick, fill))
	}
	if d.Joined && d.Bar != nil {
		x := col.at(d.Bar.To)
		from := top + thick
		if d.Bar.From == d.Bar.To {
			from = top // nothing is drawn that it could leave from
		}
		o := stroke(x, from, x, s.pitch+top, hairline, accent)
		o.tall = true
		out = append(out, o)
	}
	for _, v := range d.Dots {
		out = append(out, dotOf(col.at(v), middle, ringRadius, white))
	}
	if d.Tick != nil {
		x := col.at(*d.Tick)
		out = append(out, stroke(x, 1, x, s.pitch-1, 1.4, black))
	}
	for _, v := range d.Own {
		out = append(out, dotOf(col.at(v), middle, ownRadius, solid))
	}
	return out
}

// scaleLabel is a level's words over their line.
type scaleLabel struct {
	x, width float64
	text     string
	line     int // 0 the lowest
}

// scaleLabels puts a scale's words over where they stand, each on the lowest
// line that has room; zero is shown wherever something stands left of it, or
// another level is shown.
func (s *setting) scaleLabels(col placedColumn, size float64) []scaleLabel {
	if col.Scale == nil {
		return nil
	}
	levels := col.Scale.Lines
	if col.Scale.Lo < 0 || len(levels) > 0 {
		levels = append([]page.Level{{At: 0, Label: "0"}}, levels...)
	}
	var out []scaleLabel
	for _, l := range levels {
		f := s.faces.regular
		x := scaleLabel{text: f.shorten(f.clean(l.Label), size, col.width)}
		x.width = f.width(x.text, size)
		x.x = min(max(col.x, col.at(l.At)-x.width/2), col.x+col.width-x.width)
		for _, o := range out {
			if x.x < o.x+o.width+3 && o.x < x.x+x.width+3 {
				x.line = max(x.line, o.line+1)
			}
		}
		out = append(out, x)
	}
	return out
}
