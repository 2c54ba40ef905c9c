package page

import "math"

// Drawn is what a cell of a drawn column shows, on its column's scale. The
// numbers it draws are floats, for drawing alone: each is printed exactly in
// another cell of its row.
type Drawn struct {
	// Bar is from one value to another; a build-up's bar begins where the last
	// one ended.
	Bar *Interval
	// Pale is a bar that takes away or stands beside: an outline with a light
	// fill, where others are solid. Distinct without color.
	Pale bool
	// Joined leads a hairline from the bar's end down to the next row's.
	Joined bool
	// Dots are points, each shown; Own are those the page is about, solid where
	// the others are rings.
	Dots, Own []float64
	// Tick is a stroke across the row: the median.
	Tick *float64
}

// Interval is a stretch of a scale.
type Interval struct{ From, To float64 }

// Scale is what the cells of a drawn column are drawn on. Zero is always on
// it, and always marked.
type Scale struct {
	Lo, Hi float64
	Lines  []Level // across all rows, shown in the head: a target
}

// Level is a value with its words.
type Level struct {
	At    float64
	Label string
}

// ScaleOf is a scale from zero that holds all the values.
func ScaleOf(values ...float64) *Scale {
	s := &Scale{}
	for _, v := range values {
		s.Lo, s.Hi = math.Min(s.Lo, v), math.Max(s.Hi, v)
	}
	return s
}

// Place is where a value stands on the scale, from 0 to 1.
func (s *Scale) Place(v float64) float64 {
	if s == nil || s.Hi <= s.Lo {
		return 0
	}
	return min(1, max(0, (v-s.Lo)/(s.Hi-s.Lo)))
}

// Draw is a drawn cell.
func Draw(d Drawn) Cell { return Cell{Kind: KindDrawn, Drawn: &d} }

// Plain is the table without its drawn columns and page numbers, for renderers
// that cannot draw and have no pages: what is drawn is printed in the other cells.
func (t Table) Plain() Table {
	return t.only(func(c Column) bool { return c.Kind != KindDrawn && !c.Paper })
}

// Pageless is the table without its columns of page numbers, for renderers that
// draw and have no pages.
func (t Table) Pageless() Table { return t.only(func(c Column) bool { return !c.Paper }) }

// only is the table with the columns that are kept.
func (t Table) only(kept func(Column) bool) Table {
	keep := make([]int, 0, len(t.Columns))
	for i, c := range t.Columns {
		if kept(c) {
			keep = append(keep, i)
		}
	}
	if len(keep) == len(t.Columns) {
		return t
	}
	return t.Of(keep)
}

// Of is the table with the given columns alone, in that order.
func (t Table) Of(keep []int) Table {
	out := t
	out.Columns, out.Rows = make([]Column, len(keep)), make([]Row, len(t.Rows))
	for i, from := range keep {
		out.Columns[i] = t.Columns[from]
	}
	for i, r := range t.Rows {
		out.Rows[i] = r
		out.Rows[i].Cells = nil
		for _, from := range keep {
			if from < len(r.Cells) {
				out.Rows[i].Cells = append(out.Rows[i].Cells, r.Cells[from])
			}
		}
	}
	return out
}
