package sheets

import (
	"encoding/xml"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// style is what a number format makes of a number, as far as it matters.
type style struct {
	date     bool // shown as a date or a time
	day      bool // shown as a date, whether or not with a time
	percent  bool // shown a hundredfold
	exponent bool // shown with an exponent
	zeros    int  // shown with at least so many digits, where it is over 1
	// Words that the format shows before and after a number: P of "P"000, fl oz
	// of 0 "fl oz". They stand in no cell.
	before, after string
	money         bool   // shown with two decimals or a currency
	currency      string // the sign or letters of a currency that it is shown with
	struck        bool   // crossed out
}

// readStyles reads how cells are shown: the number formats of the workbook's
// own, and which one each cell format has.
func (w *workbook) readStyles(part string) error {
	own := map[string]string{}
	inCells := false
	var fonts fontList
	return w.read(part, func(t xml.Token) error {
		fonts.token(t)
		switch e := t.(type) {
		case xml.EndElement:
			inCells = inCells && e.Name.Local != "cellXfs"
		case xml.StartElement:
			switch {
			case e.Name.Local == "numFmt" && len(own) < stylesMax:
				own[attribute(e, "numFmtId")] = attribute(e, "formatCode")
			case e.Name.Local == "cellXfs":
				inCells = true
			case e.Name.Local == "xf" && inCells && len(w.styles) < stylesMax:
				id := attribute(e, "numFmtId")
				one := styleOf(id, own[id])
				one.struck = fonts.isStruck(attribute(e, "fontId"))
				w.styles = append(w.styles, one)
			}
		}
		return nil
	})
}

// styleOf is a number format's effect: by its code where the workbook gives
// one, else by the number of the built-in one (ECMA-376 part 1, 18.8.30).
func styleOf(id, code string) style {
	if code != "" {
		bare := formatText.ReplaceAllString(code, "")
		zeros := 0
		if strings.Trim(bare, "0") == "" && len(bare) > 1 {
			zeros = len(bare)
		}
		upper := strings.ToUpper(bare)
		s := style{date: showsDate(code), day: showsDay(code), percent: strings.Contains(bare, "%"),
			exponent: strings.Contains(upper, "E+") || strings.Contains(upper, "E-"), zeros: zeros}
		if !s.date {
			s.before, s.after = formatWords(code)
			s.money = s.after == "" && moneyFormat.MatchString(code)
			s.currency = currencyShown(code)
		}
		return s
	}
	n, _ := strconv.Atoi(id)
	return style{
		date:     n >= 14 && n <= 22 || n >= 27 && n <= 36 || n >= 45 && n <= 47 || n >= 50 && n <= 58,
		day:      n >= 14 && n <= 17 || n == 22 || n >= 27 && n <= 31 || n == 36 || n >= 50 && n <= 54 || n == 57 || n == 58,
		percent:  n == 9 || n == 10,
		exponent: n == 11 || n == 48,
		money:    n == 2 || n == 4 || n >= 5 && n <= 8 || n >= 37 && n <= 44,
	}
}

// formatText is what a number format shows as it stands: quoted text, escaped
// characters, colours and currencies in square brackets (not [h], hours).
var formatText = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^\]hms][^\]]*\]`)

// moneyFormat is a number format with two decimals, or with a currency.
var moneyFormat = regexp.MustCompile(`0\.00(?:[^0#%Ee]|$)|[$€£¥₹]`)

// inBrackets is a currency as a number format has it: [$€-407] (ECMA-376 part 1,
// 18.8.31).
var inBrackets = regexp.MustCompile(`\[\$([^\]-]*)[^\]]*\]`)

// currencyShown is the sign or letters of a currency within a number format; blank
// where it has none.
func currencyShown(code string) string {
	if m := inBrackets.FindStringSubmatch(code); m != nil {
		return m[1]
	}
	if i := strings.IndexAny(code, "$€£¥₹"); i >= 0 {
		sign, _ := utf8.DecodeRuneInString(code[i:])
		return string(sign)
	}
	return ""
}

// showsDate says that a number format shows a date or a time.
func showsDate(format string) bool {
	format = formatText.ReplaceAllString(strings.ToLower(format), "")
	if strings.HasPrefix(format, "general") || strings.Contains(format, "e+") || strings.Contains(format, "e-") {
		return false
	}
	return strings.ContainsAny(format, "ymdhs")
}

// showsDay says that a number format shows a date: a year, a day, or a month,
// which is minutes where hours or seconds stand too.
func showsDay(format string) bool {
	if !showsDate(format) {
		return false
	}
	format = formatText.ReplaceAllString(strings.ToLower(format), "")
	return strings.ContainsAny(format, "yd") || !strings.ContainsAny(format, "hs")
}

// formatPart is one part of a number format: a quoted text, an escaped
// character, what is skipped or repeated, a bracket, or any other character.
var formatPart = regexp.MustCompile(`"([^"]*)"|\\(.)|_.|\*.|\[[^\]]*\]|General|.`)

// formatWords is the words that a number format's first section, which is for
// numbers above 0, shows before and after the number; only texts with a letter
// in them count.
func formatWords(code string) (before, after string) {
	var words [2]strings.Builder
	at := 0
	for _, p := range formatPart.FindAllStringSubmatch(code, -1) {
		switch {
		case p[0] == ";":
			return wordsOf(words[0].String()), wordsOf(words[1].String())
		case strings.ContainsAny(p[0][:1], "0#?G"):
			at = 1
		case p[0] == " ":
			words[at].WriteString(p[0])
		default:
			words[at].WriteString(p[1] + p[2])
		}
	}
	return wordsOf(words[0].String()), wordsOf(words[1].String())
}

// wordsOf is a text that has a letter in it without outer blanks; else nothing.
func wordsOf(text string) string {
	if !strings.ContainsFunc(text, unicode.IsLetter) {
		return ""
	}
	return strings.TrimSpace(text)
}
