package packs

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"piecebook/ledger/closing"
	"piecebook/ledger/opened"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/report/outfile"
	"piecebook/report/words"
)

// makeDraft makes the month's pack without the lines that have problems: every row
// with an error is refused and all is read again, until what is left has none.
// Where no row is refused it is the whole pack, with its figures.
// It exits 0, since what was asked for is done, and removes a figures.json of an
// earlier pack from its folder.
func makeDraft(c *cli.Call, w terminal.Console, month calendar.Month) (Made, error) {
	if c.JSON {
		return Made{}, cli.Usage("A draft has no figures for other programs. Put the records right, then: " +
			"piecebook month --json")
	}
	b, err := openDraft(c, month)
	if err != nil {
		return Made{}, err
	}
	if err := c.HasMonth(b); err != nil {
		return Made{}, err
	}
	if b.Stamp, err = cli.StampOf(w); err != nil {
		return Made{}, err
	}
	in, err := b.Input()
	if err != nil {
		return Made{}, err
	}
	if len(in.Refused) == 0 {
		fmt.Fprintln(w.Err, "No line had to be left out, so this is the whole pack and no draft.")
		return pack(c, w, month)
	}
	in.Draft = true
	dir := filepath.Join(c.OutDir(), b.Month.String())
	files := PackFiles(b, in)
	// Figures of an earlier, whole pack would not belong to this one.
	stale := filepath.Join(dir, cli.FiguresFile)
	_, missing := os.Lstat(stale)
	if err := c.Write(dir, append(files, outfile.File{Name: cli.FiguresFile})); err != nil {
		return Made{}, err
	}
	if missing == nil {
		fmt.Fprintf(w.Err, "%s of an earlier pack was taken out: a draft has none.\n", stale)
	}
	tellAnswer(w, in)
	fmt.Fprintf(w.Err, "The draft of %s is in:\n", b.Month.Name())
	cli.ListFiles(w, dir, files)
	n := len(in.Refused)
	fmt.Fprintf(w.Err, "This is a draft: %d %s left out, and page 1 lists them. %s tells how to put them right.\n", n,
		fault.Plural(n, "problem is", "problems are"), b.ToType("check"))
	fmt.Fprintf(w.Err, "%s.\n", in.Tally)
	return Made{month: b.Month, dir: dir, files: len(files), refused: n}, nil
}

// openDraft is open without the lines that have an error.
func openDraft(c *cli.Call, month calendar.Month) (*cli.Books, error) {
	return c.OpenBy(func(r opened.Reader, folder fs.FS, closed []*closing.Month) (*opened.Books, error) {
		if n := len(closed); n > 0 && month != 0 && month <= closed[n-1].Month {
			return nil, cli.Usage(words.NoDraft(month))
		}
		return r.Draft(folder, month, closed)
	})
}
