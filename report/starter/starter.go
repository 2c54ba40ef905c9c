// Package starter lays out a new books folder: settings with every key
// explained, and a workbook to fill in. What the tables and columns are comes
// from the descriptors in templates; only how they look is decided here.
package starter

import (
	_ "embed"

	"piecebook/templates"
)

// File is one file of a new books folder. Name is below the folder, with
// forward slashes.
type File struct {
	Name  string
	Bytes []byte
}

// The files' names.
const (
	SettingsName = "settings.toml"
	WorkbookName = "records/Shop book.xlsx"
)

//go:embed settings.toml
var settings []byte

// Files are the files of a new books folder; the same bytes every time.
func Files(set *templates.Set) ([]File, error) {
	book, err := Workbook(set)
	if err != nil {
		return nil, err
	}
	return []File{{SettingsName, settings}, {WorkbookName, book}}, nil
}
