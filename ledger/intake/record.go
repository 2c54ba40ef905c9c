package intake

import (
	"fmt"
	"maps"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/headers"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/tables"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// record is one row of a known table. Getters read its cells and tell what is
// wrong with them; a record with any error is refused.
type record struct {
	r        *reading
	block    *headers.Block
	sheet    *sheets.Sheet
	line     sheets.Line
	at       fault.Place
	reported map[string]bool // fields whose problem has been reported
	refused  bool
	// unplaced is a line of receipts that could not be placed: it is in no figure.
	unplaced bool
	// waits is where a setting would put the row right; wrong says that it has
	// an error besides.
	waits fault.Place
	wrong bool
	tally *TableTally
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
	r.tables[b.Table.Name] = r.tables[b.Table.Name][:len(r.tables[b.Table.Name])] // there, even without a row
	for _, l := range b.Examples {
		name, column := columns.ExampleOf(s, l)
		at := s.Place()
		at.Row, at.Column = l.Number, s.Lines[0].Cells[column]
		r.asExamples[exampleKey(b.Table.Name, name)] = at
	}
	for _, l := range b.Records {
		rec := &record{r: r, block: b, sheet: s, line: l, at: s.Place(), tally: tally, reported: maps.Clone(b.Missing),
			refused: b.Broken || b.Faulty || l.Broken}
		rec.at.Row = l.Number
		rec.refused = rec.refused || r.without[rec.at]
		rec.skipOther()
		r.tables[b.Table.Name] = append(r.tables[b.Table.Name], rec)
		if !l.Broken && len(b.Columns) > 0 {
			rec.checkWidth()
		}
		if !b.Broken && !l.Broken {
			rec.checkCells()
		}
	}
}

// skipOther refuses a row that has a cell in a column whose cells are all of
// another kind, which has been reported for the column.
func (rec *record) skipOther() {
	for name := range rec.block.Other {
		yes, isTick := values.Ticked(rec.raw(name))
		switch {
		case rec.raw(name) == "", name == headers.SoldTicked && isTick && !yes:
			continue
		case name == headers.SoldTicked:
			rec.reported["sold_on"], rec.reported["sold_price"] = true, true
		}
		rec.reported[name], rec.refused = true, true
	}
}

// checkWidth tells more cells than there are headers of a plain file.
func (rec *record) checkWidth() {
	extra, is := rec.block.TooWide(rec.line)
	switch {
	case !is:
	case len(extra) == 0:
		rec.refuse(fault.Problem{Code: fault.CodeRowTooLong, Place: rec.at,
			Why: "This row has a separator more than most others, so its values may stand in the wrong columns.",
			Fix: "Put a text that has a comma in it in quotation marks; if none has, take out the separator at the end."})
	default:
		rec.refuse(fault.Problem{Code: fault.CodeRowTooLong, Place: rec.at,
			Found: sheets.Shortened(strings.TrimSpace(strings.Join(extra, " "))),
			Why:   "This row has more values than there are column names, so the values may stand in the wrong columns.",
			Fix:   "Put a text that has a comma in it in quotation marks, or take the extra values out."})
	}
}

// checkCells tells what is wrong with a row whatever its table: what
// spreadsheets make of cells, formulas saved without a value.
func (rec *record) checkCells() {
	rec.headingOnly()
	for name, c := range rec.block.Columns {
		cell := rec.cell(name)
		switch refusal := values.Damaged(cell, c.Field.Cell); {
		case refusal != nil:
			rec.refusal(name, refusal)
		case rec.noValue(c, cell):
			rec.fail(name, fault.CodeFormulaNoValue, "This cell is a formula that was saved without its value.",
				"Open the workbook in a spreadsheet program and save it once.")
		case c.Field.Cell == templates.Name && values.LooksTurned(cell):
			rec.noteOnly(name, fault.CodeNameLooksNumber, 0, "A spreadsheet takes this name for a number or a date, and may "+
				"have changed it or change it when it saves.",
				"It may stay if it is as you typed it; a letter in front, such as P"+cell.Text+", keeps it as it is.")
		}
	}
}

// noValue says that a cell is a formula saved without its value; in a needed
// column an empty text is none either.
func (rec *record) noValue(c headers.Column, cell sheets.Cell) bool {
	return cell.Text == "" && (cell.IsUnsaved() || c.Field.Constraints.Required && cell.IsFormula())
}

// raw is a cell's text without outer blanks; empty where the column is missing.
func (rec *record) raw(field string) string {
	c, there := rec.block.Columns[field]
	if !there {
		return ""
	}
	return rec.line.Text(c.Index)
}

// place is a cell's place, its column by the owner's own header.
func (rec *record) place(field string) fault.Place {
	if c, there := rec.block.Columns[field]; there {
		return rec.at.At(withoutStar(c.Header))
	}
	return rec.at.At(field)
}

// withoutStar is a header without the star that the starter workbook marks the
// needed columns with.
func withoutStar(header string) string { return strings.TrimSpace(strings.TrimSuffix(header, "*")) }

// header is a column's name within a sentence: the owner's own header, or the
// table's title for a column that is not there.
func (rec *record) header(field string) string {
	if c, there := rec.block.Columns[field]; there {
		return withoutStar(c.Header)
	}
	if f := rec.block.Table.Field(field); f != nil {
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
	if rec.reported[field] {
		return
	}
	rec.reported[field] = true
	rec.refuse(fault.Problem{Code: code, Place: rec.place(field), Found: sheets.Shortened(rec.raw(field)),
		Why: why, Fix: fix})
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

// noteOnly is note for what asks nothing of the owner.
func (rec *record) noteOnly(field string, code fault.Code, cents int64, why, fix string) {
	rec.r.problems.Add(fault.Problem{Code: code, Note: true, AsksNothing: true, Place: rec.place(field),
		Found: rec.raw(field),
		Why:   why, Fix: fix, MoneyCents: cents})
}

// filled says that a cell holds something.
func (rec *record) filled(field string) bool { return rec.raw(field) != "" }

// field is the table's description of a column, which must exist.
func (rec *record) field(name string) *templates.Field {
	f := rec.block.Table.Field(name)
	if f == nil {
		panic("no column " + name + " in table " + rec.block.Table.Name)
	}
	return f
}

// headingOnly tells a row that holds one known cell and lacks what the table
// needs: a heading, such as a month's name, or a line that was only begun. It
// is reported once rather than for each blank cell.
func (rec *record) headingOnly() {
	filled := ""
	for name, c := range rec.block.Columns {
		if rec.noValue(c, rec.cell(name)) {
			return // filled, with a value that was not saved, which is reported
		}
		if rec.raw(name) == "" {
			continue
		}
		if filled != "" {
			return
		}
		filled = name
	}
	needed := columns.Needed(rec.block.Table)
	if filled == "" || len(needed) < 2 || len(rec.block.Columns) < headers.HeadingLeast {
		return
	}
	for i, name := range needed {
		needed[i] = rec.header(name)
	}
	rec.line.Broken = true
	rec.refuse(fault.Problem{Code: fault.CodeRowBarelyFilled, Place: rec.place(filled),
		Found: sheets.Shortened(rec.raw(filled)),
		Why: fmt.Sprintf("Only this cell of the row is filled, and a line of %s needs at least %s.", rec.block.Table.Title,
			strings.Join(needed, ", ")),
		Fix: "Fill the others in. If it is a heading, begin it with example: and the row is skipped, or take it out."})
}
