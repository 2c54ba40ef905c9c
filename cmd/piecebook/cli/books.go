package cli

import (
	"fmt"
	"io/fs"
	"strings"
	"time"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/opened"
	"piecebook/report"
	"piecebook/report/words"
	"piecebook/templates"
)

// Books is a books folder opened, and how people name it.
type Books struct {
	*opened.Books
	dir     string // where settings.toml stands
	nothing string // what is said where there is no table at all
	call    *Call
	Stamp   time.Time      // of SOURCE_DATE_EPOCH; zero: the period's end
	From    calendar.Month // of several months asked about, the first; else month
}

// ToType is what to type for a command on the same books.
func (b *Books) ToType(command string) string { return b.call.ToType(command) }

// stepWords say what a reader of books is at.
var stepWords = map[opened.Step]string{
	opened.Reading: "Reading the records",
	opened.Costing: "Checking the records and costing the months",
}

// Reader is how this run opens books.
func (c *Call) Reader() (opened.Reader, error) {
	set, err := templates.Load()
	progress := func(percent int, now opened.Step) { c.Bar.At(float64(percent)/100, stepWords[now]) }
	return opened.Reader{Set: set, Program: Version(), Progress: progress}, err
}

// Opened is what was opened, with how it is named.
func (c *Call) Opened(o *opened.Books, err error) (*Books, error) {
	if err != nil {
		return nil, err
	}
	b := &Books{Books: o, dir: c.BooksDir(), call: c}
	if len(o.Read.Tally) == 0 {
		b.nothing = c.NothingHere()
	}
	return b, nil
}

// Open reads the books folder and costs it up to the month, or up to the last
// month that has records of two tables where none is asked for. It fails only
// where nothing could be read at all; problems are shown by the caller.
func (c *Call) Open(month calendar.Month) (*Books, error) {
	return c.OpenBy(func(r opened.Reader, folder fs.FS, closed []*closing.Month) (*opened.Books, error) {
		return r.Open(folder, month, closed)
	})
}

// OpenBy opens the books folder as one way of reading it does.
func (c *Call) OpenBy(read func(opened.Reader, fs.FS, []*closing.Month) (*opened.Books, error)) (*Books, error) {
	r, err := c.Reader()
	if err != nil {
		return nil, err
	}
	folder, closed, err := c.FolderAndClosed()
	if err != nil {
		return nil, err
	}
	return c.Opened(read(r, folder, closed))
}

// FolderAndClosed is the books folder with its closed months.
func (c *Call) FolderAndClosed() (fs.FS, []*closing.Month, error) {
	folder, err := booksdir.Open(c.Books)
	if err != nil {
		return nil, nil, err
	}
	closed, err := closing.Read(folder)
	return folder, closed, err
}

// Ready is open for commands that make reports: with any error in the
// records it tells them all and stops.
func (c *Call) Ready(w terminal.Console, month calendar.Month) (*Books, error) {
	b, err := c.OpenClosed(month)
	if err != nil {
		return nil, err
	}
	if b.Stamp, err = StampOf(w); err != nil {
		return nil, err
	}
	if b.Problems.HasErrors() {
		if c.JSON {
			if err := WriteJSON(w, ProblemsJSON(b)); err != nil {
				return nil, err
			}
		}
		TellProblems(w, b, false)
		fmt.Fprintln(w.Err, c.stopped(b))
		return nil, Problems{b.Problems}
	}
	return b, c.HasMonth(b)
}

// stopped says that nothing was made, and what may be done.
func (c *Call) stopped(b *Books) string {
	switch {
	case b.nothing != "":
		return b.nothing
	case c.InMenu && len(b.Read.SettingsLines()) > 0:
		return fmt.Sprintf("No report was written. Put these right first; %s can write the lines above into settings.toml.",
			c.ToType("check"))
	case c.InMenu:
		return "No report was written. Put these right first."
	case strings.HasPrefix(c.Command, "month"):
		return fmt.Sprintf("No report was written. Put these right and run it again; %s makes a draft without these lines.",
			b.ToType("month --draft"))
	}
	return "Nothing was made. Put these right and run it again."
}

// HasMonth refuses books without a month to report on.
func (c *Call) HasMonth(b *Books) error {
	if words.NothingFilledIn(b.Read.Tally) {
		return Usage(NothingYet)
	}
	if b.Month == 0 || b.Ledger == nil {
		if b.nothing != "" {
			return Usage(b.nothing)
		}
		text := "There is too little for a report yet: no month has records of two tables. Next: fill in Pieces and, say, " +
			"Purchases."
		if !c.InMenu {
			text += " Or name the month, as in: " + b.ToType("month 2026-03")
		}
		return Usage(text)
	}
	return nil
}

// FilesRead are the files of records that were read, and others, by name, each once.
func (b *Books) FilesRead(others ...string) []string {
	for _, t := range b.Read.Tally {
		others = append(others, t.File)
	}
	return ledger.Distinct(others)
}

// Input is what the reports of the month are composed from.
func (b *Books) Input() (report.Input, error) {
	in, err := report.Of(b.Books)
	in.Photos, in.Stamp = booksdir.Photos(b.Photos), b.Stamp
	return in, err
}

// OpenClosed is open for reports: a closed month's come from what was closed,
// whatever the records have become.
func (c *Call) OpenClosed(month calendar.Month) (*Books, error) {
	folder, closed, err := c.FolderAndClosed()
	if err != nil {
		return nil, err
	}
	if n := len(closed); n == 0 || month > closed[n-1].Month {
		return c.Open(month)
	}
	if month == 0 {
		b, err := c.Open(0)
		if err != nil || b.Month == 0 || b.Month > b.LastClosed() {
			return b, err
		}
		month = b.Month
	}
	upto := closing.Upto(closed, month)
	if len(upto) == 0 {
		return c.Open(month) // before the first closed month
	}
	return c.OpenCopy(folder, upto[len(upto)-1], upto)
}

// OpenCopy is a closed month's copy of the records, with the closed months.
func (c *Call) OpenCopy(folder fs.FS, m *closing.Month, closed []*closing.Month) (*Books, error) {
	r, err := c.Reader()
	if err != nil {
		return nil, err
	}
	return c.Opened(r.Copied(folder, m, closed))
}
