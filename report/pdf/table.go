package pdf

import (
	"slices"

	"piecebook/report/page"
)

// setting is a table being laid out: its columns placed, its size chosen.
type setting struct {
	layout
	table  page.Table
	width  float64
	pitch  float64
	gap    float64 // between its columns
	cols   []placedColumn
	signed int // the row that shows the currency sign first; -1 none
}

// placedColumn is a column's room.
type placedColumn struct {
	page.Column
	x, width float64
	integer  float64 // widest part before the decimals end: where numbers align
	tail     float64 // widest part after
	hang     float64 // of that, a bracket's
}

// fiveRows is after how many rows a long table has a little white.
const fiveRows = 5

func (l layout) table(t page.Table, width float64) []strip {
	if t.Span > 0 {
		width = span(width, t.Span)
	}
	s := setting{layout: l, table: t, width: width}
	if !s.fit() && len(t.Columns) > 2 {
		return l.folded(s, width)
	}
	s.signed = firstAmounts(t.Rows)
	var out []strip
	if t.Caption != "" {
		out = l.heading(page.Heading{Text: t.Caption, Level: 1}, width)
	}
	head := s.head()
	for i := range head {
		head[i].keep = true
	}
	out = append(out, head...)
	out = append(out, s.rows(head)...)
	if t.Note != "" {
		if len(out) > 0 {
			out[len(out)-1].keep = true
		}
		note := l.lines(t.Note, l.faces.regular, noteSize, notePitch, 0, width, grey)
		note[0].gap = 3
		out = append(out, note...)
	}
	if len(out) == 0 {
		return nil
	}
	if t.Caption == "" {
		out[0].gap += bodyPitch * 0.75
	}
	if t.Whole {
		out = held(out, l.sheet.bodyHeight())
	}
	return out
}

// folded sets a table that is too wide at the smallest type in parts under each
// other, as many of its columns in each as fit, the first in all. Columns that
// alone are too wide have their words and figures broken.
func (l layout) folded(s setting, width float64) []strip {
	whole, all := s.table, make([]int, len(s.table.Columns))
	for i := range all {
		all[i] = i
	}
	n := len(all) - 1
	for ; n > 2; n-- {
		if s.table = whole.Of(all[:n]); s.fit() {
			break
		}
	}
	first, rest := whole.Of(all[:n]), whole.Of(append([]int{0}, all[n:]...))
	first.Note, rest.Caption, first.Span, rest.Span = "", "", 0, 0
	for i := range rest.Rows {
		rest.Rows[i].Note, rest.Rows[i].Anchor = "", "" // they stand in the first part
	}
	return append(l.table(first, width), l.table(rest, width)...)
}

// firstAmounts is the first row with an amount in it: the one that shows the
// currency sign. -1 where there is none.
func firstAmounts(rows []page.Row) int {
	return slices.IndexFunc(rows, func(r page.Row) bool {
		return slices.ContainsFunc(r.Cells, func(c page.Cell) bool { return c.Kind == page.KindMoney })
	})
}

// rows is the rows' strips, with what they must stay together with: the first
// two with the head, the last two, and a total with the line above it.
func (s *setting) rows(head []strip) []strip {
	var out []strip
	rows := s.table.Rows
	normal := 0
	// Rows with notes have white enough between them.
	long := s.tight == 0 && len(rows) > 2*fiveRows && !slices.ContainsFunc(rows,
		func(r page.Row) bool { return r.Note != "" })
	for i, row := range rows {
		strips := s.row(i, row)
		for j := range strips {
			strips[j].repeat = head
		}
		if row.Style == page.Normal {
			if normal > 0 && normal%fiveRows == 0 && long {
				strips[0].gap += s.pitch / 3
			}
			normal++
		} else {
			normal = 0
		}
		last := &strips[len(strips)-1]
		last.keep = i+1 < len(rows) && (i == 0 || i == len(rows)-2 || row.Style == page.Group || rows[i+1].Style.Summing())
		out = append(out, strips...)
	}
	return out
}

// head is the columns' heads, set on the line above a hairline. A drawn
// column's scale is shown under its head.
func (s *setting) head() []strip {
	if s.table.NoHead {
		return nil
	}
	const pitch = 10.5
	deep := 0
	wrapped := make([][]string, len(s.cols))
	labels := make([][]scaleLabel, len(s.cols))
	for i, c := range s.cols {
		labels[i] = s.scaleLabels(c, noteSize)
		wrapped[i] = s.faces.bold.wrap(s.faces.bold.clean(c.Head), tableSize, c.width)
		deep = max(deep, len(wrapped[i])+levelLines(labels[i]))
	}
	out := strip{height: float64(deep)*pitch + 4}
	for i, c := range s.cols {
		base := func(line int) float64 { return float64(line)*pitch + baseline(tableSize, pitch) }
		for _, l := range labels[i] {
			out.ops = append(out.ops, op{x: l.x, y: base(deep - 1 - l.line), text: l.text, face: s.faces.regular, size: noteSize,
				ink: grey})
		}
		under := levelLines(labels[i])
		for j, line := range wrapped[i] {
			if line == "" {
				continue
			}
			o := op{x: c.x, y: base(deep - under - len(wrapped[i]) + j), text: line, face: s.faces.bold, size: tableSize,
				ink: accent}
			if c.rightward() {
				o.x = max(c.x, c.digitsEnd()-s.faces.bold.width(line, o.size))
				o.x = min(o.x, c.x+c.width-s.faces.bold.width(line, o.size))
			}
			out.ops = append(out.ops, o)
		}
	}
	out.ops = append(out.ops, op{x: 0, toX: s.width, y: out.height - 2, thick: hairline, ink: grey})
	return []strip{out}
}

// levelLines is on how many lines a scale's words stand.
func levelLines(labels []scaleLabel) int {
	n := 0
	for _, l := range labels {
		n = max(n, l.line+1)
	}
	return n
}

// rightward says that a column's cells stand at its right.
func (c placedColumn) rightward() bool {
	if c.Align != page.AlignByKind {
		return c.Align == page.AlignRight
	}
	return c.Kind == page.KindMoney || c.Kind == page.KindNumber
}

// digitsEnd is where the digits of a column of figures end: left of the room
// for a hanging bracket, where there is one.
func (c placedColumn) digitsEnd() float64 { return c.x + c.width - c.hang }
