package tables

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// Parts are the tables on a sheet, each as a sheet of its own: the sheet itself
// where it has one. Which table each of several is, is reported.
func (r *Finder) Parts(s *sheets.Sheet) []*sheets.Sheet {
	if isGuide(s) {
		return []*sheets.Sheet{s}
	}
	whole, ignored := r.tableOf(s)
	if f := r.forms[s]; f != nil && !ignored {
		return r.formParts(s, f)
	}
	if ignored {
		return []*sheets.Sheet{s}
	}
	if parts := r.cashParts(s, whole); parts != nil {
		return parts
	}
	parts := splitSheet(s, r.names.IsName, r.namesOf(whole))
	if len(parts) == 1 {
		return parts
	}
	r.sawSheet(s)
	r.partTables(whole, parts)
	return parts
}

// namesOf says of a row how many of its cells name columns of one table, that
// of the sheet or else the one with most, and whether some table is whole.
func (r *Finder) namesOf(own *templates.Table) rowNames {
	return func(cells []string) (known int, complete bool) {
		for i := range r.set.Tables {
			found, _ := r.names.Fields(&r.set.Tables[i], cells)
			known = max(known, columns.Distinct(found))
			complete = complete || columns.Distinct(found) >= 2 && columns.HasNeeded(&r.set.Tables[i], found)
		}
		if own != nil {
			n, all := r.names.In(own, cells)
			known, complete = max(known, n), complete || all
		}
		return known, complete
	}
}

// partTables finds the table of each part of a sheet: by settings.toml, by the
// heading above it, or the sheet's own where its names are all there. One that is
// none of them, beside others that are read, is refused.
func (r *Finder) partTables(whole *templates.Table, parts []*sheets.Sheet) {
	var nearest *sheets.Sheet
	most, read := 0, false
	for _, p := range parts {
		t, ignored := r.namedPart(p)
		if t == nil && !ignored && whole != nil {
			n, complete := r.bestNames(whole, p)
			if complete {
				t, nearest = whole, nil
				most = len(whole.Fields) + 1
			} else if n > most {
				nearest, most = p, n
			}
		}
		r.ofPart[p] = partTable{t: t, ignored: ignored}
		read = read || t != nil
	}
	if nearest != nil {
		r.ofPart[nearest] = partTable{t: whole}
		read = true
	}
	for i, p := range parts {
		of := r.ofPart[p]
		switch {
		case of.t != nil:
			r.problems.Add(fault.Problem{Code: fault.CodeTablesOnSheet, Note: true, Place: p.Place(),
				Why: fmt.Sprintf("This sheet has %d tables; this is number %d, from %s on, and it is read as %s.",
					len(parts), i+1, p.FirstCell, of.t.Title),
				AsksNothing: true, Fix: "It may stay."})
		case !of.ignored && read:
			of.refused = true
			r.ofPart[p] = of
		}
	}
}

// partTable is what a part of a sheet is: a table, none by settings.toml, or
// one that has to be asked for.
type partTable struct {
	t                *templates.Table
	ignored, refused bool
	told             bool // it is no table, which is told for the whole sheet
}

// namedPart is the table that settings.toml or the heading names a part for.
func (r *Finder) namedPart(p *sheets.Sheet) (t *templates.Table, ignored bool) {
	own := map[string]string{}
	for name, table := range r.settings.Sheets {
		own[settings.SheetKey(name)] = table
	}
	for _, name := range partNames(p) {
		if table, is := own[settings.SheetKey(name)]; is {
			return r.set.Table(table), table == settings.NoTable
		}
	}
	if p.Heading == "" {
		return nil, false
	}
	return r.tableNamed(p.Heading, own)
}

// partNames are the names that settings.toml can know a part by.
func partNames(p *sheets.Sheet) []string {
	if p.Name == p.Of.Name {
		return []string{p.Name}
	}
	base := p.Of.Name
	if base == "" {
		base = p.Of.Known
	}
	names := []string{p.Name, base + "!" + p.FirstCell}
	if p.Heading != "" {
		names = append(names, p.Heading)
	}
	return names
}

// refusePart tells a table on a sheet whose other tables are read, and that is
// named for none itself.
func (r *Finder) refusePart(s *sheets.Sheet) {
	place := s.Place()
	place.Row = s.Lines[0].Number
	address := partNames(s)[1]
	if s.IsCash {
		address = s.Known // the two begin at one cell
	}
	line := func(table string) string { return fmt.Sprintf("%s = %q", settings.TomlText(address), table) }
	p := fault.Problem{Code: fault.CodeTableUnnamed, Place: place,
		Found: sheets.Shortened(strings.Join(slices.DeleteFunc(slices.Clone(s.Lines[0].Cells),
			func(c string) bool { return strings.TrimSpace(c) == "" }), ", ")),
		Why: fmt.Sprintf("Another table begins here, at %s, and it is named for none, so it is not read.", s.FirstCell)}
	none := fmt.Sprintf("If it is not to be read, put %s.", line(settings.NoTable))
	if t, _ := r.Fitting(s); t != nil && r.lines.Propose("sheets", line(t.Name), place) {
		p.Why = fmt.Sprintf("Another table begins here, at %s. Its column names fit %s, but it is named for none, so "+
			"it is not read.", s.FirstCell, t.Title)
		p.Fix = fmt.Sprintf("If it is %s, put %s under [sheets] of settings.toml. %s", t.Title, line(t.Name), none)
	} else {
		why, lines := r.sayGuesses(s, address)
		p.Why += why
		p.Fix = fmt.Sprintf("%s. %s If its columns belong to the rows on its left, take out the blank column between them.",
			cmp.Or(lines, "Put the table that is meant under [sheets] of settings.toml"), none)
	}
	r.problems.Add(p)
}
