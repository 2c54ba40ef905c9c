package rows

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
)

// causeKey is one cause that shows in many cells of one sheet.
type causeKey struct {
	file, sheet string
	code        fault.Code
	about       string // what it is about: a name, a table
}

// Cause is one with the cells it shows in: the order of day and month, the
// decimal mark, a name whose line was refused, a table that could not be read, a
// column of counted days. It is reported once, at the first of them, and lists the
// rows of the others: what is put right by one thing is one thing to read.
type Cause struct {
	First fault.Problem
	Rows  []int
	texts []string // what stands in the first cells, with their rows
	shown int      // of how many cells
	Cells int
	Cents int64 // what its cells could move: of a note, and of amounts below 0
	say   func(s *Cause) (why, fix string)
}

// add adds a row's cell to the cause it shares with others of its sheet, with how it
// is told where it is the first of them.
func (r *Reader) add(row *Row, field, about string, p fault.Problem, say func(s *Cause) (why, fix string)) *Cause {
	key := causeKey{row.At.File, row.At.Sheet, p.Code, about}
	s := r.causes[key]
	if s == nil {
		s = &Cause{say: say}
		r.causes[key] = s
	}
	p.Place, p.Found = row.Place(field), sheets.Shortened(row.shown(field))
	if s.Cells == 0 || p.Place.Compare(s.First.Place) < 0 {
		s.First = p
	}
	s.Cells++
	if text := fmt.Sprintf("%s (row %d)", fault.Quoted(p.Found), row.At.Row); slices.Contains(s.texts, text) {
		s.shown++
	} else if len(s.texts) < textsMost {
		s.texts, s.shown = append(s.texts, text), s.shown+1
	}
	if n := len(s.Rows); n == 0 || s.Rows[n-1] != row.At.Row {
		s.Rows = append(s.Rows, row.At.Row)
	}
	return s
}

// FailForCause refuses the row for a cause that many cells share. say is asked
// for the words once all cells are known.
func (row *Row) FailForCause(field, about string, code fault.Code, say func(s *Cause) (why, fix string)) *Cause {
	row.Refused = true
	s := row.r.add(row, field, about, fault.Problem{Code: code}, say)
	if code == fault.CodeDateOtherOrder || code == fault.CodeDecimalMark {
		row.waits = s.First.Place
	} else {
		row.wrong = true
	}
	return s
}

// NoteForCause notes, once a sheet, how cells that have something in common were
// read. cents is what the cell could move; say is asked for the words once all
// cells are known.
func (row *Row) NoteForCause(field, about string, code fault.Code, cents int64,
	say func(s *Cause) (why, fix string)) *Cause {
	s := row.r.add(row, field, about, fault.Problem{Code: code, Note: true, AsksNothing: true}, say)
	s.Cents += cents
	s.First.MoneyCents = s.Cents
	return s
}

// FailColumn is failForCause for what a spreadsheet did to a whole column, most
// likely: once for each cell, and reported once for the column.
func (row *Row) FailColumn(field string, code fault.Code, say func(s *Cause) (why, fix string)) {
	if !row.Reported(field) {
		row.SetReported(field)
		row.FailForCause(field, field, code, say)
	}
}

// TellCauses tells the shared causes.
func (r *Reader) TellCauses() {
	for _, s := range r.causes {
		s.First.Why, s.First.Fix = s.say(s)
		alone := *s
		alone.Cells = 1
		s.First.Cause, _ = s.say(&alone)
		r.problems.Add(s.First)
	}
}

// More is the other cells of a cause, as a sentence to follow; empty where
// there is only one.
func (s *Cause) More() string {
	others := slices.DeleteFunc(slices.Clone(s.Rows), func(row int) bool { return row == s.First.Place.Row })
	n := s.Cells - 1
	switch {
	case n == 0:
		return ""
	case len(others) == 0:
		return fmt.Sprintf(" %d more %s of this row %s like it.", n, fault.Plural(n, "cell", "cells"),
			fault.Plural(n, "is", "are"))
	}
	return fmt.Sprintf(" %d more %s of this sheet %s like it (%s).", n, fault.Plural(n, "cell", "cells"),
		fault.Plural(n, "is", "are"), RowList(s.Rows))
}

// textsMost is how many cells' texts a message lists.
const textsMost = 5

// Listed are the first cells of a cause: "oak" (row 2), "pine" (row 3) and 3 more.
func (s *Cause) Listed() string {
	text := strings.Join(s.texts, ", ")
	if n := s.Cells - s.shown; n > 0 {
		text += fmt.Sprintf(" and %d more (%s)", n, RowList(s.Rows))
	}
	return text
}

// runsMost is how many runs of rows a message lists.
const runsMost = 12

// RowList is `row 4` or `rows 2 to 9, 12, 15 and 40 more`.
func RowList(rows []int) string {
	rows = slices.Compact(slices.Sorted(slices.Values(rows)))
	var runs []string
	left := 0
	for i := 0; i < len(rows); {
		j := i
		for j+1 < len(rows) && rows[j+1] == rows[j]+1 {
			j++
		}
		switch {
		case len(runs) == runsMost:
			left += j - i + 1
		case i == j:
			runs = append(runs, fmt.Sprint(rows[i]))
		default:
			runs = append(runs, fmt.Sprintf("%d to %d", rows[i], rows[j]))
		}
		i = j + 1
	}
	list := strings.Join(runs, ", ")
	if left > 0 {
		list += fmt.Sprintf(" and %d more", left)
	}
	return fault.Plural(len(rows), "row ", "rows ") + list
}

// DropFiles forgets the causes of some files, whose rows are taken out.
func (r *Reader) DropFiles(out map[string]bool) {
	maps.DeleteFunc(r.causes, func(key causeKey, _ *Cause) bool { return out[key.file] })
}

// runsOf are digits or letters that follow each other.
var runsOf = regexp.MustCompile(`\d+|[\pL\pM]+`)

// shape is how a text with digits is written, whatever they are: days pasted from
// elsewhere are alike in it. Blank where there are none.
func shape(text string) string {
	if !strings.ContainsAny(text, "0123456789") {
		return ""
	}
	return runsOf.ReplaceAllStringFunc(text, func(run string) string {
		if run[0] <= '9' {
			return "0"
		}
		return "a"
	})
}
