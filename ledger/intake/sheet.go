package intake

import (
	"bytes"
	"fmt"
	"iter"
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
	// Of a plain file: what parts its cells, and the name of its letters'
	// encoding as registered with IANA.
	separates, letters string
}

// line is one row. Number is the spreadsheet's own, from 1.
type line struct {
	number int
	cells  []string
	broken bool // its problem has been told: a stray quotation mark
}

// place is the sheet as a whole.
func (s *sheet) place() fault.Place { return fault.Place{File: s.file, Sheet: s.name} }

// openAll reads files into their sheets, as long as all their cells are within
// the limit. known says that a text is a column name.
func openAll(files []rawFile, known func(string) bool, problems *fault.List) iter.Seq[*sheet] {
	return func(yield func(*sheet) bool) {
		cells := 0
		for _, file := range files {
			for _, s := range openSheets(file, known, problems) {
				for _, l := range s.lines {
					cells += len(l.cells) + rowWeight
				}
				if !yield(s) {
					return
				}
			}
			if cells > allCellsMax {
				problems.Add(tooBig(file.name, fmt.Sprintf("The files up to here hold more than %d rows or %d million cells, far above any shop's records, so the others are not read.", allCellsMax/rowWeight, allCellsMax/1_000_000),
					"Take out what is not records."))
				return
			}
		}
	}
}

// openSheets reads a file into its sheets, by what its bytes are rather than
// by what its name says. known says that a text is a column name.
func openSheets(f rawFile, known func(string) bool, problems *fault.List) []*sheet {
	kind := strings.ToLower(path.Ext(f.name))
	isZip := bytes.HasPrefix(f.bytes, []byte("PK"))
	switch other, fix := foreign(f.bytes); {
	case other != "":
		problems.Add(notRead(f.name, other, fix))
	case isText(kind) && isZip:
		fix := "Rename it so that its name ends in .xlsx, or save it as CSV."
		if _, why := inspect(f.bytes); why != "" {
			fix = saveAgain
		}
		problems.Add(notRead(f.name, fmt.Sprintf("This file is named %s but holds a workbook.", kind), fix))
	case isText(kind):
		return openText(f, known, problems)
	case len(f.bytes) == 0:
		problems.Add(notRead(f.name, "This file is empty.", "Copy it here again, or take it out of the records."))
	case !isZip:
		problems.Add(notRead(f.name, "This file is named as a workbook but is none.", saveAgain))
	default:
		return openWorkbook(f, problems)
	}
	return nil
}

// foreign tells a file that is neither text of cells nor a workbook, by how it
// begins, whatever its name; nothing where it may be read.
func foreign(b []byte) (why, fix string) {
	head := strings.ToLower(strings.TrimLeft(strings.TrimPrefix(string(b[:min(len(b), 512)]), "\ufeff"), " \t\r\n"))
	begins := func(with ...string) bool {
		for _, w := range with {
			if strings.HasPrefix(head, w) {
				return true
			}
		}
		return false
	}
	switch {
	case bytes.HasPrefix(b, []byte{0xD0, 0xCF, 0x11, 0xE0}):
		return "This is a workbook of the old .xls kind, or one with a password.", "Open it in a spreadsheet program, take the password off if it has one, and save it as .xlsx."
	case begins("<!doctype html", "<html", "<table", "<head", "<body", "<meta"):
		return "This is a web page, whatever its name says.", saveAgain
	case begins("<?xml", "<workbook", "<office:"):
		return "This is a workbook kept as one XML text, which is not read.", saveAgain
	case begins("%pdf-", "{\\rtf", "\x89png", "\xff\xd8\xff", "gif8", "\x1f\x8b", "7z\xbc\xaf", "rar!"):
		return "This is a document, a picture or a packed file, whatever its name says.", saveAgain
	}
	return "", ""
}

// openText reads a plain file. A blank one is a sheet without lines.
func openText(f rawFile, known func(string) bool, problems *fault.List) []*sheet {
	text, guessed, why := decodeText(f.bytes)
	switch why {
	case "":
	case halfText:
		problems.Add(notRead(f.name, why, "Copy it here again, or save it once more as CSV UTF-8."))
		return nil
	default:
		problems.Add(notRead(f.name, why, saveAgain))
		return nil
	}
	if guessed {
		problems.Add(fault.Problem{Code: fault.CodeLettersGuessed, Note: true, Place: fault.Place{File: f.name},
			Why: "Its letters are not saved in the usual way (UTF-8), so they were taken for Windows ones.",
			Fix: "If a name looks wrong, save the file again as CSV UTF-8."})
	}
	base := path.Base(f.name)
	s := &sheet{file: f.name, known: strings.TrimSuffix(base, path.Ext(base))}
	lines, sep := splitText(text, s.place(), known, problems)
	s.lines, s.separates, s.letters = unwrapped(lines, known), string(sep), lettersName(f.bytes, guessed)
	return []*sheet{s}
}

// unwrapped reads rows each of which was put into quotation marks whole, as
// happens when a plain file is opened as one column and saved again: the one
// cell of each row holds all its cells. It is so where the first row's cell
// holds column names.
func unwrapped(lines []line, known func(string) bool) []line {
	for _, l := range lines {
		if len(l.cells) != 1 || l.broken {
			return lines
		}
	}
	out := make([]line, len(lines))
	var sep byte
	for i, l := range lines {
		if i == 0 {
			if sep = separator(l.cells[0], known); strings.IndexByte(l.cells[0], sep) < 0 {
				return lines
			}
		}
		s := &splitter{text: l.cells[0], sep: sep, problems: &fault.List{}}
		out[i] = s.record()
		out[i].number = l.number
		if s.at < len(s.text) || out[i].broken || i == 0 && !known(out[0].cells[0]) {
			return lines
		}
	}
	return out
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
