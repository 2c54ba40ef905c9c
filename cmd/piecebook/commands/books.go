package commands

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"piecebook/cmd/piecebook/booksdir"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/closing"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/intake"
	"piecebook/ledger/kinds"
	"piecebook/ledger/missing"
	"piecebook/ledger/plainfile"
	"piecebook/ledger/seen"
	"piecebook/report"
	"piecebook/templates"
)

// books is a books folder read, checked and costed up to a month.
type books struct {
	set      *templates.Set
	read     *intake.Result
	folder   fs.FS
	dir      string    // where settings.toml stands
	nothing  string    // what is said where there is no table at all
	self     string    // how the program is called again for these books
	stamp    time.Time // of SOURCE_DATE_EPOCH; zero: the period's end
	ledger   *costing.Ledger
	month    calendar.Month
	from     calendar.Month // of several months asked about, the first; else month
	problems fault.List     // but for the quiet notes
	quiet    fault.List     // notes that seen.csv quiets
	entries  []seen.Entry   // of seen.csv
	refused  fault.List     // of a draft: the errors whose rows it leaves out
	closings
	lined []closing.Line // once they are asked for
}

// open reads the books folder and costs it up to the month, or up to the last
// month that has records of two tables where none is asked for. It fails only
// where nothing could be read at all; problems are told by the caller.
func (c *cli) open(month calendar.Month) (*books, error) {
	t, err := templates.Load()
	if err != nil {
		return nil, err
	}
	folder, closed, err := c.folderAndClosed()
	if err != nil {
		return nil, err
	}
	b := c.readBooks(folder, t, month, closed)
	if len(b.read.Tally) == 0 {
		b.nothing = c.nothingHere()
	}
	return b, b.quietSeen(folder)
}

// readBooks reads, checks and costs, but for the rows at the places without;
// the ledger is as the closed months have it.
func (c *cli) readBooks(folder fs.FS, t *templates.Set, month calendar.Month, closed []*closing.Month,
	without ...fault.Place) *books {
	c.bar.At(0, "Reading the records")
	b := &books{set: t, folder: folder, dir: c.booksDir(), self: c.self(), read: intake.Read(folder, t, without...)}
	b.closings = closings{all: closed, photos: folder}
	b.month = month
	if b.month == 0 {
		b.month = checks.LastMonth(&b.read.Books)
	}
	b.problems.Join(b.read.Problems)
	if b.month == 0 {
		return b
	}
	c.bar.At(0.4, "Checking the records and costing the months")
	var found fault.List
	together(func() { found = checks.Look(&b.read.Books, b.month) },
		func() { b.ledger = costing.Run(&b.read.Books, b.month) })
	b.problems.Join(b.read.Named(found))
	b.problems.Join(b.read.Named(b.ledger.Problems))
	if !b.problems.HasErrors() {
		b.problems.Join(b.read.Named(missing.Look(b.ledger, b.month)))
	}
	b.problems = figures.Complete(b.ledger, b.problems)
	b.records = b.ledger
	b.ledger, b.carried = closing.View(b.ledger, closing.Upto(closed, b.month), version())
	return b
}

// notesSince is the notes with all that the ledger shows to be missing in the
// months from one on, where problems have the last month's only.
func (b *books) notesSince(from calendar.Month) []fault.Problem {
	told, _ := seen.Split(b.read.Named(missing.Look(b.records, from)), b.entries, b.read.RowText)
	for _, n := range b.problems.Notes() {
		if fault.MissingCatalogue[n.Code] == "" {
			told.Add(n)
		}
	}
	return told.Notes()
}

// quietSeen takes out the notes that seen.csv quiets.
func (b *books) quietSeen(folder fs.FS) error {
	entries, problems, err := readSeen(folder)
	if err != nil || entries == nil && len(problems.All()) == 0 {
		return err
	}
	b.entries = entries
	b.problems, b.quiet = seen.Split(b.problems, entries, b.read.RowText)
	b.problems.Join(problems)
	return nil
}

// seenBytesMax is the most that seen.csv is read of.
const seenBytesMax = 8 << 20

// readSeen reads seen.csv; nothing where there is none.
func readSeen(folder fs.FS) ([]seen.Entry, fault.List, error) {
	text, err := plainfile.Read(folder, seen.File, seenBytesMax)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fault.List{}, nil
	}
	if err != nil {
		return nil, fault.List{}, err
	}
	entries, problems := seen.Read(text)
	return entries, problems, nil
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
	if b.problems.HasErrors() {
		if c.JSON {
			if err := writeJSON(w, problemsJSON(b)); err != nil {
				return nil, err
			}
		}
		tellProblems(w, b, false)
		fmt.Fprintln(w.Err, c.stopped(b))
		return nil, problems{b.problems}
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
	if b.month == 0 || b.ledger == nil {
		if b.nothing != "" {
			return usage(b.nothing)
		}
		return usage("There is too little for a report yet: no month has records of two tables. Next: fill in Pieces and, " +
			"say, Purchases; or name the month, as in: " + b.self + " month 2026-03")
	}
	return nil
}

// input is what the reports of the month are composed from.
func (b *books) input() (report.Input, error) {
	cautions, err := templates.Cautions()
	if err != nil {
		return report.Input{}, err
	}
	l := b.ledger
	first := l.Months[0].Month
	january := max(first, calendar.MonthOf(b.month.Year(), 1))
	index := figures.NewIndex(l)
	in := report.Input{
		HoursByPiece: costing.HoursByPiece(l.Books),
		Books:        l.Books, Postings: l.Postings(), Month: index.For(b.month, b.month),
		Year: index.For(january, b.month), All: index.All(), Cautions: cautions, Tables: b.set.Tables,
		Refused: b.refused.Errors(), Tally: totalLine(b.read.Tally), Absent: absentLines(b),
		Corrections: b.corrections(b.month, b.month), Notes: figures.OfPeriod(b.problems.Notes(), b.month, b.month),
		Count: b.countThese(), Fingerprint: b.read.Fingerprint, Photos: booksdir.Photos(b.photos), Stamp: b.stamp,
	}
	for m := max(first, b.month-11); m <= b.month; m++ {
		in.Last = append(in.Last, index.For(m, m))
	}
	channels := kinds.Channels(l, b.month, kinds.MonthScope(b.month), kinds.Scope{Year: b.month.Year()})
	in.Channels, in.ChannelsYear = channels[0], channels[1]
	if b.month-12 >= first {
		ago := index.For(b.month-12, b.month-12)
		in.YearAgo = &ago
	}
	if b.month > first {
		before := index.For(b.month-1, b.month-1)
		in.Before = &before
	}
	return in, nil
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
