// Package headers finds what a sheet is: the table it is named for, the row of
// column names, the column of the table that each of them is, and which rows are
// no records.
//
// In: a sheets.Sheet. Out: a Block. Of a sheet "Hours 2026"
//
//	My hours
//	Day         Hrs.   Note
//	2026-03-09  2      sanded
//	Total       2
//
// comes Block{Table: hours, Columns: {"worked_on": 0, "hours": 1, "task": 2},
// Records: row 3}; the title and the totals are each noted and counted.
//
// # How a column is known
//
// By [columns.TABLE] of settings.toml, then by the column's own name or title,
// then by its other names, those only where the column is not there under its
// own. A header that is none of these is noted, and proposed as a column only
// where its name, the other columns and all cells agree.
package headers

import (
	"maps"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Reader finds the tables of the sheets of one books folder.
type Reader struct {
	set      *templates.Set
	named    map[*templates.Table]tableNames
	settings ledger.Settings
	problems *fault.List
	Layouts  []Layout               // of the sheets that were read, in reading order
	Broken   map[string]fault.Place // tables with a sheet that could not be read, by the first
	tables   map[string]bool        // tables that some sheet is named for
	// The sheets and headers there are, for settings that name none of them.
	seenSheets, seenHeaders map[string]bool
	exports                 map[string]int // plain files by the workbook they are sheets of
	// proposals are gathered as they are met, fits until all sheets are known.
	// Told are lines that messages name and that are not among the proposals.
	Proposals, Told []settings.Proposal
	fits            []fit
	rejected        []settings.Proposal
	isName          func(string) bool // ColumnNames, made once
	forms           map[*sheets.Sheet]*form
	ofPart          map[*sheets.Sheet]partTable   // the parts of sheets with several tables
	leftOnForm      map[*sheets.Sheet]money.Cents // the money on forms that is in no column
}

// newReader makes a Reader, whose problems go into the list.
func New(set *templates.Set, settings ledger.Settings, problems *fault.List) *Reader {
	return &Reader{set: set, settings: settings, problems: problems, Broken: map[string]fault.Place{},
		tables: map[string]bool{}, named: map[*templates.Table]tableNames{},
		seenSheets: map[string]bool{}, seenHeaders: map[string]bool{}, exports: map[string]int{}}
}

// Block is a sheet whose columns are known: what comes out of this room.
type Block struct {
	sheet   *sheets.Sheet
	Table   *templates.Table  // nil: the sheet is no table
	Columns map[string]Column // by field
	Records []sheets.Line     // the rows that may be records
	// Examples are the rows that ExampleOf tells.
	Examples []sheets.Line
	Tally    Tally // of the others
	Width    int   // columns up to the last with a header
	// wider is how many rows that may be records hold more cells than the header,
	// blank ones too.
	wider   int
	headers []string
	unknown []Column // without a field: none of the table's
	// Units are the columns that hold the units of others, by the field of the other.
	Units map[string]int
	// For is the column of a list of receipts that says what a line is for, 1 + its index; 0 for none.
	For    int
	Broken bool // the rows cannot be read
	// faulty says that all rows are refused for what is wrong with the header,
	// though their cells are looked at; missing are the needed columns that are
	// not there, and those that are there twice.
	Faulty  bool
	Missing map[string]bool
	// other are the fields whose columns hold something else throughout, which
	// has been reported; proposed are those that an unknown header was taken for,
	// and headers that were taken for one.
	Other, proposed map[string]bool
	Period          Period
	ticks           []Column
	unreadMoney     map[int]bool       // columns of money that are not read as money, though their names are known
	struck          []sheets.Line      // rows that are crossed out, or in which cells are
	head            int                // which line the column names would be, of a sheet that is no table
	likely          []*templates.Field // the columns it would have
	words           int64              // the money in lines of words, in cents
	ignored         bool               // by settings.toml
	skipped         []int              // columns that settings.toml says are not to be read
	sums, crossed   []sheets.Line      // rows of sums, and rows crossed out
	// the unknown column of numbers beside a price that has been reported; 0 for none, else 1 + its index
	count int
}

// Tally counts the rows below the column names that are no records.
type Tally struct {
	Rows      int // not blank in all columns that are read, records too
	Examples  int // first cell begins example:
	NotRecord int // rows of totals and headers that stand there again, each noted
	NotTable  int // of a sheet that is no table
}

// column is one column of a sheet that the table knows.
type Column struct {
	Field  *templates.Field
	Index  int
	Header string
	table  string // where it has no field
}

// inOrder are the known columns as they stand in the sheet.
func (b *Block) inOrder() []Column {
	return slices.SortedFunc(maps.Values(b.Columns), func(a, b Column) int { return a.Index - b.Index })
}

// Layout is how one sheet of a table stands in its file, for describing it to
// other programs.
type Layout struct {
	File, Sheet string // Sheet: workbooks only
	Table       string
	HeaderRow   int   // as the spreadsheet numbers it
	Examples    []int // rows that are no records: examples, totals, column names again
	Columns     []LayoutColumn
	// Of a plain file: what separates its cells, and the name of its letters'
	// encoding as registered with IANA.
	Separates, Letters string
}

// LayoutColumn is a column that is read: the owner's header, and the column of
// the table it was read as.
type LayoutColumn struct{ Header, Field string }

// read finds a sheet's table, its columns and the rows that may be records.
// nil: a sheet of guidance, which is neither counted nor reported.
func (r *Reader) Read(s *sheets.Sheet) *Block {
	if isGuide(s) {
		return nil
	}
	r.sawSheet(s)
	t, ignored := r.tableOf(s)
	if r.ofPart[s].refused {
		r.refusePart(s)
	}
	if !ignored && r.areWords(s) {
		cents := r.tellWords(s, t)
		if t != nil {
			r.tables[t.Name] = true
		}
		return &Block{sheet: s, words: cents, Tally: Tally{Rows: len(s.Lines), NotTable: len(s.Lines)}}
	}
	if t == nil {
		return r.skipSheet(s, ignored)
	}
	r.tables[t.Name] = true
	if len(s.Lines) == 0 {
		return &Block{sheet: s, Table: t}
	}
	r.tellBetterFit(s, t)
	titles := r.takeTitles(s, t)
	crossed := r.takeCrossedOut(s)
	b := r.readHeader(s, t)
	b.Period = r.periodOf(s, titles)
	b.struck = crossed
	r.noteCrossedOut(s, b, crossed)
	r.tellShape(s, b)
	var skipped []int
	for _, l := range s.Lines[1:] {
		switch {
		case b.holdsNothing(s, l):
			skipped = append(skipped, l.Number)
			continue
		case isExample(s, l):
			b.Tally.Examples++
			b.Examples = append(b.Examples, l)
			skipped = append(skipped, l.Number)
		case r.notRecord(s, b, l):
			b.Tally.NotRecord++
			skipped = append(skipped, l.Number)
		default:
			b.Records = append(b.Records, l)
			if len(l.Cells) > len(s.Lines[0].Cells) {
				b.wider++
			}
		}
		b.Tally.Rows++
	}
	r.noteSums(s, b)
	r.findTurns(s, b)
	r.addLayout(s, b, skipped)
	return b
}

// addLayout keeps a sheet's layout. Nothing where its header could not be read, nor
// of a sheet that is turned over or has several tables: what describes layouts
// has no words for those.
func (r *Reader) addLayout(s *sheets.Sheet, b *Block, skipped []int) {
	if b.Broken || b.Faulty || s.Of != nil || s.IsTurned {
		return
	}
	l := Layout{File: s.File, Sheet: s.Name, Table: b.Table.Name, HeaderRow: s.Lines[0].Number,
		Separates: s.Separates, Letters: s.Letters, Examples: skipped}
	for _, c := range b.inOrder() {
		l.Columns = append(l.Columns, LayoutColumn{c.Header, c.Field.Name})
	}
	r.Layouts = append(r.Layouts, l)
}

// isExample says that a row is not read, since its first cell begins example:,
// the sheet's first, or the first below a column name where the table stands
// further right.
func isExample(s *sheets.Sheet, l sheets.Line) bool {
	_, at := ExampleOf(s, l)
	return at >= 0
}

// ExampleOf is what stands behind example: in the row that isExample tells, and
// the index of its cell; -1 in any other row.
func ExampleOf(s *sheets.Sheet, l sheets.Line) (text string, at int) {
	first := slices.IndexFunc(s.Lines[0].Cells, func(h string) bool { return strings.TrimSpace(h) != "" })
	for _, i := range []int{0, first} {
		if i < 0 || i >= len(l.Cells) {
			continue
		}
		cell, n := strings.TrimSpace(l.Cells[i]), len(templates.ExamplePrefix)
		if len(cell) >= n && strings.EqualFold(cell[:n], templates.ExamplePrefix) {
			return strings.TrimSpace(cell[n:]), i
		}
	}
	return "", -1
}

// isGuide says that a sheet is one of the starter workbook's own that hold no
// records: our words, not the owner's, so neither counted nor reported.
func isGuide(s *sheets.Sheet) bool {
	return s.InBook && len(s.Lines) > 0 && len(s.Lines[0].Cells) > 0 && templates.IsGuide(s.Name, s.Lines[0].Cells[0])
}

// holdsNothing says that a row is blank in all columns that are read: what it
// holds stands in others, which have been reported. A formula without its value is
// no blank, nor is a value after the last name of a plain file.
func (b *Block) holdsNothing(s *sheets.Sheet, l sheets.Line) bool {
	if l.Broken || b.Broken || isExample(s, l) || !s.InBook && !sheets.Blank(l.Cells[min(b.Width, len(l.Cells)):]) {
		return false
	}
	for _, c := range b.Columns {
		if cell := s.Cell(l, c.Index); cell.Text != "" || cell.IsUnsaved() {
			return false
		}
	}
	return true
}

// TooWide says that a row of a plain file holds more cells than there are
// column names: values, or blanks where most rows have none, so that a
// separator that belongs to a text may have moved what stands after it.
func (b *Block) TooWide(l sheets.Line) (extra []string, is bool) {
	if b.sheet.InBook {
		return nil, false
	}
	extra = l.Cells[min(b.Width, len(l.Cells)):]
	if !sheets.Blank(extra) {
		return extra, true
	}
	return nil, len(l.Cells) > len(b.headers) && 2*b.wider <= len(b.Records)
}
