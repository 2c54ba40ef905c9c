package closemonths

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/report/outfile"
)

type ReopenCmd struct {
	Month   string `arg:"" help:"The first month to open again, as 2026-03. All later ones are opened too."`
	Because string `required:"" help:"Why. It is kept with the files that are replaced." placeholder:"REASON"`
}

// reopened is what is kept beside the files of months opened again.
type reopened struct {
	Schema  string           `json:"schema"`
	Months  []calendar.Month `json:"months"`
	Because string           `json:"because"`
	On      calendar.Date    `json:"on"`
	Program string           `json:"program"`
}

// reopenedFolder holds, within closed/, the files of months opened again, a
// numbered folder each time.
const reopenedFolder = "reopened"

// Run opens a closed month and all later ones.
func (k ReopenCmd) Run(c *cli.Call, w terminal.Console) error {
	month, err := cli.ReadMonth(k.Month)
	if err != nil {
		return err
	}
	if strings.TrimSpace(k.Because) == "" {
		return cli.Usage("Say why, as in: piecebook reopen 2026-03 --because \"the invoice was another\"")
	}
	unlock, err := lockClosed(c)
	if err != nil {
		return err
	}
	defer unlock()
	months, err := closedNames(filepath.Join(c.Books, closing.Folder))
	if err != nil {
		return err
	}
	months = slices.DeleteFunc(months, func(m calendar.Month) bool { return m < month })
	if len(months) == 0 || months[0] != month {
		return cli.Usagef("%s is not closed.", month.Name())
	}
	what := reopened{"piecebook/reopened/1", months, k.Because, calendar.FromTime(time.Now()), cli.Version()}
	if c.JSON {
		return cli.WriteJSON(w, what)
	}
	to, err := setAside(c, what)
	if err != nil {
		return err
	}
	fmt.Fprintf(w.Err, "%s %s open again. What was closed is kept, with the reason, in:\n", monthNames(months),
		fault.Plural(len(months), "is", "are"))
	fmt.Fprintln(w.Out, to)
	return nil
}

// closedNames is the months that have a file, whatever is in it: an altered
// one can be opened again too.
func closedNames(dir string) ([]calendar.Month, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var out []calendar.Month
	for _, e := range entries {
		name, isJSON := strings.CutSuffix(e.Name(), ".json")
		if m, err := calendar.ParseMonth(name); isJSON && err == nil {
			out = append(out, m)
		}
	}
	return out, err
}

// setAside moves the months' files into a numbered folder, the reason first,
// then the last month first: a month is open as soon as its file is moved, so
// that whatever interrupts leaves whole months closed. The folder is returned.
func setAside(c *cli.Call, what reopened) (string, error) {
	dir := filepath.Join(c.Books, closing.Folder)
	to := ""
	for n := 1; ; n++ {
		to = filepath.Join(dir, reopenedFolder, fmt.Sprint(n))
		if _, err := os.Lstat(to); errors.Is(err, fs.ErrNotExist) {
			break
		}
	}
	reason := func(out io.Writer) error { return cli.WriteJSON(terminal.Console{Out: out}, what) }
	if err := c.Write(to, []outfile.File{{Name: "reason.json", Write: reason}}); err != nil {
		return "", err
	}
	for _, m := range slices.Backward(what.Months) {
		for _, name := range []string{m.String() + ".json", m.String()} {
			err := os.Rename(filepath.Join(dir, name), filepath.Join(to, name))
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return "", err
			}
		}
	}
	return to, nil
}
