package values

import (
	"fmt"
	"regexp"
	"slices"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
	"piecebook/templates"
)

// What spreadsheet programs make of what was typed.
var (
	// errorText is an error value: #REF!, #DIV/0!, #NAME?, #N/A and their like in
	// other languages, and Err:502.
	errorText = regexp.MustCompile(`(?i)^(#[\p{Lu}\p{Ll}¡¿/0_]{1,24}[!?]|#N/?[AVD]|#SPILL|#GETTING_DATA|Err:\d{3})$`)
	// narrowText is what is shown of a number in a column too narrow for it.
	narrowText = regexp.MustCompile(`^#{3,}$`)
	// exponentName is a name such as 1E5 or 12345678901234 after it was taken for a number.
	exponentName = regexp.MustCompile(`(?i)(^|[;,\s])\d([.,]\d+)?E\+\d+($|[;,\s])`)
	// likeExponent is a name that a spreadsheet would take for a number.
	likeExponent = regexp.MustCompile(`(?i)^\d+E\d+$`)
	// shortDate is what 1/2 or 1-2 becomes: 2-Jan, Jan-02.
	shortDate = regexp.MustCompile(`(?i)^(\d{1,2}[- ](?:` + monthsShort + `)|(?:` + monthsShort + `)-\d{2})$`)
)

// nameCells are the kinds of cell that hold names, where a number is a word.
var nameCells = []templates.Cell{templates.Name, templates.SetName, templates.PieceRef, templates.PieceList,
	templates.SupplyRef,
	templates.LotRef, templates.ScheduleRef, templates.ChannelRef}

// numberCells are the kinds of cell that hold numbers, where a date is none.
var numberCells = []templates.Cell{templates.Money, templates.SignedMoney, templates.Number, templates.SignedNumber,
	templates.Whole,
	templates.Percent, templates.Length, templates.Amount, templates.Container, templates.Coverage, templates.HoursOfAll,
	templates.HoursOfDay}

// IsName says that a kind of cell holds names.
func IsName(kind templates.Cell) bool { return slices.Contains(nameCells, kind) }

// Damaged refuses a cell that a spreadsheet program has changed from what was
// typed, or could not work out; nil where it has not.
func Damaged(c sheets.Cell, kind templates.Cell) *measure.Refusal {
	text := c.Text
	switch {
	case text == "":
		return nil
	case text[0] == '#' && narrowText.MatchString(text):
		return &measure.Refusal{Code: fault.CodeCellNarrow, WholeColumn: true,
			Why: "The spreadsheet wrote # signs because the column was too narrow for what stands there.",
			Fix: "Make the column wider in the spreadsheet and save again, or type the value."}
	case (text[0] == '#' || text[0] == 'E' || text[0] == 'e') && errorText.MatchString(text):
		return &measure.Refusal{Code: fault.CodeCellError, Why: "The spreadsheet could not work this cell out.",
			Fix: "Put the formula right, or type the value."}
	case IsName(kind):
		return damagedName(c)
	case c.InBook:
		return nil // number cells of a workbook say themselves what they are
	case kind == templates.Date:
		return countedDay(c)
	case slices.Contains(numberCells, kind) && shortDate.MatchString(text):
		return numberIsDate()
	}
	return nil
}

// countedDay refuses a day of a plain file that was saved as the spreadsheet's
// count of days, with the day it most likely is. It is not read as that day,
// since a workbook that counts from 1904 is four years off.
func countedDay(c sheets.Cell) *measure.Refusal {
	d, is := CountedDay(c)
	if !is {
		return nil
	}
	return &measure.Refusal{Code: fault.CodeDateIsNumber, WholeColumn: true,
		Why: fmt.Sprintf("The spreadsheet wrote its count of days for a date here, most likely %s.", d),
		Fix: fmt.Sprintf("Type %s if that is the day, or format the column as a date in the spreadsheet and save it again.",
			d)}
}

// damagedName refuses a name that is a number or date by mistake.
func damagedName(c sheets.Cell) *measure.Refusal {
	switch {
	case IsRaw(c.Text) && c.IsDate():
		day, example := "", "1-2"
		if serialDay.MatchString(c.Text) {
			if d, refusal := serialDate(c.Text, c.Is1904); refusal == nil {
				day, example = fmt.Sprintf(" (%s)", d), fmt.Sprintf("%d-%d", int(d.Month), d.Day)
			}
		}
		return &measure.Refusal{Code: fault.CodeNameIsNumber,
			Why: "The spreadsheet turned the name typed here into a date" + day + ", so what it was can no longer be known.",
			Fix: "Format the whole column as text first, then type the name again, such as " + example + "."}
	case IsRaw(c.Text) && c.IsExponent(), exponentName.MatchString(c.Text):
		return &measure.Refusal{Code: fault.CodeNameIsNumber,
			Why: "The spreadsheet turned the name typed here into a long number, so what it was can no longer be known.",
			Fix: "Format the whole column as text first, then type the name again, such as 1E5."}
	}
	return nil
}

// LooksTurned says that a name of a plain file is one that spreadsheets take for
// a number or a date. It may be the owner's own.
func LooksTurned(c sheets.Cell) bool {
	return !c.InBook && (likeExponent.MatchString(c.Text) || shortDate.MatchString(c.Text))
}
