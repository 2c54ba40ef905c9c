// Package intake turns a books folder into ledger.Books: files into sheets,
// sheets into tables, rows into records, names into what they stand for.
//
// Nothing stops at the first problem. A row with an error is refused and all
// its problems are reported; the other rows are read. Every row is accounted for
// in the Tally: rows = used + refused + examples + totals and column names
// again + rows of sheets that are no table. Blank rows are not counted, nor are
// titles above the column names.
//
// Files become sheets in intake/sheets, the tables on them are found in
// intake/tables and their columns in intake/headers, a row's cells are read in
// intake/rows and a cell's words become a value in intake/values; settings.toml is
// read in intake/settings. Here rows become records with their names resolved, and
// what is proposed is tried before it is said.
package intake

import (
	"io/fs"
	"maps"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/headers"
	"piecebook/ledger/intake/rows"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/tables"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Result is everything read. Books holds no refused row and no reference to
// one, so it can be costed even where Problems has errors.
type Result struct {
	Books    ledger.Books
	Problems fault.List
	Tally    []TableTally // by file, then place in it
	Layouts  []Layout     // of the sheets that were read, in the same order
	// Fingerprint is the first 12 hexadecimal digits of SHA-256 over the names
	// and bytes of all files read, in name order, settings.toml included.
	Fingerprint string
	// Proposals are lines for settings.toml that would put problems right, each
	// once, in the order of the file; SettingsLines is them as one block.
	Proposals []settings.Proposal
	reported  []settings.Proposal          // lines that only the words of a problem name
	choices   [][]settings.Proposal        // lines of which one is proposed
	sections  map[string]bool              // of settings.toml: its keys and sections
	rows      map[fault.Place][]*tableRows // by sheet
	// Money is how much of the money in the files is in the books.
	Money MoneyRead
}

// Layout is how one sheet of a table stands in its file.
type Layout = headers.Layout

// TableTally accounts for the rows below the header of one sheet (a plain
// file is one sheet): Rows = Used + Refused + Examples + NotTable.
type TableTally struct {
	File     string
	Sheet    string // workbooks only
	Table    string // empty: no table
	Rows     int    // not blank in all columns that are read
	Used     int
	Refused  int // with an error, or a line of receipts that could not be placed
	Examples int // first cell begins example:
	// NotRecord are rows of totals and headers that stand there again, each noted.
	NotRecord int
	NotTable  int // of a sheet that is no table
}

// Read reads the books folder in fsys: settings.toml where there is one, and
// all below records/. A folder without records/ is read for the files that
// stand directly in it, which is how a single dropped workbook is read. Read
// never fails as a whole: whatever is wrong is among the problems.
//
// The rows at the places without are refused whatever they say, and with them
// what refers to them: how a draft leaves out a line that only other tables
// show to be wrong.
//
// Lines that are proposed for settings.toml are tried first: those that lead to
// the absurd are not proposed.
func Read(fsys fs.FS, t *templates.Set, without ...fault.Place) *Result {
	var rejected []settings.Proposal
	for {
		res := read(fsys, t, without, trial{rejected: rejected})
		bad := absurdLines(fsys, t, without, res)
		if len(bad) == 0 {
			return res
		}
		rejected = append(rejected, bad...) // what is shown in their place is tried too
	}
}

// read is Read with lines as if they stood in settings.toml, or without proposing
// some.
func read(fsys fs.FS, t *templates.Set, without []fault.Place, try trial) *Result {
	r := &reading{set: t, tables: map[string][]*record{}, readRows: map[fault.Place][]*tableRows{},
		without:  withoutRows(without),
		examples: map[string]string{}, asExamples: map[string]fault.Place{}}
	text := sheets.Settings(fsys, &r.problems)
	r.settings, r.sections = settings.Read(text, t, &r.problems, try.pasted...)
	r.readMeant()
	r.lines.Rejected = try.rejected
	names := columns.New(t, r.settings)
	r.finder = tables.New(t, r.settings, names, &r.lines, &r.problems)
	r.heads = headers.New(t, r.settings, names, r.finder, &r.lines, &r.problems)
	r.rows = rows.New(t, r.settings, r.sections, &r.lines, &r.problems, r.exampleOf)

	files, fingerprint := sheets.Collect(fsys, text, r.finder.IsTable, &r.problems)
	r.finder.CountExports(files)
	all := slices.Collect(sheets.Open(files, names.IsName, &r.problems))
	r.finder.FindForms(all)
	for _, s := range all {
		r.take(s)
	}
	r.takeOutCopies()
	r.build()

	// What only shows once all has been read.
	if len(r.tables) == 0 && !r.problems.HasErrors() {
		r.finder.NoTable()
	}
	r.finder.ProposeSheets()
	r.finder.NoteUnused(string(text))
	r.heads.NoteUnused(string(text))
	r.noteUnusedNames(string(text))
	r.rows.NoteEitherWay()
	r.noteMetric()
	r.rows.NoteCurrency()
	r.rows.TellCauses()
	return &Result{Books: r.books, Problems: r.problems, Tally: r.tallies(), Layouts: r.heads.Layouts,
		Fingerprint: fingerprint, Proposals: settings.SortedProposals(r.lines.Proposed),
		reported: settings.SortedProposals(r.lines.Told), choices: r.lines.Choices, sections: r.sections,
		rows: r.readRows, Money: r.moneyRead()}
}

// record is a row that becomes a record.
type record struct {
	*rows.Row
	r     *reading
	tally *TableTally
	// unplaced is a line of receipts that could not be placed: it is in no figure.
	unplaced bool
	// elsewhere is one whose money stands in another record: it is not counted as missing.
	elsewhere bool
	// atAsking is what a ticked piece sold for, where that is its asking price.
	atAsking money.Cents
}

// reading is one run of Read.
type reading struct {
	set      *templates.Set
	settings ledger.Settings
	sections map[string]bool    // of settings.toml
	lines    settings.Proposals // for settings.toml
	finder   *tables.Finder
	heads    *headers.Reader
	rows     *rows.Reader
	books    ledger.Books
	problems fault.List
	tally    []*TableTally
	unread   []money.Cents // of each, what no row that may be a record holds
	slips    map[*record]slip
	bySlip   []ledger.Supply      // supplies that only lines of receipts name
	tables   map[string][]*record // rows by table, in reading order
	readRows map[fault.Place][]*tableRows
	without  map[fault.Place]bool // rows that are refused whatever they say
	names    names
	examples map[string]string // names there are, by table
	// asExamples are the rows still marked as examples, by exampleKey.
	asExamples map[string]fault.Place
	meant      map[string]string // [names] of settings.toml, by how names are compared
	nets       []netFee          // fees worked out from what reached the owner
	afterSales []func()          // notes of sales that ask what went back of them, told once all are read
	// pieceRows are the rows of the pieces that were read, by piece.
	pieceRows map[string]*record
}

// tallies copies the tally out, now that no more rows are refused.
func (r *reading) tallies() []TableTally {
	for _, table := range slices.Sorted(maps.Keys(r.tables)) {
		for _, rec := range r.tables[table] {
			if rec.Refused || rec.unplaced {
				rec.tally.Refused++
			} else {
				rec.tally.Used++
			}
		}
	}
	out := make([]TableTally, len(r.tally))
	for i, t := range r.tally {
		out[i] = *t
	}
	return out
}

// take reads one sheet into records of its tables.
func (r *reading) take(s *sheets.Sheet) {
	for _, part := range r.finder.Parts(s) {
		if found := r.finder.Find(part); found != nil {
			r.takeTable(found)
		}
	}
}

// takeTable reads one table of a sheet.
func (r *reading) takeTable(found *tables.Found) {
	s, b := found.Sheet, r.heads.Read(found)
	tally := &TableTally{File: s.File, Sheet: s.Name, Rows: b.Tally.Rows, Examples: b.Tally.Examples,
		NotRecord: b.Tally.NotRecord, NotTable: b.Tally.NotTable}
	r.tally = append(r.tally, tally)
	r.unread = append(r.unread, r.heads.UnreadMoney(b))
	if b.Table == nil {
		return
	}
	tally.Table = b.Table.Name
	without := &headers.Block{Table: b.Table, Columns: b.Columns, Records: b.Records} // its sheet, which is let go
	r.readRows[s.Place()] = append(r.readRows[s.Place()], &tableRows{block: without})
	r.tables[b.Table.Name] = r.tables[b.Table.Name][:len(r.tables[b.Table.Name])] // there, even without a row
	for _, l := range b.Examples {
		name, column := columns.ExampleOf(s, l)
		at := s.Place()
		at.Row, at.Column = l.Number, s.Lines[0].Cells[column]
		r.asExamples[exampleKey(b.Table.Name, name)] = at
	}
	for _, l := range b.Records {
		rec := &record{Row: r.rows.Row(b, s, l, r.without), r: r, tally: tally}
		r.tables[b.Table.Name] = append(r.tables[b.Table.Name], rec)
	}
}

// exampleOf is a name there is, as an example; empty where there is none.
func (r *reading) exampleOf(table, field string) (example string) {
	if example, made := r.examples[table]; made {
		return example
	}
	defer func() { r.examples[table] = example }()
	least := ""
	for _, rec := range r.tables[table] {
		if name := rec.Raw(field); name != "" && (least == "" || name < least) {
			least = name
		}
	}
	if least == "" {
		return ""
	}
	return ", such as " + least
}
