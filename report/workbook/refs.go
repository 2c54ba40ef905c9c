package workbook

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Note adds words beneath the title, in as many lines as they want. Notes come before rows: they move them.
func (s *Sheet) Note(words string) {
	if s.count > 0 {
		panic("a note after the rows of " + s.Name + " would move them")
	}
	line := ""
	for _, word := range strings.Fields(words) {
		if line != "" && len(line)+1+len(word) > s.noteWidth() {
			s.Notes = append(s.Notes, line)
			line = ""
		}
		line = strings.TrimSpace(line + " " + word)
	}
	s.Notes = append(s.Notes, line)
}

// noteWidth is how many letters a note's line holds: as many as the columns'
// width, where that is given, so that none is cut off in print.
func (s *Sheet) noteWidth() int {
	sum := 0.0
	for _, c := range s.Columns {
		sum += max(c.Width, 9)
	}
	return max(40, int(min(sum, 130)*1.12))
}

// Row adds a row and returns its number, as a spreadsheet counts.
func (s *Sheet) Row(style Style, cells ...Cell) int {
	if len(cells) > len(s.Columns) {
		panic(fmt.Sprintf("%d cells in a row of %s, which has %d columns", len(cells), s.Name, len(s.Columns)))
	}
	s.count++
	s.sum(style, cells)
	if s.take != nil {
		s.take(s.count-1, Row{Style: style, Cells: cells})
		return s.LastRow()
	}
	s.rows = append(s.rows, s.pack(style, cells))
	if s.Long && s.count == FirstRows && s.book.Begin != nil {
		s.take, s.rows = s.book.Begin(s), nil
	}
	return s.LastRow()
}

// sum adds a row to the sums of columns, unless it is a grand total.
func (s *Sheet) sum(style Style, cells []Cell) {
	if style == GrandTotal {
		return
	}
	s.lastLine = s.LastRow()
	for i := range cells {
		if c := &s.Columns[i]; c.Summed {
			c.sum = c.sum.plus(cells[i].Value)
		}
	}
}

// Summed is the sum so far of a column that is Summed, without a grand total's row.
func (s *Sheet) Summed(head string) Value { return s.Columns[s.col(head)].sum }

// HeadRow is the number of the row of heads: after the title, the notes and an
// empty row.
func (s *Sheet) HeadRow() int { return len(s.Notes) + 3 }

// FirstRow is the number of the first row beneath the heads.
func (s *Sheet) FirstRow() int { return s.HeadRow() + 1 }

// NextRow is the number that the next row added will have.
func (s *Sheet) NextRow() int { return s.FirstRow() + s.count }

// LastRow is the number of the last row so far, that of the heads without any.
func (s *Sheet) LastRow() int { return s.HeadRow() + s.count }

// col is the place of the column with this head. A head that is not there is a
// mistake of the program's, not of its user's.
func (s *Sheet) col(head string) int {
	for i, c := range s.Columns {
		if c.Head == head {
			return i
		}
	}
	panic(fmt.Sprintf("no column %q in sheet %s", head, s.Name))
}

// LastLine is the number of the last row that is no grand total, 0 without any.
func (s *Sheet) LastLine() int { return s.lastLine }

// Letter is a column's letters: 0 is A, 26 is AA.
func Letter(column int) string {
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	if column < len(letters) {
		return letters[column : column+1]
	}
	out := ""
	for column++; column > 0; column = (column - 1) / 26 {
		out = string(rune('A'+(column-1)%26)) + out
	}
	return out
}

// Here is a cell of this sheet as its own formulas name it: D7.
func (s *Sheet) Here(head string, row int) string {
	return Letter(s.col(head)) + strconv.Itoa(row)
}

// HereRange is a part of a column as this sheet's own formulas name it: D5:D9.
func (s *Sheet) HereRange(head string, first, last int) string {
	c := Letter(s.col(head))
	return c + strconv.Itoa(first) + ":" + c + strconv.Itoa(last)
}

// Cell is a cell as other sheets' formulas name it: Sums!$D$7.
func (s *Sheet) Cell(head string, row int) string {
	return s.quoted() + "!$" + Letter(s.col(head)) + "$" + strconv.Itoa(row)
}

// Range is a part of a column as other sheets' formulas name it.
func (s *Sheet) Range(head string, first, last int) string {
	c := "$" + Letter(s.col(head)) + "$"
	return s.quoted() + "!" + c + strconv.Itoa(first) + ":" + c + strconv.Itoa(last)
}

// All is a column's rows so far as other sheets' formulas name them; the first
// row, empty, where there is none.
func (s *Sheet) All(head string) string {
	return s.Range(head, s.FirstRow(), max(s.FirstRow(), s.LastRow()))
}

// Sum adds up cells of a column, given by their rows: one range where they
// follow each other.
func (s *Sheet) Sum(head string, rows []int) string {
	var parts []string
	for i := 0; i < len(rows); {
		j := i
		for j+1 < len(rows) && rows[j+1] == rows[j]+1 {
			j++
		}
		if i == j {
			parts = append(parts, s.Cell(head, rows[i]))
		} else {
			parts = append(parts, s.Range(head, rows[i], rows[j]))
		}
		i = j + 1
	}
	switch {
	case len(parts) == 0:
		return "0"
	case len(rows) == 1:
		return parts[0]
	}
	// A function takes 255 arguments at most.
	var sums []string
	for chunk := range slices.Chunk(parts, 200) {
		sums = append(sums, "SUM("+strings.Join(chunk, ",")+")")
	}
	return strings.Join(sums, "+")
}

// quoted is the sheet's name for a formula.
func (s *Sheet) quoted() string {
	for i, r := range s.Name {
		letter := r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r == '_'
		if !letter && (i == 0 || r < '0' || r > '9') {
			return "'" + s.Name + "'"
		}
	}
	// A name that could be a cell's own (AB12) is rare and ends in a digit.
	if last := s.Name[len(s.Name)-1]; last >= '0' && last <= '9' {
		return "'" + s.Name + "'"
	}
	return s.Name
}
