// Package booksdir finds and opens a books folder: settings and a folder of
// records, or one workbook taken as such a folder.
package booksdir

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"piecebook/ledger/seen"
)

// Records is the folder of records within a books folder.
const Records = "records"

// Near are the books folders where the program stands: that folder
// itself, else those below it.
func Near(dir string) []string {
	if IsBooks(dir) {
		return []string{dir}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if sub := filepath.Join(dir, e.Name()); IsBooks(sub) {
			out = append(out, sub)
		}
	}
	return out
}

// IsBooks says that a folder holds books: settings or a folder of records.
func IsBooks(dir string) bool {
	for _, name := range []string{Records, "settings.toml"} {
		if _, err := os.Stat(filepath.Join(dir, name)); err == nil {
			return true
		}
	}
	return false
}

// Files are the names of the files that stand directly in a folder and can be
// records.
func Files(dir string) []string {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		ext := strings.ToLower(filepath.Ext(e.Name()))
		// What begins so is the mark of an office program that has a file open.
		mark := strings.HasPrefix(e.Name(), "~$") || strings.HasPrefix(e.Name(), ".")
		if !e.IsDir() && !mark && slices.Contains([]string{".csv", ".tsv", ".xlsx"}, ext) {
			out = append(out, e.Name())
		}
	}
	return out
}

// Open is a books folder as a file system that does not follow links out
// of itself; a single workbook is a folder that holds just that.
func Open(name string) (fs.FS, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		root, err := os.OpenRoot(filepath.Dir(name))
		if err != nil {
			return nil, err
		}
		return oneFile{root.FS(), filepath.Base(name)}, nil
	}
	root, err := os.OpenRoot(name)
	if err != nil {
		return nil, err
	}
	return root.FS(), nil
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

// Photos is where the photos that records name are opened: the books folder,
// and of a single workbook the folder it is in.
func Photos(folder fs.FS) fs.FS {
	if one, ok := folder.(oneFile); ok {
		return one.FS
	}
	return folder
}
