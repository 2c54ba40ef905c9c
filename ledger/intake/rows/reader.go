// Package rows reads the cells of one row: each by what its column holds, with
// every problem told where it stands, with what stands there and what to type.
//
// In: a headers.Block and one of its lines. Out: a Row, whose methods read one cell
// each. Of a row "2026-03-09, 2:30" of Hours
//
//	row.Date("worked_on")  9 March 2026
//	row.Hours("hours")     5/2
//
// A row with an error is refused. What many cells of a sheet share, such as the
// order of day and month, is told once for all of them, when the last row has been
// read (TellCauses).
package rows

import (
	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/headers"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// Reader reads the rows of one books folder.
type Reader struct {
	set      *templates.Set
	settings ledger.Settings
	given    map[string]bool // the keys and sections that settings.toml has
	lines    *settings.Proposals
	problems *fault.List
	example  func(table, field string) string
	causes   map[causeKey]*Cause
	told     map[string]bool // what is told once (Once)
	days     dayOrders
	// currencies are those that amounts name, each with its first cell.
	currencies map[string]fault.Problem
	points     int // numbers written with a point that can be no other mark
}

// New makes a Reader, whose problems and proposals go into the lists. given are the
// keys and sections that settings.toml has; example is a name in a column of a table,
// to be shown as one that may be typed, or empty.
func New(set *templates.Set, settings ledger.Settings, given map[string]bool, lines *settings.Proposals,
	problems *fault.List, example func(table, field string) string) *Reader {
	return &Reader{set: set, settings: settings, given: given, lines: lines, problems: problems, example: example,
		causes: map[causeKey]*Cause{}, told: map[string]bool{},
		currencies: map[string]fault.Problem{}}
}

// Once says that it is asked about something for the first time: what is said with
// the first of many.
func (r *Reader) Once(about string) bool {
	first := !r.told[about]
	r.told[about] = true
	return first
}

// Row is one row of a table.
type Row struct {
	Block    *headers.Block
	Sheet    *sheets.Sheet
	Line     sheets.Line
	At       fault.Place
	Refused  bool
	reported map[string]bool // fields whose problem has been reported for the row; nil: none
	r        *Reader
	// waits is where a setting would put the row right; wrong says that it has
	// an error besides.
	waits fault.Place
	wrong bool
}

// Row makes a row of a line. It is refused where the line or the columns of its
// table cannot be read, or where without says so; else what is wrong with it
// whatever its table is told.
func (r *Reader) Row(b *headers.Block, s *sheets.Sheet, l sheets.Line, without map[fault.Place]bool) *Row {
	row := &Row{r: r, Block: b, Sheet: s, Line: l, At: s.Place()}
	row.At.Row = l.Number
	row.Refused = b.Broken || b.Faulty || l.Broken || without[row.At]
	row.skipMisread()
	if !l.Broken && len(b.Columns) > 0 {
		row.checkWidth()
	}
	if !b.Broken && !l.Broken {
		row.checkCells()
	}
	return row
}

// Reported says that a field's problem has been reported, for the row or its table.
func (row *Row) Reported(field string) bool { return row.reported[field] || row.Block.Missing[field] }

// SetReported says that a field's problem has been reported for the row.
func (row *Row) SetReported(field string) {
	if row.reported == nil {
		row.reported = map[string]bool{}
	}
	row.reported[field] = true
}

// WaitsFor is the place of another cell that a setting would put right, and this
// row with it, where nothing else is wrong with the row.
func (row *Row) WaitsFor() (at fault.Place, is bool) {
	return row.waits, !row.wrong && row.waits.Row > 0
}
