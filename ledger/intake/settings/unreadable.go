package settings

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
)

// definedTwice is the name that a line gives a second time; false where the line
// has another fault. It can be read alone, and so can all above it.
func definedTwice(text string, row int) (string, bool) {
	lines := strings.SplitAfter(text, "\n")
	if row < 1 || row > len(lines) {
		return "", false
	}
	var above, alone map[string]any
	if _, err := toml.Decode(strings.Join(lines[:row-1], ""), &above); err != nil {
		return "", false
	}
	meta, err := toml.Decode(lines[row-1], &alone)
	if err != nil || len(meta.Keys()) == 0 {
		return "", false
	}
	return meta.Keys()[0].String(), true
}

// notRead tells a file that is not written as settings are, by its line.
func (r *settingsReading) notRead(err error) {
	at := fault.Place{File: sheets.SettingsFile}
	var where toml.ParseError
	if errors.As(err, &where) {
		at.Row = where.Position.Line
	}
	p := fault.Problem{Code: fault.CodeSettingsNotRead, Place: at, Why: "This line cannot be read, so none of the " +
		"settings were."}
	p.Found, p.Fix = r.lineFix(at.Row)
	if strings.ContainsAny(p.Found, "“”„‘’") {
		p.Why = "The quotation marks here are curly ones, as word processors make them, so none of the settings were read."
	}
	if twice, ok := definedTwice(r.text, at.Row); ok {
		p.Found = twice
		p.Why = "This stands in the file a second time, so none of it could be read."
		p.Fix = "Take one of the two out; put what stands below a [section] that is there twice below the first one."
	}
	r.problems.Add(p)
}

// below tells a setting of the whole shop that was pasted below a line in
// brackets: written so, it belongs to that section.
func (r *settingsReading) below(key, section string, value any) bool {
	if !slices.Contains(r.keys, key) ||
		slices.Contains([]string{"mileage", "vehicle", "sheets", "columns", "names", "items"}, key) {
		return false
	}
	if r.set.Table(fmt.Sprint(value)) != nil || strings.HasPrefix(section, "columns.") && r.isColumn(section, value) ||
		fmt.Sprint(value) == NoTable {
		return false // a sheet or column of that name
	}
	r.problems.Add(fault.Problem{Code: fault.CodeSettingUnknown, Place: r.place(key), Found: key,
		Why: fmt.Sprintf("This setting of the whole shop is below [%s], so it is read as part of that and not "+
			"as the setting.", section),
		Fix: "Move this line above the first line in [brackets]."})
	return true
}

// isColumn says that a value names a column of the section's table.
func (r *settingsReading) isColumn(section string, value any) bool {
	t := r.set.Table(strings.ToLower(strings.TrimPrefix(section, "columns.")))
	return t != nil && t.Field(fmt.Sprint(value)) != nil
}
