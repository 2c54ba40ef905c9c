package intake

import (
	"fmt"
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

// cause is one with the cells it shows in: the order of day and month, the
// decimal mark, a name whose line was refused, a table that could not be read, a
// column of counted days. It is reported once, at the first of them, and lists the
// rows of the others: what is put right by one thing is one thing to read.
type cause struct {
	first fault.Problem
	rows  []int
	cells int
	cents int64 // of a note
	say   func(s *cause) (why, fix string)
}

// failForCause refuses the row for a cause that many cells share. say is asked
// for the words once all cells are known.
func (rec *record) failForCause(field, about string, code fault.Code, say func(s *cause) (why, fix string)) {
	rec.refused = true
	key := causeKey{rec.at.File, rec.at.Sheet, code, about}
	s := rec.r.causes[key]
	if s == nil {
		s = &cause{say: say}
		rec.r.causes[key] = s
	}
	p := fault.Problem{Code: code, Place: rec.place(field), Found: sheets.Shortened(rec.raw(field))}
	if s.cells == 0 || p.Place.Compare(s.first.Place) < 0 {
		s.first = p
	}
	s.cells++
	if code == fault.CodeDateOtherOrder || code == fault.CodeDecimalMark {
		rec.waits = s.first.Place
	} else {
		rec.wrong = true
	}
	if n := len(s.rows); n == 0 || s.rows[n-1] != rec.at.Row {
		s.rows = append(s.rows, rec.at.Row)
	}
}

// noteForCause notes, once a sheet, how cells that have something in common were
// read. cents is what the cell could move; say is asked for the words once all
// cells are known.
func (rec *record) noteForCause(field, about string, code fault.Code, cents int64, say func(s *cause) (why,
	fix string)) {
	key := causeKey{rec.at.File, rec.at.Sheet, code, about}
	s := rec.r.causes[key]
	if s == nil {
		s = &cause{say: say}
		rec.r.causes[key] = s
	}
	p := fault.Problem{Code: code, Note: true, AsksNothing: true, Place: rec.place(field),
		Found: sheets.Shortened(rec.raw(field))}
	if s.cells == 0 || p.Place.Compare(s.first.Place) < 0 {
		s.first = p
	}
	s.cells++
	s.cents += cents
	s.first.MoneyCents = s.cents
	if n := len(s.rows); n == 0 || s.rows[n-1] != rec.at.Row {
		s.rows = append(s.rows, rec.at.Row)
	}
}

// failColumn is failForCause for what a spreadsheet did to a whole column, most
// likely: once for each cell, and reported once for the column.
func (rec *record) failColumn(field string, code fault.Code, say func(s *cause) (why, fix string)) {
	if !rec.reported[field] {
		rec.reported[field] = true
		rec.failForCause(field, field, code, say)
	}
}

// tellCauses tells the shared causes.
func (r *reading) tellCauses() {
	for _, s := range r.causes {
		s.first.Why, s.first.Fix = s.say(s)
		alone := *s
		alone.cells = 1
		s.first.Cause, _ = s.say(&alone)
		r.problems.Add(s.first)
	}
}

// more is the other cells of a cause, as a sentence to follow; empty where
// there is only one.
func (s *cause) more() string {
	others := slices.DeleteFunc(slices.Clone(s.rows), func(row int) bool { return row == s.first.Place.Row })
	n := s.cells - 1
	switch {
	case n == 0:
		return ""
	case len(others) == 0:
		return fmt.Sprintf(" %d more %s of this row %s like it.", n, fault.Plural(n, "cell", "cells"),
			fault.Plural(n, "is", "are"))
	}
	return fmt.Sprintf(" %d more %s of this sheet %s like it (%s).", n, fault.Plural(n, "cell", "cells"),
		fault.Plural(n, "is", "are"), rowList(s.rows))
}

// runsMost is how many runs of rows a message lists.
const runsMost = 12

// rowList is `row 4` or `rows 2 to 9, 12, 15 and 40 more`.
func rowList(rows []int) string {
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

// dependsOn refuses a row that names something of a table that could not be
// read, or is not there at all: one cause for all such rows of the sheet.
func (rec *record) dependsOn(field, table, title string) bool {
	at, broken := rec.r.heads.Broken[table]
	_, there := rec.r.tables[table]
	switch {
	case broken:
		rec.failForCause(field, table, fault.CodeRefusedRow, func(s *cause) (string, string) {
			return fmt.Sprintf("%s could not be read (%s), so what this names cannot be found.%s", title, at, s.more()),
				fmt.Sprintf("Put %s right first; %s may be right then.", title, fault.Plural(s.cells, "this", "these"))
		})
	case !there:
		rec.failForCause(field, table, unknownCodes[table], func(s *cause) (string, string) {
			return fmt.Sprintf("There is no table %s in the records, so what this names cannot be found.%s", title, s.more()),
				fmt.Sprintf("Add a sheet or file %s with a line for each name that other tables use.", title)
		})
	}
	return broken || !there
}

// unknownCodes are the codes of names that are in no table.
var unknownCodes = map[string]fault.Code{"pieces": fault.CodePieceUnknown, "supplies": fault.CodeSupplyUnknown,
	"lots": fault.CodeLotUnknown, "schedules": fault.CodeScheduleUnknown}
