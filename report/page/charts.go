package page

import (
	"cmp"
	"slices"
)

// The charts. Each says in its Fallback the same numbers as a table, and each
// begins at zero. Bars and Dots are nothing but tables with a drawn column,
// so they break over pages, repeat their heads and wrap their words as tables do.

// Bar is one row of Bars.
type Bar struct {
	Label  string
	Figure Cell
	// Of money that has the figure itself, the bar needs no value; else this.
	Value float64
	Style RowStyle
	Pale  bool
	Link  string
	Note  string
}

// Bars are amounts with a bar each, from zero on a common scale.
type Bars struct {
	Caption string
	Heads   [2]string // over the labels and the figures
	Rows    []Bar
	Note    string
	Span    int // of the six columns; 0: all
}

// Fallback is the rows as a table with a drawn column.
func (b Bars) Fallback() []Block {
	kind := KindMoney
	values := make([]float64, len(b.Rows))
	scale := ScaleOf()
	for i, r := range b.Rows {
		values[i] = r.value()
		kind = r.Figure.Kind
		if !r.Style.Summing() {
			scale = ScaleOf(scale.Lo, scale.Hi, values[i])
		}
	}
	t := Table{Caption: b.Caption, Note: b.Note, Span: b.Span, Whole: true, NoHead: b.Heads == [2]string{},
		Columns: Heads{}.Text(b.Heads[0]).With(Column{Head: b.Heads[1], Kind: kind}).Drawn(1, scale, "")}
	for i, r := range b.Rows {
		row := Row{Style: r.Style, Note: r.Note, Cells: []Cell{TextTo(r.Label, r.Link), r.Figure}}
		if !r.Style.Summing() {
			row.Cells = append(row.Cells, Draw(Drawn{Bar: &Interval{0, values[i]}, Pale: r.Pale}))
		}
		t.Rows = append(t.Rows, row)
	}
	return []Block{t}
}

func (r Bar) value() float64 {
	if r.Figure.Kind == KindMoney {
		return float64(r.Figure.Cents)
	}
	return r.Value
}

// DotRow is one kind with all its points.
type DotRow struct {
	Label  string
	Link   string
	Points []int64 // in cents, each shown
	Own    []int64 // in cents, drawn apart from the others; they are not in Points
	Median Cell    // as printed; what is marked is its amount
}

// Dots shows every point of each kind, its number, its median and the range.
// Target, where it has a Label, is a line across all kinds.
type Dots struct {
	Caption string
	Of      string // what a row is: Kind
	Points  string // what a point is: An hour before shop costs
	Rows    []DotRow
	Target  Level // in cents
	Note    string
	// Rings is whether the head tells what the marks are, as of the first of
	// several on a page.
	Rings bool
}

// Fallback is the rows as a table with a drawn column: the number of points,
// the lowest, the median and the highest are printed.
func (d Dots) Fallback() []Block {
	scale := ScaleOf(d.Target.At)
	for _, r := range d.Rows {
		scale = ScaleOf(append(floats(slices.Concat(r.Points, r.Own)), scale.Lo, scale.Hi)...)
	}
	if d.Target.Label != "" {
		scale.Lines = []Level{d.Target}
	}
	t := Table{Caption: d.Caption, Note: d.Note, Columns: Heads{}.Text(cmp.Or(d.Of, "Kind")).Number("Pieces").
		Money("Lowest", "Median", "Highest").Drawn(1, scale, d.Points)}
	for _, r := range d.Rows {
		all := slices.Concat(r.Points, r.Own)
		cells := []Cell{TextTo(r.Label, r.Link), Number(itoa(len(all)))}
		if len(all) == 0 {
			t.Add(cells...)
			continue
		}
		drawn := Drawn{Dots: floats(r.Points), Own: floats(r.Own)}
		if r.Median.Kind == KindMoney {
			at := float64(r.Median.Cents)
			drawn.Tick = &at
		}
		t.Add(append(cells, FullMoney(slices.Min(all)), r.Median, FullMoney(slices.Max(all)), Draw(drawn))...)
	}
	if d.Rings {
		words := ": a ring each, a stroke at the median"
		if slices.ContainsFunc(d.Rows, func(r DotRow) bool { return len(r.Own) > 0 }) {
			words += ", a solid dot this one"
		}
		t.Columns[5].Head += words
	}
	return []Block{t}
}

func floats(cents []int64) []float64 {
	out := make([]float64, len(cents))
	for i, c := range cents {
		out[i] = float64(c)
	}
	return out
}

// VerticalBar is one of VerticalBars: a month with its amount.
type VerticalBar struct {
	Label  string // under it; a line feed separates two lines
	Figure Cell   // of money, printed at its end
	Strong bool   // the one the page is about: solid, where others are pale
}

// VerticalBars are standing bars beside each other from one zero line, each with
// its amount printed at its end: twelve months. Level, where it has a Label,
// is a line across. Where the amounts have no room beside each other, Fallback
// is shown.
type VerticalBars struct {
	Caption string
	Head    string // of the amounts, in the table instead
	Items   []VerticalBar
	Level   Level // in cents
	Note    string
	// LevelTold says that the caption tells what the line is.
	LevelTold bool
}

// Fallback is the amounts as a table.
func (u VerticalBars) Fallback() []Block {
	t := Table{Caption: u.Caption, Note: u.Note, Whole: true, Span: 3, Columns: Heads{}.Wide(1, "").Money(u.Head)}
	for _, x := range u.Items {
		t.Add(Text(oneLine(x.Label)), x.Figure)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []Block{t}
}

// Photo is a picture made ready to print, or why there is none.
type Photo struct {
	Caption       string
	Name          string // as its record has it, for renderers that cannot show it
	JPEG          []byte // upright and small already; nil where Missing
	Width, Height int    // in pixels
	Missing       string // why it cannot be shown, for the owner
}

// Photos stand beside each other at the same height.
type Photos struct {
	Caption string
	Items   []Photo
}

// Fallback says which pictures there are.
func (p Photos) Fallback() []Block {
	out := Facts{Columns: 1}
	for _, x := range p.Items {
		value := x.Name + " (shown on paper)"
		if x.JPEG == nil {
			value = x.Missing
		}
		out.Items = append(out.Items, Fact{Label: x.Caption, Value: value})
	}
	if len(out.Items) == 0 {
		return nil
	}
	if p.Caption == "" {
		return []Block{out}
	}
	return []Block{Heading{Text: p.Caption, Level: 1}, out}
}
