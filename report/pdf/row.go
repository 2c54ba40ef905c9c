package pdf

import (
	"piecebook/report/page"
)

// indentStep is how far a step of a row's indent goes.
const indentStep = 10.0

// row is a row's strips: one, or where it is very tall one a line.
func (s *setting) row(i int, row page.Row) []strip {
	out := strip{height: s.pitch, ops: make([]op, 0, len(row.Cells)+2)}
	top := 0.0
	switch row.Style {
	case page.Group:
		out.gap = 3
	case page.Subtotal:
		top = 1.5
	case page.Total, page.GrandTotal:
		top = 2.5
	}
	if row.Anchor != "" {
		out.anchors = []string{row.Anchor}
	}
	out.height += top
	for c := range min(len(row.Cells), len(s.cols)) {
		ops, height := s.cell(i, row, c)
		for k := range ops {
			ops[k].y += top
		}
		out.ops = append(out.ops, ops...)
		out.height = max(out.height, height+top)
	}
	if row.Style.Summing() {
		s.ruled(&out, row)
	}
	if row.Note != "" {
		x := indentStep * float64(row.Indent+1)
		note, height := merged(s.lines(row.Note, s.faces.regular, noteSize, notePitch, x, s.width-x, grey))
		for k := range note {
			note[k].y += out.height - 0.5
		}
		out.ops = append(out.ops, note...)
		out.height += height + 2
	}
	for i, o := range out.ops {
		if o.tall {
			out.ops[i].rise += out.height - s.pitch - top
		}
	}
	if out.height > s.sheet.bodyHeight()/3 {
		return parted(out, s.pitch)
	}
	return []strip{out}
}

// ruled draws the rules of a total over, and of a grand total under, those of
// its cells that hold figures.
func (s *setting) ruled(out *strip, row page.Row) {
	thick := rule
	if row.Style == page.Subtotal {
		thick = hairline
	}
	for c := range min(len(row.Cells), len(s.cols)) {
		if k := row.Cells[c].Kind; k != page.KindMoney && k != page.KindNumber || row.Cells[c].IsEmpty() {
			continue
		}
		col := s.cols[c]
		line := op{x: col.x, toX: col.x + col.width, y: 0.8, thick: thick, ink: black}
		out.ops = append(out.ops, line)
		if row.Style == page.GrandTotal {
			for _, y := range []float64{out.height + 0.6, out.height + 2.2} {
				line.y = y
				out.ops = append(out.ops, line)
			}
		}
	}
	if row.Style == page.GrandTotal {
		out.height += 4
	}
}

// cell is one cell's marks and its height.
func (s *setting) cell(i int, row page.Row, c int) ([]op, float64) {
	cell, col := row.Cells[c], s.cols[c]
	if col.Kind == page.KindDrawn {
		return s.drawn(cell, col), s.pitch
	}
	if cell.IsEmpty() {
		return nil, 0
	}
	o := op{face: s.faces.regular, size: tableSize, ink: black, y: baseline(tableSize, s.pitch), link: cell.Link}
	switch row.Style {
	case page.Group:
		o.face, o.ink = s.faces.bold, accent
	case page.Total, page.GrandTotal:
		o.face = s.faces.bold
	case page.Quiet:
		o.ink = grey
	}
	if col.Small {
		o.size = refSize
		o.ink = grey
	}
	if cell.Kind == page.KindMoney || cell.Kind == page.KindNumber {
		if figure, ok := s.figure(o, cell, col, s.shows(i, row)); ok {
			return []op{figure}, s.pitch
		}
	}
	return s.words(o, cell.String(s.sign), row, c)
}

// shows says that a row's amounts have the currency sign: on the first line
// and on totals.
func (s *setting) shows(i int, row page.Row) bool {
	return s.signed == i || row.Style == page.Total || row.Style == page.GrandTotal
}

// figure places a number so that decimals stand under each other; not, where
// it is wider than its column.
func (s *setting) figure(o op, cell page.Cell, col placedColumn, sign bool) (op, bool) {
	shown := ""
	if sign {
		shown = s.sign
	}
	o.text = o.face.clean(cell.String(shown))
	before, _ := page.Parts(o.text, cell.Kind)
	end := col.x + col.width - col.tail
	if !col.rightward() {
		end = col.x + o.face.width(before, o.size)
	}
	o.x = end - o.face.width(before, o.size)
	fits := o.x >= col.x-0.01 && o.x+o.face.width(o.text, o.size) <= col.x+col.width+0.01
	return o, fits
}

// words wraps a cell's text into its column, or, of a group's heading, over
// all columns.
func (s *setting) words(o op, text string, row page.Row, c int) ([]op, float64) {
	col := s.cols[c]
	x, width := col.x, col.width
	if c == 0 {
		x += indentStep * float64(row.Indent)
		last := s.cols[row.Spans(len(s.cols))-1]
		width = last.x + last.width - x
	}
	lines := o.face.wrap(o.face.clean(text), o.size, max(width, o.size))
	if col.OneLine && len(lines) > 1 {
		lines = []string{o.face.shorten(o.face.clean(text), o.size, width)}
	}
	pitch := s.pitch
	if col.Small {
		pitch = min(refPitch, s.pitch)
	}
	out := make([]op, len(lines))
	for j, line := range lines {
		out[j] = o
		out[j].text, out[j].x, out[j].y = line, x, o.y+float64(j)*pitch
		if col.rightward() && row.Style != page.Group {
			out[j].x = max(x, col.digitsEnd()-o.face.width(line, o.size))
		}
	}
	return out, s.pitch + float64(len(lines)-1)*pitch
}

// parted cuts a strip too tall to move whole into lines.
func parted(s strip, pitch float64) []strip {
	n := int(s.height/pitch) + 1
	out := make([]strip, n)
	for i := range out {
		out[i] = strip{height: min(pitch, s.height-float64(i)*pitch), keep: i == 0 || i == n-2, repeat: s.repeat}
	}
	out[0].gap, out[0].fresh, out[0].anchors, out[0].marks = s.gap, s.fresh, s.anchors, s.marks
	out[0].begins, out[0].section = s.begins, s.section
	out[n-1].keep = s.keep
	for _, o := range s.ops {
		// Words go where their tops are, so that none reaches up into a head.
		top := o.y
		if o.text != "" {
			top -= 0.8 * o.size
		}
		i := min(n-1, max(0, int(top/pitch)))
		o.y -= float64(i) * pitch
		out[i].ops = append(out[i].ops, o)
	}
	return out
}
