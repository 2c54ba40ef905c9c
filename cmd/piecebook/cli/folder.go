package cli

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/terminal"
)

// OutDir is where reports go.
func (c *Call) OutDir() string {
	if c.Out != "" {
		return c.Out
	}
	return filepath.Join(c.BooksDir(), "reports")
}

// HasRecords says that a folder holds books or files that can be records.
func HasRecords(dir string) bool {
	return booksdir.IsBooks(dir) || len(booksdir.Files(dir)) > 0
}

// BooksDir is the books folder; of a single workbook, the folder it lies in.
func (c *Call) BooksDir() string {
	if info, err := os.Stat(c.Books); err == nil && !info.IsDir() {
		return filepath.Dir(c.Books)
	}
	return c.Books
}

// FindBooks settles where the books are: someone in the records folder of a
// books folder means that, and the terminal says so.
func (c *Call) FindBooks(w terminal.Console) {
	whole, err := filepath.Abs(c.Books)
	if err != nil || filepath.Base(whole) != booksdir.Records {
		return
	}
	if info, err := os.Stat(whole); err != nil || !info.IsDir() {
		return
	}
	above := filepath.Dir(whole)
	c.Books = above
	if here, err := os.Getwd(); err == nil {
		if near, err := filepath.Rel(here, above); err == nil {
			c.Books = near
		}
	}
	fmt.Fprintf(w.Err, "This is the folder of records; its books folder is used: %s\n", above)
}

// elsewhere is where the books may be, for someone in a folder above: the
// folders below that have a folder of records. Empty where there is none, or
// where there are records here.
func (c *Call) elsewhere() string {
	dir := c.BooksDir()
	if _, err := os.Stat(filepath.Join(dir, booksdir.Records)); err == nil {
		return ""
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return ""
	}
	var found []string
	for _, e := range entries {
		if info, err := os.Stat(filepath.Join(dir, e.Name(), booksdir.Records)); e.IsDir() && err == nil && info.IsDir() {
			found = append(found, fmt.Sprintf("piecebook --books %s …", filepath.Join(dir, e.Name())))
		}
	}
	if len(found) == 0 {
		return ""
	}
	return "There are books in a folder below this one. For them: " + strings.Join(found[:min(len(found), 3)], ", or ")
}

// NothingHere is what is said where there is no record at all.
func (c *Call) NothingHere() string {
	if other := c.elsewhere(); other != "" {
		return other
	}
	if _, err := fs.Stat(os.DirFS(c.BooksDir()), booksdir.Records); err == nil {
		return "Nothing is filled in yet. Next: fill in Pieces and Supplies, then piecebook check."
	}
	return "There are no books here. Next: piecebook start books lays out a folder to fill in; or name yours, as in: " +
		"piecebook --books DIR check."
}
