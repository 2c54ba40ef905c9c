// Package headers gives the columns of a table their meaning, and finds the rows
// that are no records.
//
// In: a tables.Found. Out: a Block. Of a sheet "Hours 2026"
//
//	Day         Hrs.   Note
//	2026-03-09  2      sanded
//	Total       2
//
// comes Block{Table: hours, Columns: {"worked_on": 0, "hours": 1, "task": 2},
// Records: row 2}; the row of totals is noted and counted.
//
// A header that names no column (intake/columns) is noted, and proposed as one only
// where its name, the other columns and all cells agree.
package headers

import (
	"maps"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/tables"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Reader finds the columns of the tables of one books folder.
type Reader struct {
	set      *templates.Set
	settings ledger.Settings
	names    *columns.Names
	tables   *tables.Finder
	lines    *settings.Proposals
	problems *fault.List
	Layouts  []Layout               // of the sheets that were read, in reading order
	Broken   map[string]fault.Place // tables with a sheet that could not be read, by the first
	seen     map[string]bool        // the headers there are, for settings that name none of them
	blocks   map[string][]*Block    // the sheets that were read, by table
}

// New makes a Reader, whose problems and proposals go into the lists.
func New(set *templates.Set, settings ledger.Settings, names *columns.Names, tables *tables.Finder,
	lines *settings.Proposals, problems *fault.List) *Reader {
	return &Reader{set: set, settings: settings, names: names, tables: tables, lines: lines, problems: problems,
		Broken: map[string]fault.Place{}, seen: map[string]bool{}, blocks: map[string][]*Block{}}
}

// Block is a sheet whose columns are known: what comes out of this room.
type Block struct {
	sheet   *sheets.Sheet
	Table   *templates.Table  // nil: the sheet is no table
	Columns map[string]Column // by field
	Records []sheets.Line     // the rows that may be records
	// Examples are the rows that columns.ExampleOf tells.
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
	headings        []headed
	ticks           []Column
	unreadMoney     map[int]bool  // columns of money that are not read as money, though their names are known
	struck          []sheets.Line // rows that are crossed out, or in which cells are
	unread          money.Cents   // that is in none of its cells
	sums, crossed   []sheets.Line // rows of sums, and rows crossed out
	carried, tender []sheets.Line // rows of balances from elsewhere, and of what paid a slip
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

// Column is one column of a sheet that the table knows.
type Column struct {
	Field  *templates.Field
	Index  int
	Header string
	table  string // where it has no field
}

// at is the place of a header; of the row of column names where it is empty.
func (b *Block) at(header string) fault.Place {
	p := b.sheet.Place()
	p.Row = b.sheet.Lines[0].Number
	return p.At(header)
}

// put is what to do for a header to be read as a column of the table, or as none.
func (b *Block) put(header, field string) string {
	return settings.PutColumn(b.Table.Name, header, field)
}

// propose proposes that a header is read as a column of the table, or as none.
func (r *Reader) propose(b *Block, header, field string) bool {
	return r.lines.Propose(settings.ColumnsSection(b.Table.Name), settings.NameLine(header, field), b.at(header))
}

// tell is propose for one of several things that may be meant.
func (r *Reader) tell(b *Block, header, field string) bool {
	return r.lines.Tell(settings.ColumnsSection(b.Table.Name), settings.NameLine(header, field), b.at(header))
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

// Read finds the columns of a table and the rows that may be records. Of a sheet
// that is no table all rows are counted as that.
func (r *Reader) Read(found *tables.Found) *Block {
	s, t := found.Sheet, found.Table
	if t == nil {
		return &Block{sheet: s, unread: found.Unread, Tally: Tally{Rows: len(s.Lines), NotTable: len(s.Lines)}}
	}
	if len(s.Lines) == 0 {
		return &Block{sheet: s, Table: t}
	}
	crossed := r.takeCrossedOut(s)
	b := r.readHeader(s, t)
	b.unread = found.Unread
	b.Period = r.periodOf(s, found.Titles)
	b.struck = crossed
	r.noteCrossedOut(b, crossed)
	r.tellShape(b)
	b.Records = make([]sheets.Line, 0, len(s.Lines)-1)
	var skipped []int
	for _, l := range s.Lines[1:] {
		switch {
		case b.holdsNothing(l):
			skipped = append(skipped, l.Number)
			continue
		case columns.IsExample(s, l):
			b.Tally.Examples++
			b.Examples = append(b.Examples, l)
			skipped = append(skipped, l.Number)
		case r.notRecord(b, l):
			b.takeHeading(l)
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
	r.noteSums(b)
	r.noteWordAmounts(b)
	r.blocks[b.Table.Name] = append(r.blocks[b.Table.Name], b)
	r.findTurns(b)
	r.addLayout(b, skipped)
	return b
}

// addLayout keeps a sheet's layout. Nothing where its header could not be read, nor
// of a sheet that is turned over or has several tables: what describes layouts
// has no words for those.
func (r *Reader) addLayout(b *Block, skipped []int) {
	if b.Broken || b.Faulty || b.sheet.Of != nil || b.sheet.IsTurned {
		return
	}
	l := Layout{File: b.sheet.File, Sheet: b.sheet.Name, Table: b.Table.Name, HeaderRow: b.sheet.Lines[0].Number,
		Separates: b.sheet.Separates, Letters: b.sheet.Letters, Examples: skipped}
	for _, c := range b.inOrder() {
		l.Columns = append(l.Columns, LayoutColumn{c.Header, c.Field.Name})
	}
	r.Layouts = append(r.Layouts, l)
}

// holdsNothing says that a row is blank in all columns that are read: what it
// holds stands in others, which have been reported. A formula without its value is
// no blank, nor is a value after the last name of a plain file.
func (b *Block) holdsNothing(l sheets.Line) bool {
	if l.Broken || b.Broken || columns.IsExample(b.sheet, l) ||
		!b.sheet.InBook && !sheets.Blank(l.Cells[min(b.Width, len(l.Cells)):]) {
		return false
	}
	for _, c := range b.Columns {
		if cell := b.sheet.Cell(l, c.Index); cell.Text != "" || cell.IsUnsaved() {
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

// Misread are the fields of a line whose cells stand in columns that hold something
// else, and with a tick that is asked about, those of its sale.
func (b *Block) Misread(l sheets.Line) (fields []string) {
	for name := range b.Other {
		text := l.Text(b.Columns[name].Index)
		switch ticked, is := values.Ticked(text); {
		case text == "", name == soldTicked && is && !ticked:
		case name == soldTicked:
			fields = append(fields, name, "sold_on", "sold_price")
		default:
			fields = append(fields, name)
		}
	}
	return fields
}
