package headers

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// trailing is what may follow a table's name: a year, a month or a number.
var trailing = regexp.MustCompile(
	`(?i)^(.*?)(?:[\s\-_.]*(?:\(\s*\d+\s*\)|\d+)|[\s\-_.]+(?:jan|feb|mar|apr|may|jun|jul|aug|sept?|oct|nov|dec|january|february|march|april|june|july|august|september|october|november|december))\s*$`)

// tableOf finds the table a sheet is named for; nil where it is none. ignored
// says that settings.toml maps it to none. A plain file that is a sheet of a
// workbook is named for both, as spreadsheet programs export it: `Shop book -
// Sales.csv`, or `Shop book-Sales.csv` where it is not the only one of its book.
func (r *Reader) tableOf(s *sheets.Sheet) (t *templates.Table, ignored bool) {
	if s.Of != nil {
		return r.ofPart[s].t, r.ofPart[s].ignored
	}
	own := map[string]string{}
	for name, table := range r.settings.Sheets {
		own[settings.SheetKey(name)] = table
	}
	if table, is := own[settings.SheetKey(inFile(s))]; is {
		return r.set.Table(table), table == settings.NoTable
	}
	t, ignored = r.tableNamed(s.Known, own)
	if t != nil || ignored || s.InBook {
		return t, ignored
	}
	if i := strings.LastIndex(s.Known, " - "); i >= 0 {
		return r.tableNamed(s.Known[i+3:], own)
	}
	if book, tail := exported(s.File); r.exports[book] > 1 {
		return r.tableNamed(tail, own)
	}
	return nil, false
}

// sawSheet remembers the names that settings.toml can know a sheet by, with
// what trails them and without.
func (r *Reader) sawSheet(s *sheets.Sheet) {
	if s.Of != nil {
		for _, name := range partNames(s) {
			r.seenSheets[settings.SheetKey(name)] = true
		}
		return
	}
	names := []string{s.Known, inFile(s)}
	if i := strings.LastIndex(s.Known, " - "); i >= 0 && !s.InBook {
		names = append(names, s.Known[i+3:])
	}
	if _, tail := exported(s.File); !s.InBook {
		names = append(names, tail)
	}
	for _, name := range names {
		for values.Compact(name) != "" {
			r.seenSheets[settings.SheetKey(name)] = true
			m := trailing.FindStringSubmatch(name)
			if m == nil {
				break
			}
			name = m[1]
		}
	}
}

// countExports counts the plain files that are named for a workbook and a
// table, by workbook.
func (r *Reader) CountExports(files []sheets.File) {
	for _, f := range files {
		if book, tail := exported(f.Name); book != "" && r.IsTable(tail) {
			r.exports[book]++
		}
	}
}

// exported splits the name of a plain file into its workbook's, with the
// folder, and its sheet's; nothing where it has no hyphen.
func exported(name string) (book, sheet string) {
	bare := strings.TrimSuffix(name, path.Ext(name))
	i := strings.LastIndexByte(bare, '-')
	if i <= strings.LastIndexByte(bare, '/')+1 || !sheets.IsText(strings.ToLower(path.Ext(name))) {
		return "", ""
	}
	return bare[:i], bare[i+1:]
}

// isTable says that a plain file of that name, ending apart, has a table or is
// mapped to none.
func (r *Reader) IsTable(name string) bool {
	t, ignored := r.tableOf(&sheets.Sheet{File: name + ".", Known: name})
	return t != nil || ignored
}

// tableNamed finds the table of a name, in settings.toml (own) first, then by
// the tables' own names, as it stands and then without what trails it.
func (r *Reader) tableNamed(name string, own map[string]string) (t *templates.Table, ignored bool) {
	for {
		if table, is := own[settings.SheetKey(name)]; is {
			return r.set.Table(table), table == settings.NoTable
		}
		for i := range r.set.Tables {
			t := &r.set.Tables[i]
			if named(values.Compact(name), t.Name, t.OtherNames) {
				return t, false
			}
		}
		m := trailing.FindStringSubmatch(name)
		if m == nil || values.Compact(m[1]) == "" {
			return nil, false
		}
		name = m[1]
	}
}

// inFile names a sheet together with its file, for where two workbooks have a
// sheet of one name: `My flips 2026, Sheet1`.
func inFile(s *sheets.Sheet) string {
	base := path.Base(s.File)
	base = strings.TrimSuffix(base, path.Ext(base))
	if s.Name == "" {
		return base
	}
	return base + ", " + s.Name
}

// named says that a compact name is a name or one of its other names.
func named(compacted, name string, others []string) bool {
	return compacted == values.Compact(name) ||
		slices.ContainsFunc(others, func(o string) bool { return values.Compact(o) == compacted })
}

// readHeader matches the first row to the table's columns and tells what is
// unknown, twice there, or missing.
func (r *Reader) readHeader(s *sheets.Sheet, t *templates.Table) *Block {
	head := s.Lines[0]
	at := s.Place()
	at.Row = head.Number
	b := &Block{sheet: s, Table: t, Columns: map[string]Column{}, headers: head.Cells, Broken: head.Broken,
		Missing: map[string]bool{}, Other: map[string]bool{}, proposed: map[string]bool{}, unreadMoney: map[int]bool{}}
	fields, ignored := r.headerFields(t, head.Cells)
	var twice []Column
	for i, text := range head.Cells {
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		b.Width = i + 1
		r.seenHeaders[t.Name+" "+settings.HeaderKey(text)] = true
		f := fields[i]
		if ignored[i] {
			b.skipped = append(b.skipped, i)
		}
		if !ignored[i] && r.takesTicks(s, b, f, i) {
			b.ticks = append(b.ticks, Column{Index: i, Header: text, table: t.Name})
			continue
		}
		if f == nil {
			if own := r.ownMoney(s, b, fields, i); own != nil && !ignored[i] {
				twice = append(twice, Column{Field: own, Index: i, Header: text})
				continue
			}
			if !ignored[i] {
				b.unknown = append(b.unknown, Column{Index: i, Header: text, table: t.Name})
			}
			continue
		}
		if _, there := b.Columns[f.Name]; there { // reported once all columns are known
			twice = append(twice, Column{Field: f, Index: i, Header: text})
			continue
		}
		b.Columns[f.Name] = Column{Field: f, Index: i, Header: text}
		r.checkHeaderUnit(at.At(text), b, f, text)
	}
	for _, c := range twice {
		r.columnTwice(s, at.At(c.Header), b, b.Columns[c.Field.Name], c)
	}
	b.netOfSales()
	r.takeUnits(s, at, b)
	r.askDelivery(s, at, b)
	r.takeFor(s, at, b)
	r.noteBesideMoney(s, at, b)
	if len(b.Columns) > 0 { // else all of them are reported as one
		for _, c := range b.unknown {
			r.unknownHeader(s, at.At(c.Header), b, c)
		}
	}
	r.askTicks(s, at, b)
	r.noteBlankHeaders(s, at, b)
	r.missingColumns(s, at, b)
	r.otherMeanings(s, at, b)
	if b.Broken || b.Faulty {
		r.brokenAt(t, at)
	}
	return b
}

// brokenAt remembers where a table could not be read, so that what depends on it
// is not reported as an error of its own.
func (r *Reader) brokenAt(t *templates.Table, at fault.Place) {
	if first, there := r.Broken[t.Name]; !there || at.Compare(first) < 0 {
		r.Broken[t.Name] = at
	}
}

// noteBlankHeaders notes a column that is filled but has no name. In a
// workbook it may stand beside the table, a scribble; in a plain file a value
// after the last name means that the row's values have shifted, which
// checkCells refuses.
func (r *Reader) noteBlankHeaders(s *sheets.Sheet, at fault.Place, b *Block) {
	width := b.Width
	if s.InBook {
		for _, l := range s.Lines[1:] {
			width = max(width, len(l.Cells))
		}
	}
	for i := range width {
		if i < len(b.headers) && strings.TrimSpace(b.headers[i]) != "" {
			continue
		}
		for _, l := range s.Lines[1:] {
			if i < len(l.Cells) && strings.TrimSpace(l.Cells[i]) != "" {
				r.problems.Add(fault.Problem{Code: fault.CodeHeaderBlank, Note: true, Place: at.At(sheets.ColumnLetters(i)),
					MoneyCents: r.sumOf(s, i),
					Why:        fmt.Sprintf("Column %s is filled but has no name, so it is not read.", sheets.ColumnLetters(i)),
					Fix:        "Give it a name if it is to be read."})
				break
			}
		}
	}
}

// neededColumns are the columns a table cannot do without.
func NeededColumns(t *templates.Table) []string {
	var names []string
	for _, f := range t.Fields {
		if f.Constraints.Required {
			names = append(names, f.Name)
		}
	}
	return names
}
