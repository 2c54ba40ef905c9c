package commands

import (
	"fmt"
	"os"
	"path/filepath"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/report/outfile"
	"piecebook/report/words"
)

// draft makes the month's pack without the lines that have problems: every row
// with an error is refused and all is read again, until what is left has none.
// Where no row is refused it is the whole pack, with its figures.
// It exits 0, since what was asked for is done, and removes a figures.json of an
// earlier pack from its folder.
func (c *cli) draft(w terminal.Console, month calendar.Month) error {
	if c.JSON {
		return usage("A draft has no figures for other programs. Put the records right, then: piecebook month --json")
	}
	b, err := c.openDraft(month)
	if err != nil {
		return err
	}
	if err := c.hasMonth(b); err != nil {
		return err
	}
	if b.stamp, err = stampOf(w); err != nil {
		return err
	}
	in, err := b.input()
	if err != nil {
		return err
	}
	if len(in.Refused) == 0 {
		fmt.Fprintln(w.Err, "No line had to be left out, so this is the whole pack and no draft.")
		return c.pack(w, month)
	}
	in.Draft = true
	dir := filepath.Join(c.outDir(), b.Month.String())
	files := packFiles(b, in)
	// Figures of an earlier, whole pack would not belong to this one.
	stale := filepath.Join(dir, figuresFile)
	_, missing := os.Lstat(stale)
	if err := c.write(dir, append(files, outfile.File{Name: figuresFile})); err != nil {
		return err
	}
	c.made = made{month: b.Month, dir: dir, files: len(files), refused: len(in.Refused)}
	if missing == nil {
		fmt.Fprintf(w.Err, "%s of an earlier pack was taken out: a draft has none.\n", stale)
	}
	tellAnswer(w, in)
	fmt.Fprintf(w.Err, "The draft of %s is in:\n", b.Month.Name())
	listFiles(w, dir, files)
	n := len(in.Refused)
	fmt.Fprintf(w.Err, "This is a draft: %d %s left out, and page 1 lists them. piecebook check tells how to "+
		"put them right.\n", n, fault.Plural(n, "problem is", "problems are"))
	fmt.Fprintf(w.Err, "%s.\n", in.Tally)
	return nil
}

// openDraft is open without the lines that have an error.
func (c *cli) openDraft(month calendar.Month) (*books, error) {
	r, err := c.reader()
	if err != nil {
		return nil, err
	}
	folder, closed, err := c.folderAndClosed()
	if err != nil {
		return nil, err
	}
	if n := len(closed); n > 0 && month != 0 && month <= closed[n-1].Month {
		return nil, usage(words.NoDraft(month))
	}
	return c.books(r.Draft(folder, month, closed))
}
