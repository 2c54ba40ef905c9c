package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/report/words"
)

// Exit statuses, as the help prints them.
const (
	exitDone     = 0   // done
	exitProblems = 1   // problems in the records; no report was written
	exitUse      = 2   // wrong use of the command
	exitFiles    = 3   // a file could not be read or written
	exitBug      = 70  // a defect of piecebook itself
	exitStopped  = 130 // stopped by Ctrl-C, as shells have it
)

// world is what a run may touch of the machine besides the books folder.
type world struct {
	out, err io.Writer
	env      func(string) string
	outWide  int   // columns, where out is a terminal
	errWide  int   // the same of err
	stop     *stop // nil: nothing stops it
}

// cli is the command line. Each command's own file has its Run.
type cli struct {
	Books string `help:"The books folder (default: where you are)." placeholder:"DIR" default:"."`
	Out   string `help:"Put reports into DIR instead of the books folder's reports/." placeholder:"DIR"`
	JSON  bool   `name:"json" help:"Give the answer as JSON on standard output; write no file."`

	bar     *bar   // nil where no one looks
	stop    *stop  // nil: nothing stops it
	command string // as it was given, with what it needs
	made    made   // the pack that was made, if one was

	Version kong.VersionFlag `help:"Print the version."`

	Check checkCmd `cmd:"" help:"Read everything and tell all problems and notes. Writes nothing but what --datapackage asks for."`
	Month monthCmd `cmd:"" help:"Make the month-end pack: month.html, month.pdf, pieces.pdf, month.xlsx, figures.json."`
	Sheet sheetCmd `cmd:"" help:"Make the profit sheet of any piece, sold or not."`
	Why   whyCmd   `cmd:"" help:"Show the postings under any figure, each with its arithmetic and record."`
	Seen  seenCmd  `cmd:"" help:"Quiet a note until a cell it rests on changes."`
	Start startCmd `cmd:"" help:"Lay out a new books folder: settings explained, and a workbook to fill in."`
	Area  areaCmd  `cmd:"" help:"Work out finish areas, from Surfaces or from a shape in words."`
	Kinds kindsCmd `cmd:"" help:"Tell which kinds are worth flipping: kinds.pdf."`
	Offer offerCmd `cmd:"" help:"Tell the most to pay for a piece in view."`

	Close  closeCmd  `cmd:"" help:"Close the months up to one: what was given out of them stays as it is."`
	Reopen reopenCmd `cmd:"" help:"Open a closed month and all later ones again, with a reason."`
	Again  againCmd  `cmd:"" help:"Work a closed month out again from the copy of its records, and compare."`

	Year     yearCmd     `cmd:"" help:"Make a tax year's cost records: year.pdf, year.xlsx, figures.json."`
	Handover handoverCmd `cmd:"" help:"Make one folder of a year's reports, records and hashes, to hand over or keep."`
}

const about = `Costs refinished furniture from the records its owner keeps.

  piecebook start books                a new books folder, with a workbook to fill in
  piecebook check                      is everything readable?
  piecebook month                      the last month's pack
  piecebook month 2026-03              another month's
  piecebook why P012 supplies          what is behind a figure
  piecebook year 2026                  a tax year's cost records
  piecebook close 2026-03              what was given out up to March stays as it is
  piecebook area disc 24               a finish area
  piecebook kinds                      which kinds are worth flipping
  piecebook offer --kind dresser       the most to pay for the next one

Exit status: 0 done, 1 problems in the records (no report written), 2 wrong
use, 3 a file could not be read or written.`

// usage is an error of how the command was given.
type usage string

func (u usage) Error() string { return string(u) }

// problems is what stops a report; the list has been told.
type problems struct{ list fault.List }

func (problems) Error() string { return "there are problems in the records" }

// run is the whole program: arguments in, exit status out.
func run(args []string, w world) (status int) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(w.err, "piecebook has a defect; nothing was written. What it says for its makers:\n%v\n%s", r,
				debug.Stack())
			status = exitBug
		}
	}()
	if len(args) == 0 {
		fmt.Fprintln(w.err, about)
		fmt.Fprintln(w.err, "\nNext: piecebook check, where your books folder is; or piecebook --help.")
		return exitUse
	}
	if dropped(args) {
		args = append([]string{"month"}, droppedArgs(args[0])...)
	}
	if args[0] == "help" {
		args = append(args[1:len(args):len(args)], "--help")
	}
	var c cli
	done := -1
	parser, err := kong.New(&c, kong.Name("piecebook"), kong.Description(about), kong.Writers(w.out, w.err),
		kong.Exit(func(code int) { done = code }), kong.UsageOnError(), kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Bind(w), kong.Vars{"version": version()})
	if err != nil {
		panic(err)
	}
	ctx, err := parser.Parse(switchesFirst(parser, minusSigns(args)))
	if done >= 0 { // --help has been printed
		return exitDone
	}
	if err != nil {
		fmt.Fprintf(peopleWriter{w.err, w.errWide}, "%s\nNext: piecebook --help lists the commands.\n",
			plainUsage(commandNames(parser), args, err))
		return exitUse
	}
	c.command = ctx.Command()
	c.find(w)
	c.stop = w.stop
	terminal := w.err
	w.err = peopleWriter{w.err, w.errWide}
	if !c.JSON {
		w.out = peopleWriter{w.out, w.outWide}
	}
	if w.errWide > 0 {
		c.bar = startBar(terminal, barAfter)
		defer c.bar.end()
		w.err = afterBar{w.err, c.bar}
		w.out = afterBar{w.out, c.bar}
	}
	return tell(w, ctx.Run(&c, w))
}

// version is the module's version, as the build knows it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "piecebook (version unknown)"
	}
	return "piecebook " + info.Main.Version
}

// tell prints what an error means for the owner and gives its exit status.
func tell(w world, err error) int {
	var u usage
	var p problems
	var e ended
	var closed *closing.Refused
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &e):
		return int(e)
	case errors.As(err, &p):
		return exitProblems
	case errors.As(err, &u):
		fmt.Fprintln(w.err, u.Error())
		return exitUse
	case errors.As(err, &closed):
		fmt.Fprintln(w.err, words.ClosedFile(closed))
		return exitFiles
	}
	fmt.Fprintln(w.err, words.FileProblem(err))
	return exitFiles
}

// commandNames are the commands there are.
func commandNames(parser *kong.Kong) []string {
	var out []string
	for _, c := range parser.Model.Children {
		out = append(out, c.Name)
	}
	return out
}

// plainUsage adds the nearest command to what kong says of an unknown one.
func plainUsage(commands, args []string, err error) string {
	for i, a := range args {
		// The word after one of these is a folder, no command.
		named := i > 0 && (args[i-1] == "--books" || args[i-1] == "--out")
		if strings.HasPrefix(a, "-") || named {
			continue
		}
		if slices.Contains(commands, a) {
			break
		}
		if ext := strings.ToLower(filepath.Ext(a)); ext == ".csv" || ext == ".xlsx" || strings.ContainsAny(a, `/\`) {
			return noSuchFile(args, a)
		}
		if near := fault.Nearest(a, commands); near != "" {
			return fmt.Sprintf("There is no command %q. Did you mean: piecebook %s?", a, near)
		}
		return fmt.Sprintf("There is no command %q.", a)
	}
	return missingWords(args, err)
}

// asIn is each command that needs more words, as it is given.
var asIn = map[string]string{
	"why":      "Name what to explain, as in: piecebook why P012 supplies",
	"sheet":    "Name a piece, as in: piecebook sheet P012",
	"offer":    "Name the kind of the piece in view, as in: piecebook offer --kind dresser",
	"seen":     "Name the note's code and its place as check prints them, as in: piecebook seen typical-area pieces.csv:4",
	"close":    "Name the month, as in: piecebook close 2026-03",
	"reopen":   "Name the month and why, as in: piecebook reopen 2026-03 --because \"the invoice was another\"",
	"again":    "Name the month, as in: piecebook again 2026-03",
	"year":     "Name the year, as in: piecebook year 2026",
	"handover": "Name the year, as in: piecebook handover 2026",
}

// noSuchFile says why a file where a command is expected is none.
func noSuchFile(args []string, name string) string {
	if _, err := os.Stat(name); err != nil {
		return fmt.Sprintf("There is no file %s here.", name)
	}
	return fmt.Sprintf("One file or folder at a time, and alone: piecebook %q; %d words were given.", name, len(args))
}

// missingWords says in words what kong says in signs of words that are not
// there.
func missingWords(args []string, err error) string {
	said := err.Error()
	if !strings.HasPrefix(said, "expected ") && !strings.HasPrefix(said, "missing flags") {
		return said
	}
	for _, a := range args {
		if words := asIn[a]; words != "" {
			return words
		}
	}
	return said
}
