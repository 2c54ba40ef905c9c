package values

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// unitCells are the kinds of cell that may hold a unit after a number.
var unitCells = []templates.Cell{templates.Length, templates.Amount, templates.Container, templates.Coverage,
	templates.HoursOfAll, templates.HoursOfDay}

// scaleWords make a number another one, which no cell of numbers takes.
var scaleWords = []string{"k", "tsd", "thousand", "thousands", "m", "million", "millions", "cents", "c", "dozen"}

// AsShown is the text of a cell with what its number format shows beside its
// number: zeros and words of a name, the unit of an amount. A word after money or
// a plain number is shown only where it is a unit or a scale, so that it is
// refused; any other, such as a currency, says nothing new. Other cells are as
// they are.
func AsShown(c sheets.Cell, text string, kind templates.Cell, s ledger.Settings) string {
	before, after := c.Words()
	isNumber := slices.Contains(numberCells, kind)
	switch {
	case c.IsText(), c.Text == "", before == "" && after == "" && c.Zeros() < 2:
	case IsName(kind) && strings.Trim(c.Text, "0123456789") == "":
		missing := max(0, c.Zeros()-len(c.Text))
		return before + strings.Repeat("0", missing) + c.Text + after
	case after != "" && isNumber && IsRaw(c.Text) && (slices.Contains(unitCells, kind) || saysUnit(after)):
		number, _ := figure(c, s)
		if s.DecimalComma {
			number = strings.Replace(number, ".", ",", 1)
		}
		return number + " " + after
	}
	return text
}

// saysUnit says that a word is a unit or a scale.
func saysUnit(word string) bool {
	_, known := measure.FindUnit(word)
	return known || measure.IsShopUnit(word) || slices.Contains(scaleWords, strings.ToLower(word))
}

// Written is a figure to two decimals as the owner types it.
func Written(x *big.Rat, s ledger.Settings) string {
	text := money.AtMost(x, 2)
	if s.DecimalComma {
		text = strings.ReplaceAll(text, ".", ",")
	}
	return text
}
