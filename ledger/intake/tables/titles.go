package tables

import (
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// takeTitles takes up to nine rows above the column names off a sheet, with a note.
// The first row is the header unless it names too few of the columns the table
// needs and a row shortly below names them; rows above that may be records
// leave the first row as the header, whose problems are then reported. Column names
// may be in two rows.
func (r *Finder) takeTitles(s *sheets.Sheet, t *templates.Table) (titles []string) {
	at, head := r.headerRow(s, t)
	if at == 0 {
		return nil
	}
	for _, l := range s.Lines[:at] {
		for _, c := range l.Cells {
			if c = strings.TrimSpace(c); c != "" {
				titles = append(titles, c)
			}
		}
	}
	place := s.Place()
	place.Row = s.Lines[0].Number
	p := fault.Problem{Code: fault.CodeTitleRows, Note: true, Place: place, AsksNothing: true,
		Found: sheets.Shortened(strings.Join(titles, ", ")),
		Fix:   "It may stay if it is one; records belong below the column names."}
	names := fault.Row(s.Lines[at].Number)
	switch {
	case !slices.Equal(head, s.Lines[at].Cells):
		p = p.Naming("The column names stand in two rows, down to %s, and are read as: %s.", names,
			strings.Join(slices.DeleteFunc(slices.Clone(head), func(c string) bool { return c == "" }), ", "))
		p.Fix = "It may stay; to be sure, put all column names into one row."
	case at > 1:
		p = p.Naming("The rows from here to %d stand above the column names, which are in %s, so they were "+
			"taken for a title.", s.Lines[at-1].Number, names)
	default:
		p = p.Naming("This row stands above the column names, which are in %s, so it was taken for a title.", names)
	}
	r.problems.Add(p)
	s.Lines = slices.Clone(s.Lines[at:])
	s.Lines[0].Cells = head
	return titles
}

// headerRow is which line holds the column names, and the names: where they
// stand in two rows, a column's name is that of its group and its own (Bought date),
// else the lower one, or the upper where there is no lower.
func (r *Finder) headerRow(s *sheets.Sheet, t *templates.Table) (at int, names []string) {
	first := s.Lines[0].Cells
	known, complete := r.names.In(t, first)
	if s.Lines[0].Broken {
		return 0, first
	}
	if len(s.Lines) > 1 && canBeTitles(s.Lines[:2]) {
		grouped := r.groupedNames(t, first, s.Lines[1].Cells)
		lower, _ := r.names.In(t, s.Lines[1].Cells)
		if n, _ := r.names.In(t, grouped); n > max(known, lower) && !complete {
			return 1, grouped
		}
	}
	if len(s.Lines) > 1 && canBeTitles(s.Lines[:1]) && r.names.All(t, s.Lines[1].Cells) && (!complete ||
		r.blankBelow(t, first, s.Lines[1].Cells)) {
		both := joinedNames(first, s.Lines[1].Cells)
		if n, all := r.names.In(t, both); all && n > known {
			return 1, both
		}
	}
	if complete {
		return 0, first
	}
	lone := sheets.Filled(first) == 1
	for i := 1; i < min(len(s.Lines), sheets.TitleRowsMax); i++ {
		if s.Lines[i].Broken || !canBeTitles(s.Lines[:i]) {
			return 0, first
		}
		cells := s.Lines[i].Cells
		n, complete := r.names.In(t, cells)
		if n >= 2 && n > known && (complete || (lone || known == 0) && 2*n >= sheets.Filled(cells)) {
			return i, cells
		}
		if both := joinedNames(s.Lines[i-1].Cells, cells); r.names.All(t, cells) {
			if _, complete := r.names.In(t, both); complete {
				return i, both
			}
		}
	}
	return 0, first
}

// blankBelow says that a row has nothing below the columns that another names, as
// the second row of column names has not and every record has.
func (r *Finder) blankBelow(t *templates.Table, names, lower []string) bool {
	found, _ := r.names.Fields(t, names)
	for i, f := range found {
		if f != nil && i < len(lower) && strings.TrimSpace(lower[i]) != "" {
			return false
		}
	}
	return true
}

// groupedNames are the names of columns below names of groups, each of which stands
// above the first of its columns: Bought date and Bought price of Bought above Date and
// Price. A name that only the lower row has as a column's stays as it is.
func (r *Finder) groupedNames(t *templates.Table, upper, lower []string) []string {
	out, group := make([]string, len(lower)), ""
	for i, name := range lower {
		if i < len(upper) && strings.TrimSpace(upper[i]) != "" {
			group = strings.TrimSpace(upper[i])
		}
		both := strings.TrimSpace(group + " " + name)
		isOwn := len(r.names.Called(t, name)) > 0
		if out[i] = name; strings.TrimSpace(name) == "" && i < len(upper) {
			out[i] = upper[i]
		} else if strings.TrimSpace(name) != "" && (!isOwn || len(r.names.Called(t, both)) > 0) {
			out[i] = both
		}
	}
	return append(out, upper[min(len(lower), len(upper)):]...)
}

// joinedNames is the lower of two rows, with the upper's where it is blank.
func joinedNames(upper, lower []string) []string {
	both := slices.Clone(lower)
	for i, c := range upper {
		if i >= len(both) {
			both = append(both, c)
		} else if strings.TrimSpace(both[i]) == "" {
			both[i] = c
		}
	}
	return both
}

// canBeTitles says that no row looks like a record: none has a cell that begins
// like a number or a date, but for a lone cell, and one after its word
// (printed on, 2026-03-01).
func canBeTitles(lines []sheets.Line) bool {
	for _, l := range lines {
		filled, first := sheets.Filled(l.Cells), true
		if l.Broken {
			return false
		}
		for _, c := range l.Cells {
			if c = strings.TrimSpace(c); c == "" {
				continue
			}
			c = strings.TrimLeft(c, "$€£-(")
			if c != "" && unicode.IsDigit(rune(c[0])) && (filled > 2 || filled == 2 && first) {
				return false
			}
			first = false
		}
	}
	return true
}
