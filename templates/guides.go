package templates

import "strings"

// The sheets of the starter workbook that hold no records: where to begin,
// and the choices offered on the other sheets.
const (
	BeginSheet   = "Begin here"
	BeginOpening = "How to fill in this workbook"
	ListsSheet   = "Lists"
	ListsOpening = "Choices offered on the other sheets"
)

// IsGuide says that a sheet is one of those, by its name and its first cell:
// an owner's own sheet of the same name is not.
func IsGuide(sheet, firstCell string) bool {
	opening, is := map[string]string{BeginSheet: BeginOpening, ListsSheet: ListsOpening}[sheet]
	return is && strings.TrimSpace(firstCell) == opening
}

// ExamplePrefix begins the first cell of a row that is not read.
const ExamplePrefix = "example:"
