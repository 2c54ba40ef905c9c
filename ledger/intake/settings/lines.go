package settings

import (
	"fmt"
	"regexp"
	"strings"

	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/measure"
)

// Lines of settings.toml that cannot be read, as people write them.
var (
	settingLine = regexp.MustCompile(`^([\w-]+|"[^"]*")\s*[=:]\s*(.*?)\s*(?:#.*)?$`)
	plainFigure = regexp.MustCompile(`^\d+(?:\.\d+)?$`)
)

// textSettings are the settings that hold words.
var textSettings = []string{"shop", "currency", "units", "dates", "paper", "overhead_by", "coverage", "tax_supplies",
	"tax_stock", "crossed_out", "kind_from", "in_service"}

// lineFix is a line of settings.toml as it stands, and what to type for it:
// words in quotation marks, a number without a currency sign or a comma.
func (r *settingsReading) lineFix(row int) (found, fix string) {
	lines := strings.Split(r.text, "\n")
	if row < 1 || row > len(lines) {
		return "", "Write each setting on a line of its own as name = value, words in quotation marks."
	}
	found = strings.TrimSpace(lines[row-1])
	m := settingLine.FindStringSubmatch(found)
	if m == nil {
		return sheets.Shortened(found), "Write it as name = value, words in quotation marks, or begin the line with # if " +
			"it is a remark."
	}
	name, value := m[1], strings.Trim(m[2], `"'“”‘’`)
	number := strings.Map(func(c rune) rune {
		if strings.ContainsRune(measure.CurrencySigns+" ", c) {
			return -1
		}
		return c
	}, value)
	if strings.Contains(number, ",") && !strings.Contains(number, ".") {
		if whole, part, _ := strings.Cut(number, ","); len(part) == 3 {
			number = whole + part // thousands
		} else {
			number = whole + "." + part
		}
	}
	number = strings.ReplaceAll(number, ",", "")
	isText := false
	for _, key := range textSettings {
		isText = isText || key == name
	}
	switch {
	case value == "":
		fix = fmt.Sprintf("Type a value after the sign =, or take the line out: %s then has its usual value.", name)
	case !isText && plainFigure.MatchString(number):
		fix = fmt.Sprintf("Write a number alone, with a point and no other sign. Type %s = %s.", name, number)
	case value == "true" || value == "false":
		fix = fmt.Sprintf("Type %s = %s.", name, value)
	case strings.ContainsAny(value, "\"\\"):
		fix = fmt.Sprintf("Text stands in quotation marks, and can have none within. Type %s = '%s'.", name,
			strings.ReplaceAll(value, "'", "’"))
	default:
		fix = fmt.Sprintf("Text stands in quotation marks. Type %s = \"%s\".", name, value)
	}
	return sheets.Shortened(found), fix
}
