package tables

import (
	"slices"
	"strings"

	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
)

// turnedSheet is a sheet whose column names stand below each other, with what they name
// on their right: several pieces across, or one piece on a form.
type turnedSheet struct {
	Sheet *sheets.Sheet // turned: a row of names, and a row for each piece
	// List is what stands below: a list with column names of its own; nil where
	// there is none.
	List *sheets.Sheet
	// Left are the lines above the list and below the first name that are in neither:
	// of each its filled cells.
	Left [][]sheets.CellAt
	// Columns are the letters of the columns that the rows of Sheet stand in.
	Columns []string
}

// labelsLeast is how many names have to stand below each other.
const labelsLeast = 3

// findTurned finds the facts of a sheet that has no row of column names, or has one
// only below them; nil where it is no such sheet.
func findTurned(s *sheets.Sheet, isName func(string) bool, names rowNames) *turnedSheet {
	g := grid{sheet: s, isName: isName, names: names}
	end := len(s.Lines)
	width := 0
	for i, l := range s.Lines {
		width = max(width, len(l.Cells))
		if i < end && g.namesColumns(l.Cells) && !g.isLabelRow(l.Cells) {
			end = i
		}
	}
	labels := g.labels(end, width)
	if len(labels) < labelsLeast {
		return nil
	}
	var heads []string
	for _, at := range labels {
		heads = append(heads, strings.TrimRight(s.Lines[at.Line].Text(at.Column), ": "))
	}
	out := &turnedSheet{}
	var columns []int
	if across := g.across(labels, width); across != nil {
		columns = across
		if corner := (sheets.CellAt{Line: labels[0].Line - 1, Column: labels[0].Column}); g.areNames(corner, across) {
			columns = nil // also one with few facts is a piece
			for c, text := range s.Lines[corner.Line].Cells {
				if strings.TrimSpace(text) != "" {
					columns = append(columns, c)
				}
			}
			labels, heads = slices.Insert(labels, 0, corner), slices.Insert(heads, 0, "piece")
		}
	} else {
		columns = []int{-1}
	}
	first := labels[0]
	rows, numbers := [][]sheets.CellAt{}, []int{s.Lines[first.Line].Number}
	for _, c := range columns {
		var row []sheets.CellAt
		for _, at := range labels {
			column := c
			if c < 0 {
				column = at.Column + 1
			}
			row = append(row, sheets.CellAt{Line: at.Line, Column: column})
		}
		rows = append(rows, row)
		number := c + 1
		if len(columns) == 1 {
			number = s.Lines[first.Line].Number
			c = first.Column + 1
		}
		numbers = append(numbers, number)
		out.Columns = append(out.Columns, sheets.ColumnLetters(c))
	}
	out.Sheet = s.Arranged(heads, rows, numbers)
	above := end
	if end < len(s.Lines) {
		start := end
		if end > 0 && sheets.Filled(s.Lines[end-1].Cells) == 1 && end-1 > labels[len(labels)-1].Line {
			start = end - 1
		}
		above = start
		out.List = s.Part("", g.firstCell(area{end, len(s.Lines), 0, width}, end), start, len(s.Lines), 0, width)
	}
	out.Left = left(s, first.Line, above, append(rows, labels))
	return out
}

// areNames says that the line of a blank cell above the first label names what stands in
// each of some columns.
func (g *grid) areNames(corner sheets.CellAt, columns []int) bool {
	return corner.Line >= 0 && g.sheet.Lines[corner.Line].Text(corner.Column) == "" &&
		!slices.ContainsFunc(columns, func(c int) bool {
			text := g.sheet.Lines[corner.Line].Text(c)
			return text == "" || startsNumber(text) || g.isLabel(text)
		})
}

// left are the lines from one to another with filled cells that are not used, of
// each all such cells.
func left(s *sheets.Sheet, from, to int, used [][]sheets.CellAt) (out [][]sheets.CellAt) {
	isUsed := map[[2]int]bool{}
	for _, at := range slices.Concat(used...) {
		isUsed[[2]int{at.Line, at.Column}] = true
	}
	for i := from; i < to; i++ {
		var cells []sheets.CellAt
		for c, text := range s.Lines[i].Cells {
			if strings.TrimSpace(text) != "" && !isUsed[[2]int{i, c}] {
				cells = append(cells, sheets.CellAt{Line: i, Column: c})
			}
		}
		if len(cells) > 0 {
			out = append(out, cells)
		}
	}
	return out
}

// isLabelRow says that a row is names with their values beside them, as on a form
// in two pairs of columns: no name is followed by another.
func (g *grid) isLabelRow(cells []string) bool {
	for i := range cells {
		if g.isLabel(cells[i]) && i+1 < len(cells) && g.isLabel(cells[i+1]) {
			return false
		}
	}
	return true
}

// isLabel says that a text is a column's name, with or without a colon after it.
func (g *grid) isLabel(text string) bool {
	text = strings.TrimRight(strings.TrimSpace(text), ": ")
	return text != "" && !startsNumber(text) && g.isName(text)
}

// labels are the names among the lines before end that stand below each other, in
// the column with most of them and in others with as many as two.
func (g *grid) labels(end, width int) (out []sheets.CellAt) {
	count := make([]int, width)
	filled := make([]int, width)
	sinceLabel := make([]int, width) // a list of costs below the last name is no facts
	for _, l := range g.sheet.Lines[:end] {
		for c, text := range l.Cells {
			if strings.TrimSpace(text) != "" {
				sinceLabel[c]++
			}
			if g.isLabel(text) {
				count[c]++
				filled[c] += sinceLabel[c]
				sinceLabel[c] = 0
			}
		}
	}
	taken := map[string]bool{}
	for c := range width {
		if count[c] < 2 || 2*count[c] < filled[c] {
			continue
		}
		for i, l := range g.sheet.Lines[:end] {
			key := values.Compact(l.Text(c))
			if g.isLabel(l.Text(c)) && !taken[key] {
				taken[key] = true
				out = append(out, sheets.CellAt{Line: i, Column: c})
			}
		}
	}
	return out
}

// across are the columns of the values where the labels stand in one column and
// several columns on its right are filled; nil for a form of one piece.
func (g *grid) across(labels []sheets.CellAt, width int) (out []int) {
	for _, at := range labels {
		if at.Column != labels[0].Column {
			return nil
		}
	}
	for c := labels[0].Column + 1; c < width; c++ {
		n := 0
		for _, at := range labels {
			if g.sheet.Lines[at.Line].Text(c) != "" {
				n++
			}
		}
		if 2*n >= len(labels) {
			out = append(out, c)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}
