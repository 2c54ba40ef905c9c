package tables

import (
	"fmt"
	"maps"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// skipSheet notes a sheet that is no table, unless it is wholly blank or a part of a
// sheet that has been refused. All its rows count as skipped, the first too. One
// whose headers fit a table is proposed as that; it could move all the money in it.
// cents is the money in its rows.
func (r *Finder) skipSheet(s *sheets.Sheet) (cents money.Cents) {
	fits, head := r.Fitting(s)
	cents = r.moneyBelow(s, fits, head) + r.leftOnForm[s]
	perhaps := cents == 0 && fits == nil
	if perhaps {
		cents = columns.NumbersIn(s, r.settings)
	}
	if len(s.Lines) == 0 || r.ofPart[s].refused || r.ofPart[s].told {
		return cents
	}
	p := fault.Problem{Code: fault.CodeSheetSkipped, Note: true, Place: s.Place(), Found: s.Known,
		Why: "No table has this name, so it was skipped", AsksNothing: true}
	if s.Name != "" {
		p.Found = "" // the place says it
	}
	if t := fits; t != nil && !r.rejectsSheet(s, t.Name) {
		r.fits = append(r.fits, fit{s.Known, inFile(s), t.Name, s.Place()})
		p.MoneyCents, p.AsksNothing = r.moneyOf(s, t, head), false
		p.Why += fmt.Sprintf(", but its column names fit %s.", t.Title)
		p.Fix = fmt.Sprintf("If it holds records of it, rename it %s, or put %s = %s under [sheets] of settings.toml.",
			t.Title, settings.TomlText(s.Known), settings.TomlText(t.Name))
	} else if near := r.nearTable(s.Known); near != "" && !r.rejectsSheet(s, near) &&
		r.lines.Tell("sheets", settings.NameLine(s.Known, near), s.Place()) {
		p.AsksNothing = false
		p.Why += "."
		p.Fix = fmt.Sprintf("The nearest table is %s. If that is meant, rename it, or put %s = %s under [sheets] of "+
			"settings.toml.", near, settings.TomlText(s.Known), settings.TomlText(near))
	} else {
		r.askTable(s, &p, cents, perhaps)
	}
	r.problems.Add(p)
	return cents
}

// askTable asks which table a sheet is, with those that it can be by what its cells hold.
func (r *Finder) askTable(s *sheets.Sheet, p *fault.Problem, cents money.Cents, perhaps bool) {
	if cents != 0 {
		p.MoneyCents, p.AsksNothing = int64(cents), false
	}
	switch {
	case cents != 0 && perhaps:
		p.Why += fmt.Sprintf(". The numbers in it come to %s, which is in no figure, if they are money", cents.Grouped())
	case cents != 0:
		p.Why += fmt.Sprintf(", and the %s in it is in no figure", cents.Grouped())
	}
	why, lines := r.sayGuesses(s, s.Known)
	p.Why += "." + why
	p.Fix = "If it holds no records, it may stay. "
	if lines != "" {
		p.Fix += fmt.Sprintf("%s. %s under [sheets] skips it without a note.", lines, settings.NameLine(s.Known,
			settings.NoTable))
	} else {
		p.Fix += fmt.Sprintf("If it does, rename it for its table, or name the table under [sheets] of settings.toml "+
			"(pieces, hours, sales, purchases, supplies, uses, expenses, trips); %s there skips it without a note.",
			settings.TomlText(settings.NoTable))
	}
	if comma := "decimal_comma = true"; !s.InBook && !r.settings.DecimalComma && cents == 0 && r.hasCommas(s) &&
		r.lines.Propose("", comma, s.Place()) {
		p.AsksNothing = false
		p.Fix += fmt.Sprintf(" Its amounts have a decimal comma: %s.", settings.Put("", comma))
	}
}

// hasCommas says that a sheet has a column of amounts with a decimal comma.
func (r *Finder) hasCommas(s *sheets.Sheet) bool {
	for i := range s.Lines[0].Cells {
		if r.looksMoney(s, i, true) && !r.looksMoney(s, i, false) {
			return true
		}
	}
	return false
}

// moneyBelow is the money below the line of a sheet that would be its column names:
// the table's that they fit, as far as it changed hands, and what looks like money.
func (r *Finder) moneyBelow(s *sheets.Sheet, fits *templates.Table, head int) money.Cents {
	if len(s.Lines) == 0 {
		return 0
	}
	var likely []*templates.Field
	if fits != nil {
		likely, _ = r.names.Fields(fits, s.Lines[head].Cells)
	} else {
		for head = 0; head+1 < len(s.Lines) && sheets.Filled(s.Lines[head].Cells) == 1; { // titles
			head++
		}
	}
	return columns.UnreadMoney(s, s.Lines[head].Cells, s.Lines[head+1:], func(i int) columns.Holds {
		switch {
		case i >= len(likely) || likely[i] == nil:
			return columns.Unknown
		case columns.Flows(likely[i]):
			return columns.HoldsMoney
		}
		return columns.HoldsOther
	}, r.settings)
}

// tellBetterFit notes a sheet that is named for one table and whose column names
// fit another better by two and more: a list of pieces called Sold.
func (r *Finder) tellBetterFit(s *sheets.Sheet, t *templates.Table) {
	better, head, others := r.fitsBetter(s, t)
	if better == nil || better == t || s.Of != nil && s.Heading == "" ||
		slices.ContainsFunc(slices.Collect(maps.Keys(r.settings.Sheets)), func(name string) bool {
			return settings.SheetKey(name) == settings.SheetKey(s.Known)
		}) {
		return
	}
	count := func(t *templates.Table) int {
		found, _ := r.names.Fields(t, s.Lines[head].Cells)
		return columns.Distinct(found)
	}
	n, of := count(better), count(t)
	line := settings.NameLine(s.Known, better.Name)
	if n < of+2 && len(others) == 0 || !r.lines.Propose("sheets", line, s.Place()) {
		return
	}
	r.lines.Either(others, s.Place())
	r.problems.Add(fault.Problem{Code: fault.CodeSheetFitsOther, Note: true, Place: s.Place(),
		MoneyCents: r.moneyOf(s, better, head),
		Why: fmt.Sprintf("By its name this is %s, but of its column names %d fit %s and %d fit %s.", t.Title, n,
			better.Title, of, t.Title),
		Fix: fmt.Sprintf("If its rows are %s, put %s under [sheets] of settings.toml, or rename it.", better.Title, line)})
}

// fitsBetter is the table whose columns a sheet's headers are rather than those of the
// table it is named for. Where it has not all that its own needs, others are the lines
// for all tables that it could be, of which reading shows the best.
func (r *Finder) fitsBetter(s *sheets.Sheet, t *templates.Table) (better *templates.Table, head int, others []string) {
	for i := range min(len(s.Lines), sheets.TitleRowsMax) {
		if !canBeTitles(s.Lines[:i]) {
			break
		}
		if _, own := r.names.In(t, s.Lines[i].Cells); own {
			others, better = nil, nil
			break
		}
		for _, other := range r.wholeFits(s.Lines[i].Cells, t) {
			if r.rejectsSheet(s, other.Name) {
				continue
			}
			if better == nil {
				better, head = other, i
			}
			others = append(others, settings.NameLine(s.Known, other.Name))
		}
	}
	if better == nil {
		if better, head = r.Fitting(s); better != nil && r.rejectsSheet(s, better.Name) {
			better = nil
		}
	}
	return better, head, others
}

// rejectsSheet says that a sheet is not to be proposed as a table, by its own name
// or with its file's.
func (r *Finder) rejectsSheet(s *sheets.Sheet, table string) bool {
	return r.lines.Rejects("sheets", settings.NameLine(s.Known, table)) ||
		r.lines.Rejects("sheets", settings.NameLine(inFile(s), table))
}

// nearTable is the table a sheet's name is nearest to; empty where none is near.
func (r *Finder) nearTable(name string) string {
	if m := trailing.FindStringSubmatch(name); m != nil && m[1] != "" {
		name = m[1]
	}
	var known []string
	for _, t := range r.set.Tables {
		known = append(known, t.Name)
	}
	return fault.Nearest(name, known)
}

// fit is a sheet whose headers fit a table that it is not named for.
type fit struct {
	known, inFile, table string
	at                   fault.Place
}

// ProposeSheets proposes the sheets that fit a table. Two sheets of one name
// that fit different tables are named with their files.
func (r *Finder) ProposeSheets() {
	r.tellCashBooks()
	tables := map[string]string{}
	apart := map[string]bool{}
	for _, f := range r.fits {
		key := settings.SheetKey(f.known)
		if t, seen := tables[key]; seen && t != f.table {
			apart[key] = true
		}
		tables[key] = f.table
	}
	for _, f := range r.fits {
		name := f.known
		if apart[settings.SheetKey(name)] {
			name = f.inFile
		}
		r.lines.Propose("sheets", settings.NameLine(name, f.table), f.at)
	}
}

// NoTable tells records without any table, and which of their sheets could be one.
func (r *Finder) NoTable() {
	p := fault.Problem{Code: fault.CodeNoRecords, Place: fault.Place{File: sheets.RecordsFolder},
		Why: "No file or sheet here is named for a table, so there is nothing to read.",
		Fix: "Name each file or sheet for its table, such as pieces.csv or a sheet Pieces."}
	if len(r.fits) > 0 {
		f := r.fits[0]
		p.Why = fmt.Sprintf("No file or sheet here is named for a table, but the column names of %s fit %s.", f.at,
			r.set.Table(f.table).Title)
		p.Fix = fmt.Sprintf("If it is, write [sheets] into settings.toml and below it %s = %s; or rename it %s.",
			settings.TomlText(f.known), settings.TomlText(f.table), r.set.Table(f.table).Title)
	}
	r.problems.Add(p)
}

// marks are columns, of each list of which a sheet has one where it is a table that by its other
// columns could as well be several: a day, words and an amount are a tool's too.
var marks = map[string][][]string{"equipment": {{"life"}},
	"pieces": {{"price", "lot", "how", "tax_paid"}, {"got_on", "lot"}}}
