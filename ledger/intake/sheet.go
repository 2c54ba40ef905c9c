package intake

import (
	"bytes"
	"path"
	"strings"

	"piecebook/ledger/fault"
)

// sheet is one grid of texts: a plain file, or a sheet of a workbook.
type sheet struct {
	file  string
	name  string // of the sheet in a workbook; empty for a plain file
	known string // what its table is known by: sheet name, or the file's without ending
	lines []line // not wholly blank
	asks  *workbook
}

// line is one row. Number is the spreadsheet's own, from 1.
type line struct {
	number int
	cells  []string
	broken bool // its problem has been told: a stray quotation mark
}

// place is the sheet as a whole.
func (s *sheet) place() fault.Place { return fault.Place{File: s.file, Sheet: s.name} }

// openSheets reads a file into its sheets, by what its bytes are rather than
// by what its name says.
func openSheets(f rawFile, problems *fault.List) []*sheet {
	kind := strings.ToLower(path.Ext(f.name))
	isZip := bytes.HasPrefix(f.bytes, []byte("PK"))
	switch {
	case bytes.HasPrefix(f.bytes, []byte{0xD0, 0xCF, 0x11, 0xE0}):
		problems.Add(notRead(f.name, "This is a workbook of the old .xls kind, or one with a password."))
	case kind == ".csv" && isZip:
		problems.Add(notRead(f.name, "This file is named .csv but holds a workbook."))
	case kind == ".csv":
		return openText(f, problems)
	case len(f.bytes) == 0:
		problems.Add(notRead(f.name, "This file is empty."))
	case !isZip:
		problems.Add(notRead(f.name, "This file is named as a workbook but is none."))
	default:
		return openWorkbook(f, problems)
	}
	return nil
}

// openText reads a plain file. A blank one is a sheet without lines.
func openText(f rawFile, problems *fault.List) []*sheet {
	text, guessed, ok := decodeText(f.bytes)
	if !ok {
		problems.Add(notRead(f.name, "This file is named .csv but is not plain text."))
		return nil
	}
	if guessed {
		problems.Add(fault.Problem{Code: fault.CodeLettersGuessed, Note: true, Place: fault.Place{File: f.name},
			Why: "Its letters are not saved in the usual way (UTF-8), so they were taken for Windows ones.",
			Fix: "If a name looks wrong, save the file again as CSV UTF-8."})
	}
	base := path.Base(f.name)
	s := &sheet{file: f.name, known: strings.TrimSuffix(base, path.Ext(base))}
	s.lines = splitText(text, s.place(), problems)
	return []*sheet{s}
}

// blank says that a row holds nothing.
func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}
