// Package setup makes what stands before the first record: a new books folder,
// cards and the guide.
package setup

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/fault"
	"piecebook/report/outfile"
	"piecebook/report/starter"
	"piecebook/templates"
)

type StartCmd struct {
	Dir string `arg:"" optional:"" help:"The folder to lay out; it is made where it is not there." placeholder:"DIR"`
}

// Run lays out a new books folder. What is there already is never touched.
func (k StartCmd) Run(c *cli.Call, w terminal.Console) error {
	if k.Dir == "" {
		return cli.Usage(wouldStart())
	}
	set, err := templates.Load()
	if err != nil {
		return err
	}
	files, err := starter.Files(set)
	if err != nil {
		return err
	}
	if info, err := os.Stat(k.Dir); err == nil && !info.IsDir() {
		return notStarted(k.Dir + " is a file, not a folder. Nothing was written. Name a new folder, as in: " +
			"piecebook start books")
	}
	if !c.JSON {
		if err := outfile.Finish(k.Dir); err != nil {
			return err
		}
	}
	var out []outfile.File
	var paths []string
	for _, f := range files {
		path := filepath.Join(k.Dir, filepath.FromSlash(f.Name))
		if there, err := begun(path, f.Bytes); err != nil {
			return err
		} else if !there {
			out = append(out, cli.PlainFile(f.Name, f.Bytes))
		}
		paths = append(paths, path)
	}
	if len(out) == 0 {
		return alreadyThere(paths[0])
	}
	if c.JSON {
		return cli.WriteJSON(w, map[string]any{"schema": "piecebook/start/1", "files": paths})
	}
	if err := c.Stop.WriteAll(k.Dir, out); err != nil {
		return err
	}
	for _, path := range paths {
		w.TellFile(path)
	}
	tellBeside(w, k.Dir)
	fmt.Fprintf(w.Err, `
Next: open %s in a spreadsheet program; its first sheet says where to begin.
Read through %s once: every choice of the shop is explained there.
`, paths[1], paths[0])
	if w.InMenu {
		fmt.Fprint(w.Err, "Then save it, and type 2: it tells what can be read and what cannot. 1 makes the month's pack.\n")
		return nil
	}
	self := (&cli.Call{Books: k.Dir}).Self()
	fmt.Fprintf(w.Err, `Then: %s check tells what can be read and what cannot.
And: %s month makes the month's pack.
`, self, self)
	return nil
}

// tellBeside says of files that stand in the folder already, or beside it, how they
// can be read.
func tellBeside(w terminal.Console, dir string) {
	if files := booksdir.Files(dir); len(files) > 0 {
		fmt.Fprintf(w.Err, "\nHere already: %s. From now on only what is in %s is read: if these are your "+
			"records, move them there.\n", fault.Few(files), filepath.Join(dir, booksdir.Records))
		return
	}
	above := filepath.Dir(filepath.Clean(dir))
	files := booksdir.Files(above)
	if len(files) == 0 || booksdir.IsBooks(above) {
		return
	}
	how := (&cli.Call{Books: above}).Self() + " check"
	if w.InMenu {
		how = "9, its name, and then 2,"
	}
	fmt.Fprintf(w.Err, "\nBeside it: %s. If these are your records, they need no new book: %s reads them as they are.\n",
		fault.Few(files), how)
}

// wouldStart says what start would do, and where, for a folder of a name that
// suits most.
func wouldStart() string {
	const name = "books"
	where, err := filepath.Abs(name)
	if err != nil {
		where = name
	}
	return fmt.Sprintf(`start lays out a new books folder: settings.toml, in which every choice of the
shop is explained, and records/Shop book.xlsx, a workbook to fill in. It never
overwrites anything. Nothing was written yet.
Next: piecebook start %s
would make %s`, name, where)
}

// begun says that a file stands there as start lays it out, so that one that was
// stopped in the middle can be finished. Anything else there is refused.
func begun(path string, bytes []byte) (bool, error) {
	// Lstat: a link that leads nowhere is something too.
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return false, nil
	} else if err != nil {
		return false, err
	}
	there, err := cli.ReadBounded(path, int64(len(bytes)))
	if err != nil || string(there) != string(bytes) {
		return false, alreadyThere(path)
	}
	return true, nil
}

// alreadyThere says why nothing is written: something stands in the place of a
// file.
func alreadyThere(path string) error {
	return notStarted(path + " is there already, and start never overwrites. Nothing was written. Name a new folder, or " +
		"move the file away first.")
}

// notStarted says in whole sentences why nothing was laid out.
type notStarted string

func (n notStarted) Error() string { return string(n) }
