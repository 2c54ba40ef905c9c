package tables

import (
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"

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
func (r *Finder) tableOf(s *sheets.Sheet) (t *templates.Table, ignored bool) {
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
func (r *Finder) sawSheet(s *sheets.Sheet) {
	if s.Of != nil {
		for _, name := range partNames(s) {
			r.seen[settings.SheetKey(name)] = true
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
			r.seen[settings.SheetKey(name)] = true
			m := trailing.FindStringSubmatch(name)
			if m == nil {
				break
			}
			name = m[1]
		}
	}
}

// CountExports counts the plain files that are named for a workbook and a
// table, by workbook.
func (r *Finder) CountExports(files []sheets.File) {
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

// IsTable says that a plain file of that name, ending apart, has a table or is
// mapped to none.
func (r *Finder) IsTable(name string) bool {
	t, ignored := r.tableOf(&sheets.Sheet{File: name + ".", Known: name})
	return t != nil || ignored
}

// tableNamed finds the table of a name, in settings.toml (own) first, then by
// the tables' own names, as it stands and then without what trails it.
func (r *Finder) tableNamed(name string, own map[string]string) (t *templates.Table, ignored bool) {
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

// NoteUnused notes lines of [sheets] that name a sheet that is not there: a slip of
// the pen, or a name since changed.
func (r *Finder) NoteUnused(text string) {
	for _, name := range slices.Sorted(maps.Keys(r.settings.Sheets)) {
		if !r.seen[settings.SheetKey(name)] {
			r.problems.Add(settings.Unused(text, "sheets", name, "sheet or file"))
		}
	}
}
