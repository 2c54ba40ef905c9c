package accountant

import (
	"math/big"
	"slices"

	wb "piecebook/report/workbook"
)

// heads are a sheet's columns, added from left to right by what they hold, each
// so many characters wide; 0: as wide as its cells want.
type heads []wb.Column

func (h heads) text(width float64, names ...string) heads   { return h.of(wb.KindText, width, names) }
func (h heads) number(width float64, names ...string) heads { return h.of(wb.KindNumber, width, names) }
func (h heads) money(width float64, names ...string) heads  { return h.of(wb.KindMoney, width, names) }
func (h heads) date(width float64, names ...string) heads   { return h.of(wb.KindDate, width, names) }
func (h heads) month(width float64, names ...string) heads  { return h.of(wb.KindMonth, width, names) }
func (h heads) hours(width float64, names ...string) heads  { return h.of(wb.KindHours, width, names) }
func (h heads) percent(width float64, names ...string) heads {
	return h.of(wb.KindPercent, width, names)
}

func (h heads) of(kind wb.Kind, width float64, names []string) heads {
	for _, name := range names {
		h = append(h, wb.Column{Head: name, Kind: kind, Width: width})
	}
	return h
}

// wrapped adds a column of long text, which takes several lines.
func (h heads) wrapped(width float64, name string) heads {
	return append(h, wb.Column{Head: name, Width: width, Wrap: true})
}

// summed has the last column added up while rows come in.
func (h heads) summed() heads {
	h[len(h)-1].Summed = true
	return h
}

// addSums adds a row that begins with some cells and has, under these heads, the
// sums of the rows from first on, each with its formula.
func addSums(s *wb.Sheet, style wb.Style, first int, names []string, begin ...wb.Cell) int {
	cells := make([]wb.Cell, len(s.Columns))
	copy(cells, begin)
	last := s.LastRow()
	for j, c := range s.Columns {
		if !slices.Contains(names, c.Head) {
			continue
		}
		sum := new(big.Rat)
		for row := first; row <= last; row++ {
			if of := s.At(row - s.FirstRow()).Cells; j < len(of) {
				sum.Add(sum, valueOf(of[j]))
			}
		}
		cells[j] = wb.Cell{Kind: c.Kind, Value: wb.Exactly(sum)}.By(sumOf(s, c.Head, first))
	}
	for cells[len(cells)-1] == (wb.Cell{}) {
		cells = cells[:len(cells)-1]
	}
	return s.Row(style, cells...)
}

// sumOf adds a column up from a row to the last one so far.
func sumOf(s *wb.Sheet, head string, first int) string {
	if s.LastRow() < first {
		return "0"
	}
	return "SUM(" + s.HereRange(head, first, s.LastRow()) + ")"
}
