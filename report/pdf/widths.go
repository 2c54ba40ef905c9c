package pdf

import "piecebook/report/page"

// smallestTable is how small a table's words may become before its words are
// parted instead.
const smallestTable = 5.5

// fit chooses the table's size and places its columns: figures and dates never
// wrap, words share what is left. A table too wide for that is set smaller.
func (s *setting) fit() {
	s.cols = make([]placedColumn, len(s.table.Columns))
	for s.size = tableSize; ; s.size -= 0.5 {
		s.pitch = s.rowPitch() * s.size / tableSize
		if s.place() || s.size <= smallestTable {
			return
		}
	}
}

// headWidest is how far a head stretches its column before it wraps.
const headWidest = 62.0

// room is what a column asks for.
type room struct {
	least, want float64
	fixed       bool
}

// place gives the columns their room; false where words would have to be
// parted, or figures not fit.
func (s *setting) place() bool {
	rooms := make([]room, len(s.cols))
	have := s.width - columnGap*float64(max(0, len(s.cols)-1))
	least, want := 0.0, 0.0
	for i, c := range s.table.Columns {
		s.cols[i] = placedColumn{Column: c}
		rooms[i] = s.ask(i, have)
		least += rooms[i].least
		want += rooms[i].want
	}
	fits := least <= have
	switch {
	case want <= have:
		s.spare(rooms, have-want)
	case fits:
		s.share(rooms, have-least)
	default:
		for i := range rooms {
			s.cols[i].width = rooms[i].least * have / least
		}
	}
	x := 0.0
	for i := range s.cols {
		s.cols[i].x = x
		x += s.cols[i].width + columnGap
	}
	return fits
}

// share gives the columns the least they need, and of what is left as much to
// each as it wants, up to the same for all: a short column is not narrowed for
// a long one's sake.
func (s *setting) share(rooms []room, left float64) {
	open := len(rooms)
	for i := range rooms {
		s.cols[i].width = rooms[i].least
	}
	for left > 0.01 && open > 0 {
		each := left / float64(open)
		open = 0
		for i, r := range rooms {
			more := min(each, r.want-s.cols[i].width)
			if more <= 0 {
				continue
			}
			s.cols[i].width += more
			left -= more
			if s.cols[i].width < r.want {
				open++
			}
		}
	}
}

// spare gives the columns what they want, and what is left to those with a
// weight, or to the first column of words.
func (s *setting) spare(rooms []room, left float64) {
	weights, first := 0, -1
	for i, c := range s.cols {
		weights += c.Weight
		if first < 0 && !rooms[i].fixed {
			first = i
		}
	}
	for i := range s.cols {
		s.cols[i].width = rooms[i].want
		switch {
		case weights > 0:
			s.cols[i].width += left * float64(s.cols[i].Weight) / float64(weights)
		case i == first:
			s.cols[i].width += left
		}
	}
}

// ask measures a column's cells.
func (s *setting) ask(i int, have float64) room {
	c := &s.cols[i]
	if c.Kind == page.KindDrawn {
		return room{least: drawnLeast, want: drawnWant, fixed: true}
	}
	headSize := s.size
	head := s.faces.bold.longestWord(s.faces.bold.clean(c.Head), headSize)
	if s.table.NoHead {
		head = 0
	}
	r := room{least: head, want: head, fixed: c.Kind != page.KindText}
	if c.Kind == page.KindMoney {
		c.tail = s.faces.regular.width(".00)", s.size)
	}
	for _, row := range s.table.Rows {
		if i < len(row.Cells) && (i > 0 || row.Spans(len(s.cols)) == 1) && row.Style != page.Group {
			s.askCell(i, row, &r)
		}
	}
	r.least = max(r.least, c.integer+c.tail)
	if !s.table.NoHead {
		r.want = max(r.want, min(s.faces.bold.width(s.faces.bold.clean(c.Head), headSize), headWidest))
	}
	if !r.fixed {
		// A word of unreasonable length is parted rather than starving the others.
		most := have / 4
		if i == 0 || c.OneLine {
			most = have * 0.36
		}
		r.least = min(r.least, most)
		r.want = min(r.want, have*0.6)
	}
	r.want = max(r.want, r.least)
	return r
}

// askCell widens a column's room for one cell.
func (s *setting) askCell(i int, row page.Row, r *room) {
	cell, c := row.Cells[i], &s.cols[i]
	f, size := s.faces.regular, s.size
	if row.Style == page.Total || row.Style == page.GrandTotal {
		f = s.faces.bold
	}
	if c.Small {
		size = min(refSize, size)
	}
	text := f.clean(cell.String(s.sign))
	switch {
	case cell.Kind == page.KindMoney || cell.Kind == page.KindNumber:
		before, after := page.Parts(text, cell.Kind)
		c.integer = max(c.integer, f.width(before, size))
		c.tail = max(c.tail, f.width(after, size))
	case r.fixed:
		r.least = max(r.least, f.width(text, size))
	default:
		indent := 0.0
		if i == 0 {
			indent = indentStep * float64(row.Indent)
		}
		least := f.longestWord(text, size) + indent
		if c.OneLine {
			least = f.width(text, size) + indent
		}
		r.least = max(r.least, least)
		r.want = max(r.want, f.width(text, size)+indent)
	}
}
