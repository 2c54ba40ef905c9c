// Package closemonths closes months, opens them again, and works closed months
// out again.
package closemonths

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"

	"github.com/rogpeppe/go-internal/lockedfile"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/made"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/plainfile"
	"piecebook/report/figuresjson"
	"piecebook/report/outfile"
	"piecebook/report/words"
)

type CloseCmd struct {
	Month string `arg:"" help:"The last month to close, as 2026-03. All open months before it are closed too."`
}

// closeAnswer is the command's answer as JSON.
type closeAnswer struct {
	Schema string           `json:"schema"`
	Closed []calendar.Month `json:"closed"`
}

// Run closes every open month up to the one asked for, in order.
func (k CloseCmd) Run(c *cli.Call, w terminal.Console) error {
	month, err := cli.ReadMonth(k.Month)
	if err != nil {
		return err
	}
	if !cli.HasRecords(c.Books) {
		return cli.Usage(c.NothingHere())
	}
	unlock, err := lockClosed(c)
	if err != nil {
		return err
	}
	defer unlock()
	b, err := c.Ready(w, month)
	if err != nil {
		return err
	}
	switch last := checks.LastMonth(&b.Read.Books); {
	case last == 0:
		return cli.Usage("No month has records of two tables yet, so there is none to close.")
	case month <= b.LastClosed():
		return cli.Usagef("%s is closed already. To open it: %s %s --because \"...\"", month.Name(),
			b.ToType("reopen"), month)
	case month > last:
		return cli.Usagef("The records end with %s; a later month cannot be closed.", last.Name())
	}
	months, files, err := toClose(b)
	if err != nil {
		return err
	}
	if c.JSON {
		return cli.WriteJSON(w, closeAnswer{"piecebook/close/1", months})
	}
	since, err := made.SinceMade(c, b)
	if err != nil {
		return err
	}
	if err := c.Write(filepath.Join(c.BooksDir(), closing.Folder), files); err != nil {
		return err
	}
	for _, m := range months {
		fmt.Fprintln(w.Out, filepath.Join(c.BooksDir(), filepath.FromSlash(closing.FileName(m))))
	}
	fmt.Fprintf(w.Err, "%s %s. What the records later say of %s comes as corrections in the first open month.\n",
		monthNames(months), fault.Plural(len(months), "is closed", "are closed"), fault.Plural(len(months), "it", "them"))
	var outdated []string
	for _, s := range since {
		if s.Money() {
			folder := filepath.Join(c.OutDir(), s.Month.String())
			outdated = append(outdated, words.PackOutdated(s, folder, b.ToType("month")))
		}
	}
	terminal.PrintLines(w.Err, w.ErrWide, outdated)
	return nil
}

// lockClosed waits until no other run of the program closes or opens months
// of these books. The system lets the lock go whenever the program ends.
func lockClosed(c *cli.Call) (func(), error) {
	info, err := os.Stat(c.Books)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return nil, cli.Usage("Months are closed in a books folder; this is a single file. piecebook start " +
			"lays out a folder.")
	}
	dir := filepath.Join(c.Books, closing.Folder)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	unlock, err := lockedfile.MutexAt(filepath.Join(dir, ".lock")).Lock()
	if err != nil {
		return nil, err
	}
	if err := outfile.Finish(dir); err != nil {
		unlock()
		return nil, err
	}
	return unlock, nil
}

// toClose is the open months up to the books' month and their files: of each
// the copy of its records, then what says that it is closed.
func toClose(b *cli.Books) ([]calendar.Month, []outfile.File, error) {
	copied, kept, err := copied(b)
	if err != nil {
		return nil, nil, err
	}
	var months []calendar.Month
	var files []outfile.File
	lines := closing.LinesOf(b.Records.Books)
	closed := slices.Clone(b.Closed)
	for {
		view, carried := closing.View(b.Records, closed, cli.Version())
		if len(closed) == len(view.Months) {
			return months, files, nil
		}
		m := view.Months[len(closed)].Month
		text, err := figuresjson.Month(figures.For(view, m, m))
		if err != nil {
			return nil, nil, err
		}
		sealed := closing.Seal(view, carried, closed, cli.Version(), text, lines, kept)
		data, err := closing.Encode(sealed)
		if err != nil {
			return nil, nil, err
		}
		for i, f := range kept {
			files = append(files, cli.PlainFile(path.Join(m.String(), f.Name), copied[i]))
		}
		files = append(files, cli.PlainFile(m.String()+".json", data))
		months, closed = append(months, m), append(closed, sealed)
	}
}

// copied is the files that were read, settings.toml among them, by name.
func copied(b *cli.Books) ([][]byte, []closing.File, error) {
	var all [][]byte
	var kept []closing.File
	for _, name := range b.FilesRead("settings.toml") {
		data, err := plainfile.Read(b.Folder, name, cli.HandedBytesMax)
		if errors.Is(err, fs.ErrNotExist) && name == "settings.toml" {
			continue
		}
		if err != nil {
			return nil, nil, err
		}
		all, kept = append(all, data), append(kept, closing.FileOf(name, data))
	}
	return all, kept, nil
}

// monthNames names months that follow each other.
func monthNames(months []calendar.Month) string {
	first, last := months[0], months[len(months)-1]
	if first == last {
		return first.Name()
	}
	return first.Name() + " to " + last.Name()
}
