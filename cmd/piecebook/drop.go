package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"piecebook/ledger/seen"
)

// dropped says that the one argument is a workbook or a folder, as when a
// file is dropped on the program.
func dropped(args []string) bool {
	if len(args) != 1 || strings.HasPrefix(args[0], "-") {
		return false
	}
	info, err := os.Stat(args[0])
	if err != nil {
		return false
	}
	return info.IsDir() || strings.Contains(filepath.Base(args[0]), ".")
}

// droppedArgs makes the last month's pack beside what was dropped. A records
// folder inside a books folder stands for the books folder.
func droppedArgs(arg string) []string {
	arg = filepath.Clean(arg)
	if filepath.Base(arg) == "records" {
		return []string{"--books", filepath.Dir(arg)}
	}
	return []string{"--books", arg}
}

// oneFile is a books folder that holds one file of records and, where it is
// there, the settings.toml beside it; nothing else of the folder is seen.
type oneFile struct {
	fs.FS
	name string
}

func (o oneFile) shows(name string) bool {
	return name == "." || name == o.name || name == "settings.toml" || name == seen.File
}

// Open hides all but the one file, the settings and the folder itself.
func (o oneFile) Open(name string) (fs.File, error) {
	if !o.shows(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return o.FS.Open(name)
}

// ReadDir lists what Open shows.
func (o oneFile) ReadDir(name string) ([]fs.DirEntry, error) {
	if name != "." {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	entries, err := fs.ReadDir(o.FS, name)
	return slices.DeleteFunc(entries, func(e fs.DirEntry) bool { return !o.shows(e.Name()) }), err
}
