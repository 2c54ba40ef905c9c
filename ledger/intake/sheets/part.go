package sheets

import (
	"slices"
	"strconv"
	"strings"
)

// CellName is B4 for column 1 (from 0) of row 4.
func CellName(column, row int) string { return ColumnLetters(column) + strconv.Itoa(row) }

// Part is one of several tables on a sheet: the lines from to up to but without
// to, and of them the columns left up to but without right. It is named by the
// sheet and its heading, else by the first cell of its column names: Flips!F1.
// The cells keep their columns.
func (s *Sheet) Part(heading, firstCell string, from, to, left, right int) *Sheet {
	p := *s
	p.Of, p.Heading, p.FirstCell = s, heading, firstCell
	base := s.Name
	if base == "" {
		base = s.Known
	}
	p.Name = base + "!" + firstCell
	if heading != "" {
		p.Name = base + "!" + Shortened(heading)
	}
	p.Known = p.Name
	p.Lines = nil
	for _, l := range s.Lines[from:to] {
		cells := slices.Clone(l.Cells[:min(right, len(l.Cells))])
		for i := range min(left, len(cells)) {
			cells[i] = ""
		}
		if Blank(cells) {
			continue
		}
		l.Cells = cells
		p.Lines = append(p.Lines, l)
	}
	p.Merged = slices.DeleteFunc(slices.Clone(s.Merged), func(a Area) bool { return a.Right < left || a.Left >= right })
	return &p
}

// Without is a line without the text of some of its cells.
func (l Line) Without(columns []int) Line {
	l.Cells = slices.Clone(l.Cells)
	for _, c := range columns {
		l.Cells[c] = ""
	}
	return l
}

// IsStruckOut says that all that a line holds is crossed out.
func (s *Sheet) IsStruckOut(l Line) bool {
	some := false
	for i, text := range l.Cells {
		if strings.TrimSpace(text) == "" {
			continue
		}
		if !s.Cell(l, i).IsStruck() {
			return false
		}
		some = true
	}
	return some
}

// CellAt is a cell of a sheet by its line's place among the lines and its column;
// or a text of its own, where Line is below 0.
type CellAt struct {
	Line, Column int
	Text         string
}

// Arranged is cells of a sheet in another order: a row of column names, and rows
// with the numbers they go by. The cells keep what their workbook says of them.
func (s *Sheet) Arranged(heads []string, rows [][]CellAt, numbers []int) *Sheet {
	p := *s
	p.HiddenRows, p.HiddenCols, p.Merged = nil, nil, nil
	p.Lines = []Line{{Number: numbers[0], Cells: heads}}
	for i, row := range rows {
		l := Line{Number: numbers[i+1]}
		for _, at := range row {
			text, m := at.Text, mark{kind: markText}
			if at.Line >= 0 {
				from := s.Lines[at.Line]
				text, m = from.Text(at.Column), mark{}
				if at.Column < len(from.marks) {
					m = from.marks[at.Column]
				}
				l.Broken = l.Broken || from.Broken
			}
			l.Cells, l.marks = append(l.Cells, text), append(l.marks, m)
		}
		p.Lines = append(p.Lines, l)
	}
	return &p
}
