package rows

import (
	"fmt"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/headers"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// skipOther refuses a row that has a cell in a column whose cells are all of
// another kind, which has been reported for the column.
func (rec *Row) skipOther() {
	for name := range rec.Block.Other {
		yes, isTick := values.Ticked(rec.Raw(name))
		switch {
		case rec.Raw(name) == "", name == headers.SoldTicked && isTick && !yes:
			continue
		case name == headers.SoldTicked:
			rec.Reported["sold_on"], rec.Reported["sold_price"] = true, true
		}
		rec.Reported[name], rec.Refused = true, true
	}
}

// checkWidth tells more cells than there are headers of a plain file.
func (rec *Row) checkWidth() {
	extra, is := rec.Block.TooWide(rec.Line)
	switch {
	case !is:
	case len(extra) == 0:
		rec.Refuse(fault.Problem{Code: fault.CodeRowTooLong, Place: rec.At,
			Why: "This row has a separator more than most others, so its values may stand in the wrong columns.",
			Fix: "Put a text that has a comma in it in quotation marks; if none has, take out the separator at the end."})
	default:
		rec.Refuse(fault.Problem{Code: fault.CodeRowTooLong, Place: rec.At,
			Found: sheets.Shortened(strings.TrimSpace(strings.Join(extra, " "))),
			Why:   "This row has more values than there are column names, so the values may stand in the wrong columns.",
			Fix:   "Put a text that has a comma in it in quotation marks, or take the extra values out."})
	}
}

// checkCells tells what is wrong with a row whatever its table: what
// spreadsheets make of cells, formulas saved without a value.
func (rec *Row) checkCells() {
	rec.headingOnly()
	for name, c := range rec.Block.Columns {
		cell := rec.Cell(name)
		switch refusal := values.Damaged(cell, c.Field.Cell); {
		case refusal != nil:
			rec.Refusal(name, refusal)
		case rec.noValue(c, cell):
			rec.Fail(name, fault.CodeFormulaNoValue, "This cell is a formula that was saved without its value.",
				"Open the workbook in a spreadsheet program and save it once.")
		case c.Field.Cell == templates.Name && values.LooksTurned(cell):
			rec.NoteOnly(name, fault.CodeNameLooksNumber, 0, "A spreadsheet takes this name for a number or a date, and may "+
				"have changed it or change it when it saves.",
				"It may stay if it is as you typed it; a letter in front, such as P"+cell.Text+", keeps it as it is.")
		}
	}
}

// noValue says that a cell is a formula saved without its value; in a needed
// column an empty text is none either.
func (rec *Row) noValue(c headers.Column, cell sheets.Cell) bool {
	return cell.Text == "" && (cell.IsUnsaved() || c.Field.Constraints.Required && cell.IsFormula())
}

// Raw is a cell's text without outer blanks; empty where the column is missing.
func (rec *Row) Raw(field string) string {
	c, there := rec.Block.Columns[field]
	if !there {
		return ""
	}
	return rec.Line.Text(c.Index)
}

// Place is a cell's place, its column by the owner's own header.
func (rec *Row) Place(field string) fault.Place {
	if c, there := rec.Block.Columns[field]; there {
		return rec.At.At(withoutStar(c.Header))
	}
	return rec.At.At(field)
}

// withoutStar is a header without the star that the starter workbook marks the
// needed columns with.
func withoutStar(header string) string { return strings.TrimSpace(strings.TrimSuffix(header, "*")) }

// Header is a column's name within a sentence: the owner's own header, or the
// table's title for a column that is not there.
func (rec *Row) Header(field string) string {
	if c, there := rec.Block.Columns[field]; there {
		return withoutStar(c.Header)
	}
	if f := rec.Block.Table.Field(field); f != nil {
		return f.Title
	}
	return field
}

// Refuse adds an error and refuses the row.
func (rec *Row) Refuse(p fault.Problem) {
	rec.r.problems.Add(p)
	rec.Refused, rec.wrong = true, true
}

// Fail adds an error at a cell, once for each cell.
func (rec *Row) Fail(field string, code fault.Code, why, fix string) {
	if rec.Reported[field] {
		return
	}
	rec.Reported[field] = true
	rec.Refuse(fault.Problem{Code: code, Place: rec.Place(field), Found: sheets.Shortened(rec.Raw(field)),
		Why: why, Fix: fix})
}

// FailRow adds an error that no single cell is to blame for.
func (rec *Row) FailRow(code fault.Code, why, fix string) {
	rec.Refuse(fault.Problem{Code: code, Place: rec.At, Why: why, Fix: fix})
}

// Note adds a note at a cell.
func (rec *Row) Note(field string, code fault.Code, cents int64, why, fix string) {
	rec.r.problems.Add(fault.Problem{Code: code, Note: true, Place: rec.Place(field), Found: rec.Raw(field),
		Why: why, Fix: fix, MoneyCents: cents})
}

// NoteOnly is note for what asks nothing of the owner.
func (rec *Row) NoteOnly(field string, code fault.Code, cents int64, why, fix string) {
	rec.r.problems.Add(fault.Problem{Code: code, Note: true, AsksNothing: true, Place: rec.Place(field),
		Found: rec.Raw(field),
		Why:   why, Fix: fix, MoneyCents: cents})
}

// Filled says that a cell holds something.
func (rec *Row) Filled(field string) bool { return rec.Raw(field) != "" }

// Field is the table's description of a column, which must exist.
func (rec *Row) Field(name string) *templates.Field {
	f := rec.Block.Table.Field(name)
	if f == nil {
		panic("no column " + name + " in table " + rec.Block.Table.Name)
	}
	return f
}

// headingOnly tells a row that holds one known cell and lacks what the table
// needs: a heading, such as a month's name, or a line that was only begun. It
// is reported once rather than for each blank cell.
func (rec *Row) headingOnly() {
	filled := ""
	for name, c := range rec.Block.Columns {
		if rec.noValue(c, rec.Cell(name)) {
			return // filled, with a value that was not saved, which is reported
		}
		if rec.Raw(name) == "" {
			continue
		}
		if filled != "" {
			return
		}
		filled = name
	}
	needed := columns.Needed(rec.Block.Table)
	if filled == "" || len(needed) < 2 || len(rec.Block.Columns) < headers.HeadingLeast {
		return
	}
	for i, name := range needed {
		needed[i] = rec.Header(name)
	}
	rec.Line.Broken = true
	rec.Refuse(fault.Problem{Code: fault.CodeRowBarelyFilled, Place: rec.Place(filled),
		Found: sheets.Shortened(rec.Raw(filled)),
		Why: fmt.Sprintf("Only this cell of the row is filled, and a line of %s needs at least %s.", rec.Block.Table.Title,
			strings.Join(needed, ", ")),
		Fix: "Fill the others in. If it is a heading, begin it with example: and the row is skipped, or take it out."})
}
