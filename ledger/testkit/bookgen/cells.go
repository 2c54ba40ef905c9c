package bookgen

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/templates"
)

// kindOf is what a cell of a column holds, as far as there are other ways of
// writing it.
func kindOf(table, column string) string {
	switch tables.Table(table).Field(column).Cell {
	case templates.Date:
		return "date"
	case templates.HoursOfAll, templates.HoursOfDay:
		return "hours"
	case templates.PieceList:
		return "list"
	case templates.Amount:
		return "amount"
	case templates.Number, templates.Length:
		return "number"
	case templates.Money, templates.SignedMoney:
		return "money"
	}
	return "text"
}

// cell writes a cell of a text file another way, or as it was.
func (r *reshaper) cell(table, column, text string) string {
	if text == "" || r.chance(25) {
		return text
	}
	switch kindOf(table, column) {
	case "date":
		return r.date(text)
	case "hours":
		return r.hoursCell(text)
	case "list":
		return r.relist(text)
	case "amount":
		number, unit, _ := strings.Cut(text, " ")
		return strings.TrimSpace(r.number(number) + " " + unit)
	case "number":
		return r.number(text)
	case "money":
		return r.money(text)
	}
	return text
}

// date writes a day in one of the ways of a month-first shop.
func (r *reshaper) date(text string) string {
	d, err := calendar.Parse(text)
	if err != nil {
		return text
	}
	month := d.Month.String()[:3]
	switch r.IntN(4) {
	case 0:
		return fmt.Sprintf("%s %d, %d", month, d.Day, d.Year)
	case 1:
		return fmt.Sprintf("%d %s %d", d.Day, month, d.Year)
	case 2:
		return fmt.Sprintf("%d/%d/%d", int(d.Month), d.Day, d.Year)
	}
	return fmt.Sprintf("%d/%d/%02d", int(d.Month), d.Day, d.Year%100)
}

// money writes an amount with a currency sign, with thousands separated, or
// without trailing zeros; a negative one in brackets.
func (r *reshaper) money(text string) string {
	digits, negative := strings.CutPrefix(text, "-")
	whole, rest, _ := strings.Cut(digits, ".")
	switch r.IntN(4) {
	case 0:
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + "," + whole[i:]
		}
		digits = r.pick("$", "") + whole + "." + (rest + "00")[:2]
	case 1:
		digits = strings.TrimSuffix(strings.TrimRight(whole+"."+rest, "0"), ".")
	case 2:
		digits = "$" + digits
	}
	if !negative {
		return digits
	}
	digits = strings.TrimPrefix(digits, "$")
	if r.chance(50) {
		return "(" + digits + ")"
	}
	return "-" + digits
}

// number writes halves and quarters as fractions, and may add a zero.
func (r *reshaper) number(text string) string {
	whole, rest, point := strings.Cut(text, ".")
	if !point {
		return text
	}
	fractions := map[string][]string{"5": {"1/2", "½"}, "25": {"1/4", "¼"}, "75": {"3/4", "¾"}}
	ways := fractions[rest]
	switch {
	case ways == nil || r.chance(20):
		return text + "0"
	case whole == "0":
		return ways[r.IntN(2)]
	case r.chance(50):
		return whole + ways[1]
	}
	return whole + " " + ways[0]
}

// hoursCell writes a time as hours and minutes, or as minutes.
func (r *reshaper) hoursCell(text string) string {
	minutes, ok := minutesOf(text)
	if !ok {
		return text
	}
	switch r.IntN(3) {
	case 0:
		return fmt.Sprintf("%d:%02d", minutes/60, minutes%60)
	case 1:
		return fmt.Sprintf("%dh %dm", minutes/60, minutes%60)
	}
	return fmt.Sprintf("%d min", minutes)
}

// minutesOf reads the ways of writing hours that Files uses.
func minutesOf(text string) (int, bool) {
	var h, min, over, under int
	if n, _ := fmt.Sscanf(text, "%d:%d", &h, &min); n == 2 {
		return h*60 + min, true
	}
	if n, _ := fmt.Sscanf(text, "%dh %dm", &h, &min); n == 2 {
		return h*60 + min, true
	}
	if number, ok := strings.CutSuffix(text, " min"); ok {
		n, err := strconv.Atoi(number)
		return n, err == nil
	}
	if n, _ := fmt.Sscanf(text, "%d %d/%d", &h, &over, &under); n == 3 && under > 0 {
		return h*60 + over*60/under, true
	}
	hours, ok := new(big.Rat).SetString(text)
	if !ok {
		return 0, false
	}
	hours.Mul(hours, big.NewRat(60, 1))
	return int(hours.Num().Int64()), hours.IsInt()
}

// relist writes a list in another order and with another separator; a cell that
// is one name, or may be, only in other case.
func (r *reshaper) relist(text string) string {
	listed := strings.ContainsAny(text, ";,+")
	if !listed || strings.HasPrefix(text, "Chair, ") {
		return r.recase(text)
	}
	names := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(";,+", c) })
	for i := range names {
		names[i] = r.recase(strings.TrimSpace(names[i]))
	}
	r.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	return r.list(names)
}

// recase writes a name in other case or with blanks around it.
func (r *reshaper) recase(name string) string {
	switch r.IntN(4) {
	case 0:
		return strings.ToLower(name)
	case 1:
		return strings.ToUpper(name)
	case 2:
		return " " + name
	}
	return name
}
