package headers

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// columnNames says of a text whether any table has a column of that name.
func (r *Reader) ColumnNames() func(string) bool {
	known := map[string]bool{}
	for i := range r.set.Tables {
		t := &r.set.Tables[i]
		for key := range r.names(t).any {
			known[key] = true
		}
		for header := range r.settings.Columns[t.Name] {
			known[settings.HeaderKey(header)] = true
		}
	}
	delete(known, "")
	return func(text string) bool { return len(text) <= 100 && known[settings.HeaderKey(text)] }
}

// takeTitles takes up to nine rows above the column names off a sheet, with a note.
// The first row is the header unless it names too few of the columns the table
// needs and a row shortly below names them; rows above that may be records
// leave the first row as the header, whose problems are then told. Column names
// may be in two rows.
func (r *Reader) takeTitles(s *sheets.Sheet, t *templates.Table) (titles []string) {
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
	what := fmt.Sprintf("This row stands above the column names, which are in row %d, so it was taken for a title.",
		s.Lines[at].Number)
	if at > 1 {
		what = fmt.Sprintf("The rows from here to %d stand above the column names, which are in row %d, so they were "+
			"taken for a title.", s.Lines[at-1].Number, s.Lines[at].Number)
	}
	fix := "It may stay if it is one; records belong below the column names."
	if !slices.Equal(head, s.Lines[at].Cells) {
		what = fmt.Sprintf("The column names stand in two rows, down to row %d; where both have one, the lower is taken.",
			s.Lines[at].Number)
		fix = "It may stay; to be sure, put all column names into one row."
	}
	r.problems.Add(fault.Problem{Code: fault.CodeTitleRows, Note: true, Place: place,
		Found:       sheets.Shortened(strings.Join(titles, ", ")),
		AsksNothing: true, Why: what, Fix: fix})
	s.Lines = slices.Clone(s.Lines[at:])
	s.Lines[0].Cells = head
	return titles
}

// headerRow is which line holds the column names, and the names: where they
// stand in two rows, group names above and merged (Bought: date, price), a
// column's name is the lower one, or the upper where there is no lower.
func (r *Reader) headerRow(s *sheets.Sheet, t *templates.Table) (at int, names []string) {
	first := s.Lines[0].Cells
	known, complete := r.namesIn(t, first)
	if s.Lines[0].Broken {
		return 0, first
	}
	if len(s.Lines) > 1 && canBeTitles(s.Lines[:1]) && r.allNames(t, s.Lines[1].Cells) && (!complete ||
		r.blankBelow(t, first, s.Lines[1].Cells)) {
		both := joinedNames(first, s.Lines[1].Cells)
		if n, all := r.namesIn(t, both); all && n > known {
			return 1, both
		}
	}
	if complete {
		return 0, first
	}
	lone := filledCells(first) == 1
	for i := 1; i < min(len(s.Lines), sheets.TitleRowsMax); i++ {
		if s.Lines[i].Broken || !canBeTitles(s.Lines[:i]) {
			return 0, first
		}
		cells := s.Lines[i].Cells
		n, complete := r.namesIn(t, cells)
		if n >= 2 && n > known && (complete || (lone || known == 0) && 2*n >= filledCells(cells)) {
			return i, cells
		}
		if both := joinedNames(s.Lines[i-1].Cells, cells); r.allNames(t, cells) {
			if _, complete := r.namesIn(t, both); complete {
				return i, both
			}
		}
	}
	return 0, first
}

// namesIn counts the columns of a table that a row names, and says whether all
// that the table needs are among them.
func (r *Reader) namesIn(t *templates.Table, cells []string) (n int, complete bool) {
	named := map[string]bool{}
	found, _ := r.headerFields(t, cells)
	for _, f := range found {
		if f != nil {
			named[f.Name] = true
		}
	}
	for _, name := range NeededColumns(t) {
		if !named[name] {
			return len(named), false
		}
	}
	return len(named), true
}

// allNames says that each filled cell of a row names a column, two at least,
// or is one that settings.toml says is none.
func (r *Reader) allNames(t *templates.Table, cells []string) bool {
	_, ignored := r.headerFields(t, cells)
	none := 0
	for _, is := range ignored {
		if is {
			none++
		}
	}
	n, _ := r.namesIn(t, cells)
	return n >= 2 && n+none == filledCells(cells)
}

// blankBelow says that a row has nothing below the columns that another names, as
// the second row of column names has not and every record has.
func (r *Reader) blankBelow(t *templates.Table, names, lower []string) bool {
	found, _ := r.headerFields(t, names)
	for i, f := range found {
		if f != nil && i < len(lower) && strings.TrimSpace(lower[i]) != "" {
			return false
		}
	}
	return true
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
		filled, first := filledCells(l.Cells), true
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

// filledCells counts the cells of a row that hold something.
func filledCells(cells []string) (n int) {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			n++
		}
	}
	return n
}
