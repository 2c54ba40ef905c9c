package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"piecebook/ledger/fault"
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
	shortDate = regexp.MustCompile(`(?i)^(\d{1,2}[- ](jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)-\d{2})$`)
	// dayCount is a date as a spreadsheet counts it, 1950 to 2199.
	dayCount = regexp.MustCompile(`^\d{5,6}([.,]\d+)?$`)
)

// nameCells are the kinds of cell that hold names, where a number is a word.
var nameCells = []templates.Cell{templates.Name, templates.SetName, templates.PieceRef, templates.PieceList, templates.SupplyRef,
	templates.LotRef, templates.ScheduleRef, templates.ChannelRef}

// numberCells are the kinds of cell that hold numbers, where a date is none.
var numberCells = []templates.Cell{templates.Money, templates.SignedMoney, templates.Number, templates.SignedNumber, templates.Whole,
	templates.Percent, templates.Length, templates.Amount, templates.Container, templates.Coverage, templates.HoursOfAll, templates.HoursOfDay}

// damaged tells a cell that a spreadsheet program has changed from what was
// typed, or could not work out.
func (rec *record) damaged(name string, c column, text string) bool {
	switch {
	case text == "":
		return false
	case text[0] == '#' && narrowText.MatchString(text):
		rec.failColumn(name, fault.CodeCellNarrow, func(s *cause) (string, string) {
			return "The spreadsheet wrote # signs because the column was too narrow for what stands there." + s.more(),
				"Make the column wider in the spreadsheet and save again, or type the value."
		})
	case (text[0] == '#' || text[0] == 'E' || text[0] == 'e') && errorText.MatchString(text):
		rec.fail(name, fault.CodeCellError, "The spreadsheet could not work this cell out.", "Put the formula right, or type the value.")
	case slices.Contains(nameCells, c.field.Cell):
		return rec.damagedName(name, c, text)
	case rec.sheet.asks != nil:
		return false // number cells of a workbook say themselves what they are
	case c.field.Cell == templates.Date && dayCount.MatchString(text):
		return rec.countedDay(name, text)
	case slices.Contains(numberCells, c.field.Cell) && shortDate.MatchString(text):
		rec.numberIsDate(name)
	default:
		return false
	}
	return true
}

// isCountedDay says that a cell of a plain file is a spreadsheet's count of days.
func isCountedDay(s *sheet, text string) bool {
	if s.asks != nil || !dayCount.MatchString(text) {
		return false
	}
	_, refusal := serialDate(strings.ReplaceAll(text, ",", "."), false)
	return refusal == nil
}

// countedDay tells a day of a plain file that was saved as the spreadsheet's
// count of days, with the day it most likely is. It is not read as that day,
// since a workbook that counts from 1904 is four years off.
func (rec *record) countedDay(name, text string) bool {
	d, refusal := serialDate(strings.ReplaceAll(text, ",", "."), false)
	if refusal != nil {
		return false
	}
	rec.failColumn(name, fault.CodeDateIsNumber, func(s *cause) (string, string) {
		return fmt.Sprintf("The spreadsheet wrote its count of days for a date here, most likely %s.%s", d, s.more()),
			fmt.Sprintf("Type %s if that is the day, or format the column as a date in the spreadsheet and save it again.", d)
	})
	return true
}

// damagedName tells a name that is a number or date by mistake. A name of a
// plain file that only looks so is noted where it is first given, since it may
// be the owner's own.
func (rec *record) damagedName(name string, c column, text string) bool {
	shown := rec.sheet.asks.style(c.index, rec.line.number)
	switch {
	case rawNumber.MatchString(text) && shown.date:
		day, example := rec.asDate(text)
		rec.fail(name, fault.CodeNameIsNumber, "The spreadsheet turned the name typed here into a date"+day+", so what it was can no longer be told.",
			"Format the whole column as text first, then type the name again, such as "+example+".")
	case rawNumber.MatchString(text) && shown.exponent, exponentName.MatchString(text):
		rec.fail(name, fault.CodeNameIsNumber, "The spreadsheet turned the name typed here into a long number, so what it was can no longer be told.",
			"Format the whole column as text first, then type the name again, such as 1E5.")
	case c.field.Cell == templates.Name && rec.sheet.asks == nil && (likeExponent.MatchString(text) || shortDate.MatchString(text)):
		rec.note(name, fault.CodeNameLooksNumber, 0, "A spreadsheet takes this name for a number or a date, and may have changed it or change it when it saves.",
			"Nothing need be done if it is as you typed it; a letter in front, such as P"+text+", keeps it as it is.")
		return false
	default:
		return false
	}
	return true
}

// asDate is the day that a name became, in brackets, and a name that would
// have become it.
func (rec *record) asDate(text string) (day, example string) {
	if serialDay.MatchString(text) {
		if d, refusal := serialDate(text, rec.sheet.asks.is1904); refusal == nil {
			return fmt.Sprintf(" (%s)", d), fmt.Sprintf("%d-%d", int(d.Month), d.Day)
		}
	}
	return "", "1-2"
}

// sameNumber is the known name that is the same number as the one typed, but
// for zeros in front or behind a point: 007 for 7, 101 for 101.0.
func sameNumber(typed string, known []string) string {
	digits := bareNumber(typed)
	if digits == "" {
		return ""
	}
	found := ""
	for _, k := range known {
		if bareNumber(k) == digits && (found == "" || k < found) {
			found = k
		}
	}
	return found
}

// bareNumber is a whole number's digits without zeros in front and behind the
// point; empty for other texts.
func bareNumber(text string) string {
	text = strings.TrimSpace(text)
	if whole, zeros, point := strings.Cut(text, "."); point && strings.Trim(zeros, "0") == "" {
		text = whole
	}
	if text == "" || len(text) > 15 || strings.Trim(text, "0123456789") != "" {
		return ""
	}
	n, _ := strconv.ParseInt(text, 10, 64)
	return strconv.FormatInt(n, 10)
}
