package intake

import (
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/templates"
)

// record is one row of a known table. Getters read its cells and tell what is
// wrong with them; a record with any error is refused.
type record struct {
	r       *reading
	lay     *layout
	sheet   *sheet
	line    line
	at      fault.Place
	told    map[string]bool // fields whose problem has been told
	refused bool
	// waits is where a setting would put the row right; wrong says that it has
	// an error besides.
	waits fault.Place
	wrong bool
	tally *TableTally
}

// take reads one sheet into records of its table.
func (r *reading) take(s *sheet) {
	if s.isGuide() {
		return
	}
	tally := &TableTally{File: s.file, Sheet: s.name}
	r.tally = append(r.tally, tally)
	r.sawSheet(s)
	t, ignored := r.tableOf(s)
	if t == nil {
		r.skipSheet(s, tally, ignored)
		return
	}
	tally.Table = t.Name
	r.tables[t.Name] = r.tables[t.Name][:len(r.tables[t.Name])] // there, even without a row
	if len(s.lines) == 0 {
		return
	}
	r.takeTitles(s, t)
	lay := r.readHeader(s, t)
	r.tellShape(s, lay)
	var skipped []int
	for _, l := range s.lines[1:] {
		if lay.holdsNothing(s, l) {
			skipped = append(skipped, l.number)
			continue
		}
		tally.Rows++
		if s.isExample(l) {
			tally.Examples++
			skipped = append(skipped, l.number)
			continue
		}
		if r.notRecord(s, lay, l) {
			tally.NotRecord++
			skipped = append(skipped, l.number)
			continue
		}
		rec := &record{r: r, lay: lay, sheet: s, line: l, at: s.place(), tally: tally, told: maps.Clone(lay.missing),
			refused: lay.broken || lay.faulty || l.broken}
		rec.at.Row = l.number
		rec.refused = rec.refused || r.without[rec.at]
		rec.skipOther()
		r.tables[t.Name] = append(r.tables[t.Name], rec)
		if !l.broken && len(lay.columns) > 0 {
			rec.checkWidth()
		}
		if !lay.broken && !l.broken {
			rec.checkCells()
		}
	}
	r.layout(s, t, lay, skipped)
}

// isExample says that a row is not read, since its first cell begins example:,
// the sheet's first, or the first below a column name where the table stands
// further right.
func (s *sheet) isExample(l line) bool {
	first := slices.IndexFunc(s.lines[0].cells, func(h string) bool { return strings.TrimSpace(h) != "" })
	for _, i := range []int{0, first} {
		if i >= 0 && i < len(l.cells) && strings.HasPrefix(strings.ToLower(strings.TrimSpace(l.cells[i])), templates.ExamplePrefix) {
			return true
		}
	}
	return false
}

// isGuide says that a sheet is one of the starter workbook's own that hold no
// records: our words, not the owner's, so neither counted nor told.
func (s *sheet) isGuide() bool {
	return s.asks != nil && len(s.lines) > 0 && len(s.lines[0].cells) > 0 && templates.IsGuide(s.name, s.lines[0].cells[0])
}

// skipOther refuses a row that has a cell in a column whose cells are all of
// another kind, which has been told for the column.
func (rec *record) skipOther() {
	for name := range rec.lay.other {
		if rec.raw(name) != "" {
			rec.told[name], rec.refused = true, true
		}
	}
}

// checkWidth tells values beyond the last header of a plain file.
func (rec *record) checkWidth() {
	extra := rec.line.cells[min(rec.lay.width, len(rec.line.cells)):]
	if rec.sheet.asks == nil && !blank(extra) {
		rec.refuse(fault.Problem{Code: fault.CodeRowTooLong, Place: rec.at, Found: shortened(strings.TrimSpace(strings.Join(extra, " "))),
			Why: "This row has more values than there are column names, so the values may stand in the wrong columns.",
			Fix: "Put a text that has a comma in it in quotation marks, or take the extra values out."})
	}
}

// checkCells tells what is wrong with a row whatever its table: what
// spreadsheets make of cells, formulas saved without a value.
func (rec *record) checkCells() {
	rec.headingOnly()
	for name, c := range rec.lay.columns {
		text := rec.raw(name)
		switch {
		case rec.damaged(name, c, text):
		case rec.noValue(c, text):
			rec.fail(name, fault.CodeFormulaNoValue, "This cell is a formula that was saved without its value.",
				"Open the workbook in a spreadsheet program and save it once.")
		}
	}
}

// noValue says that a cell is a formula saved without its value; in a needed
// column an empty text is none either.
func (rec *record) noValue(c column, text string) bool {
	asks, row := rec.sheet.asks, rec.line.number
	return text == "" && (asks.isUnsaved(c.index, row) || c.field.Constraints.Required && asks.isFormula(c.index, row))
}

// raw is a cell's text without outer blanks; empty where the column is missing.
func (rec *record) raw(field string) string {
	c, there := rec.lay.columns[field]
	if !there || c.index >= len(rec.line.cells) {
		return ""
	}
	return strings.TrimSpace(rec.line.cells[c.index])
}

// place is a cell's place, its column by the owner's own header.
func (rec *record) place(field string) fault.Place {
	if c, there := rec.lay.columns[field]; there {
		return rec.at.At(withoutStar(c.header))
	}
	return rec.at.At(field)
}

// withoutStar is a header without the star that the starter workbook marks the
// needed columns with.
func withoutStar(header string) string { return strings.TrimSpace(strings.TrimSuffix(header, "*")) }

// header is a column's name within a sentence: the owner's own header, or the
// table's title for a column that is not there.
func (rec *record) header(field string) string {
	if c, there := rec.lay.columns[field]; there {
		return withoutStar(c.header)
	}
	if f := rec.lay.table.Field(field); f != nil {
		return f.Title
	}
	return field
}

// refuse adds an error and refuses the row.
func (rec *record) refuse(p fault.Problem) {
	rec.r.problems.Add(p)
	rec.refused, rec.wrong = true, true
}

// fail adds an error at a cell, once for each cell.
func (rec *record) fail(field string, code fault.Code, why, fix string) {
	if rec.told[field] {
		return
	}
	rec.told[field] = true
	rec.refuse(fault.Problem{Code: code, Place: rec.place(field), Found: shortened(rec.raw(field)), Why: why, Fix: fix})
}

// failRow adds an error that no single cell is to blame for.
func (rec *record) failRow(code fault.Code, why, fix string) {
	rec.refuse(fault.Problem{Code: code, Place: rec.at, Why: why, Fix: fix})
}

// note adds a note at a cell.
func (rec *record) note(field string, code fault.Code, cents int64, why, fix string) {
	rec.r.problems.Add(fault.Problem{Code: code, Note: true, Place: rec.place(field), Found: rec.raw(field),
		Why: why, Fix: fix, MoneyCents: cents})
}

// filled says that a cell holds something.
func (rec *record) filled(field string) bool { return rec.raw(field) != "" }

// field is the table's description of a column, which must exist.
func (rec *record) field(name string) *templates.Field {
	f := rec.lay.table.Field(name)
	if f == nil {
		panic("no column " + name + " in table " + rec.lay.table.Name)
	}
	return f
}
