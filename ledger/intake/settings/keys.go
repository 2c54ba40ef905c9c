package settings

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
)

// inBrackets is a remark after a header: `Area (sq ft)`.
var InBrackets = regexp.MustCompile(`[(\[]([^()\[\]]*)[)\]]\s*$`)

// remarks are the remarks that change nothing about what a column is.
var remarks = []string{"sqft", "sqfeet", "squarefeet", "ft2", "sf", "sqm", "m2", "squaremetres", "squaremeters", "in",
	"inches", "cm",
	"hrs", "hours", "h", "hr", "miles", "mi", "km", "usd", "eur", "gbp", "cad", "aud", "date", "optional", "ifany"}

// HeaderKey is a header for comparing: small letters and digits, with what
// tells columns apart kept: # is `no`, and a currency or percent sign stands
// at the end as $ or %.
func HeaderKey(text string) string {
	text = norm.NFKC.String(strings.TrimSpace(text))
	sign := ""
	for _, c := range text {
		switch {
		case strings.ContainsRune(measure.CurrencySigns, c):
			sign = "$"
		case c == '%':
			sign = "%"
		}
	}
	// Few headers end in brackets, and the pattern takes longer than all the rest.
	if strings.ContainsAny(text, ")]") {
		text = withoutRemark(text)
	}
	if key := values.Compact(strings.ReplaceAll(text, "#", " no ")) + sign; key != "" {
		return key
	}
	return values.Fold(text)
}

// withoutRemark takes a remark in brackets that changes nothing off a header's end.
func withoutRemark(text string) string {
	m := InBrackets.FindStringSubmatchIndex(text)
	if m == nil {
		return text
	}
	if within := values.Compact(text[m[2]:m[3]]); within != "" && !slices.Contains(remarks, within) {
		return text
	}
	return text[:m[0]]
}

// SheetKey is a sheet's or file's name for comparing; .csv need not be typed.
func SheetKey(name string) string {
	return values.Compact(strings.TrimSuffix(strings.ToLower(name), ".csv"))
}

// settingsKey is a table's name as a key of settings.toml is written.
func settingsKey(table string) string {
	if strings.Contains(table, " ") {
		return fmt.Sprintf("%q", table)
	}
	return table
}

// NoTable is what [sheets] and [columns.TABLE] of settings.toml map a sheet or
// a column to that is not to be read: "Notes to self" = "none". It is then skipped
// without a note.
const NoTable = "none"

// ColumnsSection is the section of a table's columns.
func ColumnsSection(table string) string { return "columns." + settingsKey(table) }

// TomlText is a text in quotation marks as settings.toml reads it.
func TomlText(s string) string {
	if strings.ContainsAny(s, `"\`) && !strings.Contains(s, "'") && !strings.ContainsFunc(s, control) {
		return "'" + s + "'"
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case control(c):
			fmt.Fprintf(&b, `\u%04X`, c)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// control says that a character cannot stand as it is.
func control(c rune) bool { return c < ' ' || c == 0x7f }

// sectionsOf are the keys and sections that a settings.toml has already.
func sectionsOf(values map[string]any) map[string]bool {
	out := map[string]bool{}
	for key, v := range values {
		table, is := v.(map[string]any)
		if key != "columns" || !is {
			out[key] = true
			continue
		}
		for name := range table {
			out[ColumnsSection(strings.ToLower(name))] = true
		}
	}
	return out
}
