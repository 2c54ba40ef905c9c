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

// skipMisread refuses a row that has a cell in a column that is misread, which has
// been reported for the column.
func (row *Row) skipMisread() {
	for _, name := range row.Block.Misread(row.Line) {
		row.SetReported(name)
		row.Refused = true
	}
}

// checkWidth tells more cells than there are headers of a plain file.
func (row *Row) checkWidth() {
	extra, is := row.Block.TooWide(row.Line)
	switch {
	case !is:
	case len(extra) == 0:
		row.Refuse(fault.Problem{Code: fault.CodeRowTooLong, Place: row.At,
			Why: "This row has a separator more than most others, so its values may stand in the wrong columns.",
			Fix: "Put a text that has a comma in it in quotation marks; if none has, take out the separator at the end."})
	default:
		row.Refuse(fault.Problem{Code: fault.CodeRowTooLong, Place: row.At,
			Found: sheets.Shortened(strings.TrimSpace(strings.Join(extra, " "))),
			Why:   "This row has more values than there are column names, so the values may stand in the wrong columns.",
			Fix:   "Put a text that has a comma in it in quotation marks, or take the extra values out."})
	}
}

// checkCells tells what is wrong with a row whatever its table: what
// spreadsheets make of cells, formulas saved without a value.
func (row *Row) checkCells() {
	row.headingOnly()
	for name, c := range row.Block.Columns {
		cell := row.Cell(name)
		switch refusal := values.Damaged(cell, c.Field.Cell); {
		case refusal != nil:
			row.Refusal(name, refusal)
		case row.noValue(c, cell):
			row.Fail(name, fault.CodeFormulaNoValue, "This cell is a formula that was saved without its value.",
				"Open the workbook in a spreadsheet program and save it once.")
		case c.Field.Cell == templates.Name && values.LooksTurned(cell):
			row.NoteOnly(name, fault.CodeNameLooksNumber, 0, "A spreadsheet takes this name for a number or a date, and may "+
				"have changed it or change it when it saves.",
				"It may stay if it is as you typed it; a letter in front, such as P"+cell.Text+", keeps it as it is.")
		}
	}
}

// noValue says that a cell is a formula saved without its value; in a needed
// column an empty text is none either.
func (row *Row) noValue(c headers.Column, cell sheets.Cell) bool {
	return cell.Text == "" && (cell.IsUnsaved() || c.Field.Constraints.Required && cell.IsFormula())
}

// Raw is a cell's text without outer blanks; empty where the column is missing.
func (row *Row) Raw(field string) string {
	c, there := row.Block.Columns[field]
	if !there {
		return ""
	}
	return row.Line.Text(c.Index)
}

// shown is what stands in a cell as a spreadsheet shows it.
func (row *Row) shown(field string) string {
	if c := row.Cell(field); c.IsPercent() {
		return values.Shown(c)
	}
	return row.Raw(field)
}

// Place is a cell's place, its column by the owner's own header.
func (row *Row) Place(field string) fault.Place {
	if c, there := row.Block.Columns[field]; there {
		return row.At.At(withoutStar(c.Header))
	}
	return row.At.At(field)
}

// withoutStar is a header without the star that the starter workbook marks the
// needed columns with.
func withoutStar(header string) string { return strings.TrimSpace(strings.TrimSuffix(header, "*")) }

// Header is a column's name within a sentence: the owner's own header, or the
// table's title for a column that is not there.
func (row *Row) Header(field string) string {
	if c, there := row.Block.Columns[field]; there {
		return withoutStar(c.Header)
	}
	if f := row.Block.Table.Field(field); f != nil {
		return f.Title
	}
	return field
}

// Refuse adds an error and refuses the row.
func (row *Row) Refuse(p fault.Problem) {
	row.r.problems.Add(p)
	row.Refused, row.wrong = true, true
}

// Fail adds an error at a cell, once for each cell.
func (row *Row) Fail(field string, code fault.Code, why, fix string) {
	if row.Reported(field) {
		return
	}
	row.SetReported(field)
	row.Refuse(fault.Problem{Code: code, Place: row.Place(field), Found: sheets.Shortened(row.Raw(field)),
		Why: why, Fix: fix})
}

// FailRow adds an error that no single cell is to blame for.
func (row *Row) FailRow(code fault.Code, why, fix string) {
	row.Refuse(fault.Problem{Code: code, Place: row.At, Why: why, Fix: fix})
}

// Note adds a note at a cell.
func (row *Row) Note(field string, code fault.Code, cents int64, why, fix string) {
	row.r.problems.Add(fault.Problem{Code: code, Note: true, Place: row.Place(field), Found: row.Raw(field),
		Why: why, Fix: fix, MoneyCents: cents})
}

// NoteOnly is note for what asks nothing of the owner.
func (row *Row) NoteOnly(field string, code fault.Code, cents int64, why, fix string) {
	row.r.problems.Add(fault.Problem{Code: code, Note: true, AsksNothing: true, Place: row.Place(field),
		Found: row.Raw(field),
		Why:   why, Fix: fix, MoneyCents: cents})
}

// Filled says that a cell holds something.
func (row *Row) Filled(field string) bool { return row.Raw(field) != "" }

// Field is the table's description of a column, which must exist.
func (row *Row) Field(name string) *templates.Field {
	f := row.Block.Table.Field(name)
	if f == nil {
		panic("no column " + name + " in table " + row.Block.Table.Name)
	}
	return f
}

// headingOnly tells a row that holds one known cell and lacks what the table
// needs: a heading, such as a month's name, or a line that was only begun. It
// is reported once rather than for each blank cell.
func (row *Row) headingOnly() {
	filled := ""
	for name, c := range row.Block.Columns {
		if row.noValue(c, row.Cell(name)) {
			return // filled, with a value that was not saved, which is reported
		}
		if row.Raw(name) == "" {
			continue
		}
		if filled != "" {
			return
		}
		filled = name
	}
	needed := columns.Needed(row.Block.Table)
	if filled == "" || len(needed) < 2 || len(row.Block.Columns) < headers.HeadingLeast {
		return
	}
	for i, name := range needed {
		needed[i] = row.Header(name)
	}
	row.Line.Broken = true
	if row.Block.IsStruck(row.At.Row) {
		row.Refuse(fault.Problem{Code: fault.CodeRowBarelyFilled, Place: row.Place(filled),
			Found: sheets.Shortened(row.Raw(filled)), Why: "The rest of this row is crossed out.",
			Fix: "Clear this cell, or cross it out too, and the row is left out. If it counts, take the line through the " +
				"others away."})
		return
	}
	row.Refuse(fault.Problem{Code: fault.CodeRowBarelyFilled, Place: row.Place(filled),
		Found: sheets.Shortened(row.Raw(filled)),
		Why: fmt.Sprintf("Only this cell of the row is filled, and a line of %s needs at least %s.", row.Block.Table.Title,
			strings.Join(needed, ", ")),
		Fix: "Fill the others in. If it is a heading, begin it with example: and the row is skipped, or take it out."})
}
