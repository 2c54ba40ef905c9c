package intake

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"piecebook/ledger/fault"
)

// tellShape notes what a person may not see in a sheet that is read (hidden),
// or sees otherwise than it is saved (merged), and gives names the zeros that
// they are shown with.
func (r *Reader) tellShape(s *sheet, b *Block) {
	if s.asks == nil || b.broken {
		return
	}
	r.noteHidden(s, b)
	r.noteMerged(s, b)
	for _, c := range b.columns {
		if slices.Contains(nameCells, c.field.Cell) {
			s.showZeros(c.index)
		}
	}
}

// noteHidden notes hidden rows, columns and sheets: they are read.
func (r *Reader) noteHidden(s *sheet, b *Block) {
	facts := s.asks.facts
	var what []string
	if facts.hidden {
		what = append(what, "this sheet")
	}
	var rows []string
	for _, n := range facts.hiddenRows {
		if n > s.lines[0].number {
			rows = append(rows, strconv.Itoa(n))
		}
	}
	if n := len(rows); n > 0 {
		what = append(what, counted(n, "row", rows))
	}
	var columns []string
	for i := range b.width {
		for _, c := range facts.hiddenCols {
			if i >= c[0] && i <= c[1] && strings.TrimSpace(b.headers[i]) != "" {
				columns = append(columns, strings.TrimSpace(b.headers[i]))
				break
			}
		}
	}
	if n := len(columns); n > 0 {
		what = append(what, counted(n, "column", columns))
	}
	if len(what) == 0 {
		return
	}
	r.problems.Add(fault.Problem{Code: fault.CodeHiddenRead, Note: true, Place: s.place(),
		Why: fmt.Sprintf("Hidden here: %s. What is hidden is read like the rest.", strings.Join(what, ", ")),
		Fix: "Nothing need be done; delete what is no longer meant to count."})
}

// counted is `row 4`, `3 rows (4, 5, 6)`, at most ten of them by name.
func counted(n int, what string, names []string) string {
	if n == 1 {
		return what + " " + names[0]
	}
	const most = 10
	tail := ""
	if n > most {
		names, tail = names[:most], " and more"
	}
	return fmt.Sprintf("%d %ss (%s%s)", n, what, strings.Join(names, ", "), tail)
}

// noteMerged notes merged cells among the rows: the first holds the value, the
// others are blank to everyone but the eye. It is not filled in, since a date
// merged over three rows may be meant for each, and a price is not.
func (r *Reader) noteMerged(s *sheet, b *Block) {
	for _, a := range s.asks.facts.merged {
		if a.bottom <= s.lines[0].number || a.left >= b.width || a.top == a.bottom && a.left == a.right {
			continue
		}
		i := slices.IndexFunc(s.lines, func(l line) bool { return l.number == a.top })
		if i < 0 || a.left >= len(s.lines[i].cells) || strings.TrimSpace(s.lines[i].cells[a.left]) == "" {
			continue
		}
		from, to := cellName(a.left, a.top), cellName(a.right, a.bottom)
		place := s.place()
		place.Row, place.Column = a.top, columnLetters(a.left)
		if a.left < len(b.headers) && strings.TrimSpace(b.headers[a.left]) != "" {
			place.Column = strings.TrimSpace(b.headers[a.left])
		}
		r.problems.Add(fault.Problem{Code: fault.CodeMergedCells, Note: true, Place: place, Found: shortened(strings.TrimSpace(s.lines[i].cells[a.left])),
			Why: fmt.Sprintf("The cells %s to %s are merged: only %s holds the value, and the others are read as blank.", from, to, from),
			Fix: "Undo the merging, and type the value into each cell it is meant for."})
	}
}

// cellName is B4 for column 1 of row 4.
func cellName(column, row int) string { return columnLetters(column) + strconv.Itoa(row) }

// showZeros gives the numbers of a column the zeros in front that their format
// shows: 7 shown as 007 is the name 007.
func (s *sheet) showZeros(column int) {
	for _, l := range s.lines[1:] {
		zeros := s.asks.style(column, l.number).zeros
		if zeros < 2 || column >= len(l.cells) || strings.Trim(l.cells[column], "0123456789") != "" {
			continue
		}
		if missing := zeros - len(l.cells[column]); missing > 0 && l.cells[column] != "" {
			l.cells[column] = strings.Repeat("0", missing) + l.cells[column]
		}
	}
}
