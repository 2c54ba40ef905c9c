package sheets

import (
	"bytes"
	"encoding/xml"
	"regexp"
	"strconv"
)

// fontList gathers which fonts of a workbook cross out what they write, in the
// order that cell formats count them by (ECMA-376 part 1, 18.8.23 and 18.8.45).
type fontList struct {
	within bool // the list of fonts
	struck []bool
}

func (f *fontList) token(t xml.Token) {
	switch e := t.(type) {
	case xml.EndElement:
		f.within = f.within && e.Name.Local != "fonts"
	case xml.StartElement:
		switch {
		case e.Name.Local == "fonts":
			f.within = true
		case f.within && e.Name.Local == "font" && len(f.struck) < stylesMax:
			f.struck = append(f.struck, false)
		case f.within && e.Name.Local == "strike" && len(f.struck) > 0:
			f.struck[len(f.struck)-1] = saysStrike(e)
		}
	}
}

// isStruck says that the font of that number crosses out.
func (f *fontList) isStruck(id string) bool {
	n, err := strconv.Atoi(id)
	return err == nil && n >= 0 && n < len(f.struck) && f.struck[n]
}

// saysStrike is what a strike element says: yes, unless its value is no.
func saysStrike(e xml.StartElement) bool {
	value := attribute(e, "val")
	return value == "" || isOn(value)
}

// struckRuns counts the parts of a text, and those that are crossed out.
type struckRuns struct {
	parts, struck  int
	looks          int  // parts with looks of their own, whatever the cell's
	isStruck, last bool // this part, the part before it
	begun          bool // this part has text
}

func (r *struckRuns) start(e xml.StartElement) {
	switch e.Name.Local {
	case "r":
		r.parts++
		r.last, r.isStruck, r.begun = r.isStruck, false, false
	case "rPr":
		r.looks++
	case "strike":
		if saysStrike(e) {
			r.struck++
			r.isStruck = true
		}
	}
}

// mark says that the text is in parts and all of them are crossed out, or that some are
// not, whatever the cell's font says: that of its first part as some programs save it.
func (r struckRuns) mark() markKind {
	switch {
	case r.parts > 0 && r.struck == r.parts:
		return markStruck
	case r.parts > 0 && r.looks == r.parts:
		return markOwnLooks
	}
	return 0
}

// joined is a text with the next of its parts after it. A number crossed out before
// another is not run together with it: "120 or 80" is asked about, 12080 would count.
func (r *struckRuns) joined(text, next []byte) []byte {
	first := !r.begun
	r.begun = true
	if before, after := bytes.TrimSpace(text), bytes.TrimSpace(next); first && r.last != r.isStruck &&
		len(before) > 0 && len(after) > 0 && isDigit(before[len(before)-1]) && isDigit(after[0]) {
		text = append(text, " or "...)
	}
	return append(text, next...)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// formulaMost is how many bytes of a formula are looked at.
const formulaMost = 400

// Formulas that sum rows: a range within SUM or SUBTOTAL, cells joined by plus.
var (
	sumCall  = regexp.MustCompile(`(?i)\b(?:SUM|SUBTOTAL|AGGREGATE)\s*\(`)
	sumRange = regexp.MustCompile(`(?i)\$?[A-Z]{1,3}\$?(\d{1,7}):\$?[A-Z]{1,3}\$?(\d{1,7})`)
	sumPlus  = regexp.MustCompile(`(?i)^\s*\$?[A-Z]{1,3}\$?\d{1,7}(?:\s*\+\s*\$?[A-Z]{1,3}\$?\d{1,7})+\s*$`)
	cellRow  = regexp.MustCompile(`(?i)[A-Z]\$?(\d{1,7})`)
)

// sumsAbove says that a formula in a row sums cells of rows above it and of none
// other.
func sumsAbove(formula string, row int) bool {
	rows := cellRow.FindAllStringSubmatch(formula, -1)
	if !(sumCall.MatchString(formula) && sumRange.MatchString(formula)) && !sumPlus.MatchString(formula) {
		return false
	}
	for _, m := range rows {
		if n, err := strconv.Atoi(m[1]); err != nil || n >= row {
			return false
		}
	}
	return len(rows) > 0
}
