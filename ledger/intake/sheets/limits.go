package sheets

import (
	"fmt"
	"unicode/utf8"

	"piecebook/ledger/fault"
)

// Limits on what is read, far above any shop's records, so that a mistake or an
// attack ends in a message rather than in a machine without memory.
const (
	fileBytesMax   = 128 << 20  // of one file as it lies in the folder
	allBytesMax    = 256 << 20  // of all files
	unzipBytesMax  = 512 << 20  // of the parts of one workbook that are read, unpacked
	listBytesMax   = 8 << 20    // of its lists of sheets and links
	sheetsMax      = 1_000      // of one workbook
	elementsMax    = 40_000_000 // of its parts: two or three make a cell, blank ones too
	elementsStep   = 1_000      // that a part is counted by
	depthMax       = 100        // of elements within each other; the standard's stand under 20 deep
	tagBytesMax    = 1 << 20    // of one text or tag in a part of a workbook
	stylesMax      = 65_490     // number formats, as many as the standard allows
	mergedMax      = 1_000      // merged areas and hidden columns that are remembered of a sheet
	sheetRowsMax   = 200_000    // not blank, of one sheet
	sheetColsMax   = 1_000      // up to the last that is filled
	sheetCellsMax  = 4_000_000  // of one file, blank ones before a filled one too
	allCellsMax    = 8_000_000  // of all files
	rowWeight      = 20         // cells that a row counts as beside its own
	cellLettersMax = 32_767     // of one cell, as in spreadsheet programs
	unclosedMax    = 20         // quotation marks not closed, of one file
	folderDepthMax = 20         // folders within folders
	filesMax       = 10_000     // files in all
	settingsBytes  = 1 << 20
)

// The most columns and rows that a sheet of the standard can have.
const (
	gridColumns = 16_384
	gridRows    = 1_048_576
)

// TitleRowsMax is how many rows that are not blank may stand above the column
// names, the names' own row included.
const TitleRowsMax = 10

// tooBig is a file or folder beyond the limits.
func tooBig(name, why, fix string) fault.Problem {
	return fault.Problem{Code: fault.CodeFileTooBig, Place: fault.Place{File: name}, Why: why, Fix: fix}
}

// tooManyRows refuses a sheet whole: reading a part of it would drop rows.
func tooManyRows(place fault.Place) fault.Problem {
	return fault.Problem{Code: fault.CodeFileTooBig, Place: place,
		Why: fmt.Sprintf("There are more than %d rows here, or over %d columns or %d million cells, far above any "+
			"shop's records.",
			sheetRowsMax, sheetColsMax, sheetCellsMax/1_000_000),
		Fix: "Split the records into several files, or take out what is not records."}
}

// tooLong refuses a cell longer than any spreadsheet's, which is most often a
// row whose quotation mark is closed many rows below.
func tooLong(at fault.Place, cell string) fault.Problem {
	return fault.Problem{Code: fault.CodeCellTooLong, Place: at, Found: Shortened(cell),
		Why: fmt.Sprintf("This cell holds more text than a cell of a spreadsheet can, %d letters.", cellLettersMax),
		Fix: "Look for a quotation mark that is not closed, or shorten the text."}
}

// overlong says that a cell holds more than a spreadsheet's can.
func overlong(cell string) bool {
	return len(cell) > cellLettersMax && utf8.RuneCountInString(cell) > cellLettersMax
}

// foundMax is the most of a text that a message shows, in letters.
const foundMax = 80

// Shortened is a text cut to the 80 letters that a message shows.
func Shortened(text string) string {
	if r := []rune(text[:min(len(text), utf8.UTFMax*(foundMax+1))]); len(r) > foundMax {
		return string(r[:foundMax]) + "…"
	}
	return text
}
