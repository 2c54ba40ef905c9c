package tables

import (
	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Finder finds the tables on the sheets of one books folder.
type Finder struct {
	set        *templates.Set
	settings   ledger.Settings
	names      *columns.Names
	lines      *settings.Proposals
	problems   *fault.List
	named      map[string]bool // tables that some sheet is named for
	seen       map[string]bool // the sheets there are, for settings that name none of them
	exports    map[string]int  // plain files by the workbook they are sheets of
	fits       []fit           // proposed once all sheets are known
	cash       []cashBook      // told once all sheets are known
	forms      map[*sheets.Sheet]*form
	ofPart     map[*sheets.Sheet]partTable   // the parts of sheets with several tables
	leftOnForm map[*sheets.Sheet]money.Cents // the money on forms that is in no column
}

// New makes a Finder, whose problems and proposals go into the lists.
func New(set *templates.Set, settings ledger.Settings, names *columns.Names, lines *settings.Proposals,
	problems *fault.List) *Finder {
	return &Finder{set: set, settings: settings, names: names, lines: lines, problems: problems,
		named: map[string]bool{}, seen: map[string]bool{}, exports: map[string]int{},
		forms: map[*sheets.Sheet]*form{}, ofPart: map[*sheets.Sheet]partTable{},
		leftOnForm: map[*sheets.Sheet]money.Cents{}}
}

// Found is what comes out of this room: a table, or a sheet that is none.
type Found struct {
	Sheet  *sheets.Sheet    // its first line is the column names, where it has lines
	Table  *templates.Table // nil: the sheet is no table
	Titles []string         // the texts above the column names
	// Unread is the money that is in no cell of the table, as far as it can be known
	// for money: all in a sheet that is no table, what is left on a form.
	Unread money.Cents
}

// Find finds what a sheet or a part of one is (Parts). nil: a sheet of guidance,
// which is neither counted nor reported.
func (r *Finder) Find(s *sheets.Sheet) *Found {
	if isGuide(s) {
		return nil
	}
	r.sawSheet(s)
	t, ignored := r.tableOf(s)
	if t != nil {
		r.named[t.Name] = true
	}
	if r.ofPart[s].refused {
		r.refusePart(s)
	}
	switch {
	case !ignored && r.areWords(s):
		return &Found{Sheet: s, Unread: r.tellWords(s, t)}
	case ignored:
		return &Found{Sheet: s}
	case t == nil:
		return &Found{Sheet: s, Unread: r.skipSheet(s)}
	case len(s.Lines) == 0:
		return &Found{Sheet: s, Table: t}
	}
	r.tellBetterFit(s, t)
	return &Found{Sheet: s, Table: t, Titles: r.takeTitles(s, t), Unread: r.leftOnForm[s]}
}

// IsNamed says that some sheet is named for a table.
func (r *Finder) IsNamed(table string) bool { return r.named[table] }

// isGuide says that a sheet is one of the starter workbook's own that hold no
// records: our words, not the owner's, so neither counted nor reported.
func isGuide(s *sheets.Sheet) bool {
	return s.InBook && len(s.Lines) > 0 && len(s.Lines[0].Cells) > 0 && templates.IsGuide(s.Name, s.Lines[0].Cells[0])
}
