package commands

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/terminal"
)

// find settles where the books are: whoever stands in the records folder of a
// books folder means that, and the terminal says so.
func (c *cli) find(w terminal.Console) {
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

// elsewhere is where the books may be, for whoever stands beside them: the
// folders below that have a folder of records. Empty where there is none, or
// where there are records here.
func (c *cli) elsewhere() string {
	dir := c.booksDir()
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

// nothingHere is what is said where there is no record at all.
func (c *cli) nothingHere() string {
	if other := c.elsewhere(); other != "" {
		return other
	}
	if _, err := fs.Stat(os.DirFS(c.booksDir()), booksdir.Records); err == nil {
		return "Nothing is filled in yet. Next: fill in Pieces and Supplies, then piecebook check."
	}
	return "There are no books here. Next: piecebook start books lays out a folder to fill in; or name yours, as in: " +
		"piecebook --books DIR check."
}
