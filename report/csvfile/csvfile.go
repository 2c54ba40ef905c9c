// Package csvfile writes plain files that a spreadsheet program opens as they
// are meant: UTF-8 with its mark, since without it some programs take Windows
// letters; lines end as RFC 4180 says; and no words become a formula.
package csvfile

import (
	"encoding/csv"
	"io"
	"regexp"
	"strings"
)

// mark is the byte order mark of UTF-8.
const mark = "\uFEFF"

// Write writes rows, the heads first. Words that a spreadsheet program would
// take for a formula are guarded by Text. Nothing else is changed.
func Write(w io.Writer, rows [][]string) error {
	if _, err := io.WriteString(w, mark); err != nil {
		return err
	}
	out := csv.NewWriter(w)
	out.UseCRLF = true
	for _, row := range rows {
		guarded := make([]string, len(row))
		for i, cell := range row {
			guarded[i] = Text(cell)
		}
		if err := out.Write(guarded); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// number is a plain number, which no program takes for a formula that does
// something.
var number = regexp.MustCompile(`^[-+]?\d+(\.\d+)?$`)

// Text guards words against being taken for a formula: an apostrophe goes
// before any that begin with = + - @ (their wide forms too), a tab or the end
// of a line. (OWASP, CSV Injection.) Plain numbers, negative ones too, are
// left as they are.
func Text(s string) string {
	if s == "" || number.MatchString(s) {
		return s
	}
	if strings.ContainsRune("=+-@\t\r\n＝＋－＠", []rune(s)[0]) {
		return "'" + s
	}
	return s
}
