package pdf

import (
	"strings"

	"piecebook/report/page"
)

// How close the columns of a table stand that is too wide otherwise, and of one
// with many of them, whose room is better used in them.
const (
	closestColumns = 4.0
	manyColumns    = 8
)

// fit places the table's columns: figures and dates never wrap, words share
// what is left. Columns stand closer where that is enough to keep all words on
// one line. It says whether they fit.
func (s *setting) fit() bool {
	s.cols = make([]placedColumn, len(s.table.Columns))
	s.pitch = s.rowPitch()
	rooms := s.rooms()
	for s.gap = columnGap; s.gap >= closestColumns; s.gap-- {
		if _, whole := s.place(rooms); whole {
			return true
		}
	}
	s.gap = columnGap
	if len(s.cols) > manyColumns {
		s.gap = closestColumns
	}
	for ; ; s.gap-- {
		if fits, _ := s.place(rooms); fits || s.gap <= closestColumns {
			return fits
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

// rooms measures the columns' cells.
func (s *setting) rooms() []room {
	out := make([]room, len(s.cols))
	for i, c := range s.table.Columns {
		s.cols[i] = placedColumn{Column: c}
		out[i] = s.ask(i)
	}
	return out
}

// capped is the room of a column where all have so much: a word of
// unreasonable length is parted rather than starving the others.
func (r room) capped(first, oneLine bool, have float64) room {
	if !r.fixed {
		most := have / 4
		if first || oneLine {
			most = have * 0.36
		}
		r.least, r.want = min(r.least, most), min(r.want, have*0.6)
		if oneLine {
			r.want = r.least // it is cut anyway
		}
	}
	r.want = max(r.want, r.least)
	return r
}

// place gives the columns their room. It fits where no word is parted and
// figures fit, and is whole where words do not wrap either.
func (s *setting) place(asked []room) (fits, whole bool) {
	rooms := make([]room, len(s.cols))
	have := s.width - s.gap*float64(max(0, len(s.cols)-1))
	least, want, drawn := 0.0, 0.0, 0.0
	for i, c := range s.table.Columns {
		rooms[i] = asked[i].capped(i == 0, c.OneLine, have)
		least += rooms[i].least
		want += rooms[i].want
		if c.Kind == page.KindDrawn {
			drawn += rooms[i].want - rooms[i].least // it would like to have that
		}
	}
	fits, whole = least <= have, want-drawn <= have
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
		x += s.cols[i].width + s.gap
	}
	return fits, whole
}

// share gives the columns the least they need, and of what is left as much to
// each as it wants, up to the same for all: a short column is not narrowed for
// a long one's sake. A drawn column without a weight takes what is left.
func (s *setting) share(rooms []room, left float64) {
	open := len(rooms)
	drawn := map[int]float64{} // what each would like to have
	for i := range rooms {
		if s.cols[i].Kind == page.KindDrawn && s.cols[i].Weight == 0 {
			drawn[i] = rooms[i].want
			rooms[i].want = rooms[i].least
		}
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
	for i, want := range drawn {
		s.cols[i].width += min(left/float64(len(drawn)), want-s.cols[i].width)
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
func (s *setting) ask(i int) room {
	c := &s.cols[i]
	if c.Kind == page.KindDrawn {
		return room{least: drawnLeast, want: drawnWant, fixed: true}
	}
	head := s.faces.bold.longestWord(s.faces.bold.clean(c.Head), tableSize)
	if s.table.NoHead {
		head = 0
	}
	r := room{least: head, want: head, fixed: c.Kind != page.KindText}
	if c.Kind == page.KindMoney {
		c.tail = s.faces.regular.width(".00", tableSize)
	}
	for _, row := range s.table.Rows {
		if i < len(row.Cells) && (i > 0 || row.Spans(len(s.cols)) == 1) && row.Style != page.Group {
			s.askCell(i, row, &r)
		}
	}
	r.least = max(r.least, c.integer+c.tail)
	if !s.table.NoHead {
		r.want = max(r.want, min(s.faces.bold.width(s.faces.bold.clean(c.Head), tableSize), headWidest))
	}
	return r
}

// askCell widens a column's room for one cell.
func (s *setting) askCell(i int, row page.Row, r *room) {
	cell, c := row.Cells[i], &s.cols[i]
	f, size := s.faces.regular, tableSize
	if row.Style == page.Total || row.Style == page.GrandTotal {
		f = s.faces.bold
	}
	if c.Small {
		size = refSize
	}
	text := f.clean(cell.String(s.sign))
	switch {
	case cell.Kind == page.KindMoney || cell.Kind == page.KindNumber:
		before, after := page.Parts(text, cell.Kind)
		c.integer = max(c.integer, f.width(before, size))
		c.tail = max(c.tail, f.width(after, size))
		if strings.HasSuffix(after, ")") {
			c.hang = max(c.hang, f.width(")", size))
		}
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
