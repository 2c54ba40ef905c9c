package commands

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/opened"
	"piecebook/report"
	"piecebook/templates"
)

// books is a books folder opened, and how people name it.
type books struct {
	*opened.Books
	dir     string         // where settings.toml stands
	nothing string         // what is said where there is no table at all
	self    string         // how the program is called again for these books
	stamp   time.Time      // of SOURCE_DATE_EPOCH; zero: the period's end
	from    calendar.Month // of several months asked about, the first; else month
	lined   []closing.Line // once they are asked for
}

// reader is how this run opens books.
func (c *cli) reader() (opened.Reader, error) {
	set, err := templates.Load()
	progress := func(percent int, what string) { c.bar.At(float64(percent)/100, what) }
	return opened.Reader{Set: set, Program: version(), Progress: progress}, err
}

// books is what was opened, with how it is named.
func (c *cli) books(o *opened.Books, err error) (*books, error) {
	if err != nil {
		return nil, err
	}
	b := &books{Books: o, dir: c.booksDir(), self: c.self()}
	if len(o.Read.Tally) == 0 {
		b.nothing = c.nothingHere()
	}
	return b, nil
}

// open reads the books folder and costs it up to the month, or up to the last
// month that has records of two tables where none is asked for. It fails only
// where nothing could be read at all; problems are shown by the caller.
func (c *cli) open(month calendar.Month) (*books, error) {
	r, err := c.reader()
	if err != nil {
		return nil, err
	}
	folder, closed, err := c.folderAndClosed()
	if err != nil {
		return nil, err
	}
	return c.books(r.Open(folder, month, closed))
}

// folderAndClosed is the books folder with its closed months.
func (c *cli) folderAndClosed() (fs.FS, []*closing.Month, error) {
	folder, err := booksdir.Open(c.Books)
	if err != nil {
		return nil, nil, err
	}
	closed, err := closing.Read(folder)
	return folder, closed, err
}

// ready is open for commands that make reports: with any error in the
// records it tells them all and stops.
func (c *cli) ready(w terminal.Console, month calendar.Month) (*books, error) {
	b, err := c.openClosed(month)
	if err != nil {
		return nil, err
	}
	if b.stamp, err = stampOf(w); err != nil {
		return nil, err
	}
	if b.Problems.HasErrors() {
		if c.JSON {
			if err := writeJSON(w, problemsJSON(b)); err != nil {
				return nil, err
			}
		}
		tellProblems(w, b, false)
		fmt.Fprintln(w.Err, c.stopped(b))
		return nil, problems{b.Problems}
	}
	return b, c.hasMonth(b)
}

// stopped says that nothing was made, and what may be done.
func (c *cli) stopped(b *books) string {
	switch {
	case b.nothing != "":
		return b.nothing
	case strings.HasPrefix(c.command, "month"):
		return fmt.Sprintf("No report was written. Put these right and run it again; %s month --draft makes a draft "+
			"without these lines.", b.self)
	}
	return "Nothing was made. Put these right and run it again."
}

// self is how the program is called again for the same books.
func (c *cli) self() string {
	if c.Books == "." {
		return "piecebook"
	}
	if strings.ContainsAny(c.Books, " '\"&;()") {
		return fmt.Sprintf("piecebook --books %q", c.Books)
	}
	return "piecebook --books " + c.Books
}

// hasMonth refuses books without a month to report on.
func (c *cli) hasMonth(b *books) error {
	if b.Month == 0 || b.Ledger == nil {
		if b.nothing != "" {
			return usage(b.nothing)
		}
		return usage("There is too little for a report yet: no month has records of two tables. Next: fill in Pieces and, " +
			"say, Purchases; or name the month, as in: " + b.self + " month 2026-03")
	}
	return nil
}

// outDir is where reports go.
func (c *cli) outDir() string {
	if c.Out != "" {
		return c.Out
	}
	return filepath.Join(c.booksDir(), "reports")
}

// readMonth reads a month as typed; blank is none.
func readMonth(text string) (calendar.Month, error) {
	if text == "" {
		return 0, nil
	}
	if m, err := calendar.ParseMonth(text); err == nil {
		return m, nil
	}
	for _, as := range []string{"2006-1", "1/2006", "2006/1", "Jan 2006", "January 2006"} {
		if t, err := time.Parse(as, text); err == nil {
			return calendar.MonthOf(t.Year(), t.Month()), nil
		}
	}
	return 0, usage(fmt.Sprintf("%q is no month. Type the year and the month, as in 2026-03.", text))
}

// printAnswer prints an answer that another room has made as JSON.
func printAnswer(w terminal.Console, answer []byte, err error) error {
	if err == nil {
		_, err = fmt.Fprintf(w.Out, "%s\n", answer)
	}
	return err
}

func writeJSON(w terminal.Console, v any) error {
	e := json.NewEncoder(w.Out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// splitPeriod takes a month or a year off the end of the arguments, as its
// first and last month; 0 where there is none.
func splitPeriod(args []string) (rest []string, from, to calendar.Month) {
	last := len(args) - 1
	if last > 0 {
		if december, err := readYear(args[last]); err == nil {
			return args[:last], calendar.MonthOf(december.Year(), time.January), december
		}
	}
	rest, to = splitMonth(args)
	return rest, to, to
}

// splitMonth takes a month off the end of the arguments; 0 where there is none.
func splitMonth(args []string) ([]string, calendar.Month) {
	last := len(args) - 1
	if last < 1 {
		return args, 0
	}
	month, err := calendar.ParseMonth(args[last])
	if err != nil {
		return args, 0
	}
	return args[:last], month
}

// stampOf is the time SOURCE_DATE_EPOCH gives, whole seconds since 1970 began
// in UTC (reproducible-builds.org, the SOURCE_DATE_EPOCH specification);
// zero where it is not set: reports are then dated by their period's end.
func stampOf(w terminal.Console) (time.Time, error) {
	text := ""
	if w.Env != nil {
		text = w.Env("SOURCE_DATE_EPOCH")
	}
	if text == "" {
		return time.Time{}, nil
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	// PDF dates have four digits for the year.
	if err != nil || seconds < 0 || seconds > 253402300799 {
		return time.Time{}, usage(fmt.Sprintf("SOURCE_DATE_EPOCH is %q, and that is no number of seconds since 1970. Unset "+
			"it, or set it to one, as in 1767225600.", text))
	}
	return time.Unix(seconds, 0).UTC(), nil
}

// input is what the reports of the month are composed from.
func (b *books) input() (report.Input, error) {
	in, err := report.Of(b.Books)
	in.Photos, in.Stamp = booksdir.Photos(b.Photos), b.stamp
	return in, err
}
