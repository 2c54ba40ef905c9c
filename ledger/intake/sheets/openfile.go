package sheets

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"strings"

	"piecebook/ledger/fault"
)

// openFile reads a file into its sheets, by what its bytes are rather than
// by what its name says. known says that a text is a column name.
func openFile(f File, known func(string) bool, problems *fault.List) []*Sheet {
	kind := strings.ToLower(path.Ext(f.Name))
	isZip := bytes.HasPrefix(f.Bytes, []byte("PK"))
	switch other, fix := foreign(f.Bytes); {
	case other != "":
		problems.Add(notRead(f.Name, other, fix))
	case IsText(kind) && isZip:
		fix := "Rename it so that its name ends in .xlsx, or save it as CSV."
		if _, err := readWorkbook(f, &fault.List{}); err != nil && !errors.Is(err, errOwn) {
			fix = saveAgain
		}
		problems.Add(notRead(f.Name, fmt.Sprintf("This file is named %s but holds a workbook.", kind), fix))
	case IsText(kind):
		return openText(f, known, problems)
	case len(f.Bytes) == 0:
		problems.Add(emptyFile(f.Name))
	case !isZip:
		problems.Add(notRead(f.Name, "This file is named as a workbook but is not one.", saveAgain))
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
		return "This is a workbook of the old .xls kind, or one with a password.", "Open it in a spreadsheet program, take " +
			"the password off if it has one, and save it as .xlsx."
	case begins("<!doctype html", "<html", "<table", "<head", "<body", "<meta"):
		return "This is a web page, whatever its name says.", saveAgain
	case begins("<?xml", "<workbook", "<office:"):
		return "This is a workbook kept as one XML text, which is not read.", saveAgain
	case begins("%pdf-", "{\\rtf", "\x89png", "\xff\xd8\xff", "gif8", "\x1f\x8b", "7z\xbc\xaf", "rar!"):
		return "This is a document, a picture or a packed file, whatever its name says.", saveAgain
	}
	return "", ""
}

// emptyFile refuses a file that holds nothing: what stood in it would be missing.
func emptyFile(name string) fault.Problem {
	return notRead(name, "This file is empty, so records may be missing.",
		"Copy it here again, or take it out of the records.")
}
