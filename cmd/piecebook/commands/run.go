// Package commands is the whole program but for its process: the command line
// and each command, on a console that is handed in.
package commands

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/report/words"
)

// Exit statuses, as the help prints them.
const (
	ExitDone     = 0  // done
	ExitProblems = 1  // problems in the records; no report was written
	ExitUse      = 2  // wrong use of the command
	ExitFiles    = 3  // a file could not be read or written
	exitBug      = 70 // a defect of piecebook itself
)

// cli is the command line. Each command's own file has its Run.
type cli struct {
	Books string `help:"The books folder (default: where you are)." placeholder:"DIR" default:"."`
	Out   string `help:"Put reports into DIR instead of the books folder's reports/." placeholder:"DIR"`
	Plain bool   `help:"For screen readers: no lines drawn with characters, no bold, one fact a line."`
	JSON  bool   `name:"json" help:"Give the answer as JSON on standard output; write no file."`

	bar     *terminal.Bar  // nil where no one looks
	stop    *terminal.Stop // nil: nothing stops it
	command string         // as it was given, with what it needs
	made    made           // the pack that was made, if one was

	Version kong.VersionFlag `help:"Print the version."`

	Check checkCmd `cmd:"" help:"Read everything and tell all problems and notes. Writes nothing but what --datapackage asks for."`
	Month monthCmd `cmd:"" help:"Make the month-end pack: month.html, month.pdf, pieces.pdf, month.xlsx, figures.json."`
	Sheet sheetCmd `cmd:"" help:"Make the profit sheet of any piece, sold or not."`
	Why   whyCmd   `cmd:"" help:"Show what is behind any figure: each amount with its arithmetic and record."`
	Seen  seenCmd  `cmd:"" help:"Quiet a note until a cell it rests on changes."`
	Start startCmd `cmd:"" help:"Lay out a new books folder: settings explained, and a workbook to fill in."`
	Area  areaCmd  `cmd:"" help:"Work out finish areas, from Surfaces or from a shape in words."`
	Kinds kindsCmd `cmd:"" help:"Tell which kinds are worth flipping: kinds.pdf."`
	Offer offerCmd `cmd:"" help:"Tell the most to pay for a piece in view."`

	Close  closeCmd  `cmd:"" help:"Close the months up to one: what was given out of them stays as it is."`
	Reopen reopenCmd `cmd:"" help:"Open a closed month and all later ones again, with a reason."`
	Again  againCmd  `cmd:"" help:"Work a closed month out again from the copy of its records, and compare."`

	Cards      cardsCmd      `cmd:"" help:"Make cards to fill in by hand: bench, shelf and sale."`
	Guide      guideCmd      `cmd:"" help:"Make the guide: guide.pdf, from the first piece to the year's end."`
	Menu       menuCmd       `cmd:"" help:"Ask what to do by numbers, as a double click on the program does."`
	Completion completionCmd `cmd:"" help:"Print the script that makes a shell complete these commands."`

	Year     yearCmd     `cmd:"" help:"Make a tax year's cost records: year.html, year.pdf, year.xlsx, figures.json."`
	Handover handoverCmd `cmd:"" help:"Make one folder of a year's reports, records and hashes, to hand over or keep."`
}

// usage is an error of how the command was given.
type usage string

func (u usage) Error() string { return string(u) }

// problems is what stops a report; the list has been shown.
type problems struct{ list fault.List }

func (problems) Error() string { return "there are problems in the records" }

// Run is the whole program: arguments in, exit status out.
func Run(args []string, w terminal.Console) (status int) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(w.Err, "piecebook has a defect; nothing was written. What it says for its makers:\n%v\n%s", r,
				debug.Stack())
			status = exitBug
		}
	}()
	if w.OwnWindow && len(args) > 0 { // something was dropped on the program
		defer terminal.KeepOpen(w)
	}
	switch {
	case len(args) == 0 && w.OwnWindow:
		menu(w, Run)
		return ExitDone
	case len(args) == 0:
		return overview(w)
	case dropped(args):
		args = append([]string{"month"}, droppedArgs(args[0])...)
	case args[0] == "help":
		args = append(args[1:len(args):len(args)], "--help")
	}
	var c cli
	done := -1
	parser := newParser(&c, w, func(code int) { done = code })
	if args[0] == completeWord {
		tellFitting(w.Out, parser.Model, args[1:])
		return ExitDone
	}
	ctx, err := parser.Parse(switchesFirst(parser, minusSigns(args)))
	if done >= 0 { // --help has been printed
		return ExitDone
	}
	if err != nil {
		fmt.Fprintf(w.ForPeople(false).Err, "%s\nNext: piecebook --help lists the commands.\n",
			plainUsage(commandNames(parser), args, err))
		return ExitUse
	}
	if c.Plain {
		w.OutWide, w.ErrWide = 0, 0
	}
	c.command = ctx.Command()
	c.find(w)
	c.stop = w.Stop
	w, c.bar = w.Begin(c.JSON)
	defer c.bar.End()
	return tell(w, ctx.Run(&c, w))
}

// newParser is the command line's, with each command's examples in its help.
func newParser(c *cli, w terminal.Console, exit func(int)) *kong.Kong {
	parser, err := kong.New(c, kong.Name("piecebook"), kong.Description(about()), kong.Writers(w.Out, w.Err),
		kong.Exit(exit), kong.UsageOnError(), kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: helpWide}),
		kong.Bind(w), kong.Vars{"version": version()}, kong.Help(plainHelp))
	if err != nil {
		panic(err)
	}
	parser.Model.HelpFlag.Help = "Print this help."
	for _, command := range parser.Model.Children {
		command.Detail = helpOf(command.Name)
	}
	return parser
}

// plainHelp is kong's help with a plain word for what it calls arguments.
func plainHelp(o kong.HelpOptions, ctx *kong.Context) error {
	var b bytes.Buffer
	to := ctx.Stdout
	ctx.Stdout = &b
	if err := kong.DefaultHelpPrinter(o, ctx); err != nil {
		return err
	}
	ctx.Stdout = to
	_, err := to.Write(bytes.Replace(b.Bytes(), []byte("\nArguments:\n"), []byte("\nWhat to name:\n"), 1))
	return err
}

// helpWide is how many columns the help takes at most.
const helpWide = 100

// about heads the help.
func about() string {
	return "Costs refinished furniture from the records its owner keeps.\n\n" +
		strings.Join(exampleLines("start", "check", "month", "why", "kinds", "offer", "year", "close", "guide"), "\n") +
		"\n\nExit status: 0 done, 1 problems in the records (no report written), 2 wrong use, 3 a file could not be " +
		"read or written."
}

// release is the version of a release, from its tag; the linker sets it.
var release string

// version is the release's version, else the module's, as the build knows it.
func version() string {
	if release != "" {
		return "piecebook " + release
	}
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "piecebook (version unknown)"
	}
	return "piecebook " + info.Main.Version
}

// tell prints what an error means for the owner and gives its exit status.
func tell(w terminal.Console, err error) int {
	var u usage
	var p problems
	var e ended
	var closed *closing.Refused
	switch {
	case err == nil:
		return ExitDone
	case errors.As(err, &e):
		return int(e)
	case errors.As(err, &p):
		return ExitProblems
	case errors.As(err, &u):
		fmt.Fprintln(w.Err, u.Error())
		return ExitUse
	case errors.As(err, &closed):
		fmt.Fprintln(w.Err, words.ClosedFile(closed))
		return ExitFiles
	}
	fmt.Fprintln(w.Err, words.FileProblem(err))
	return ExitFiles
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

// toName is what to name for each command that needs more words.
var toName = map[string]string{
	"why": "what to explain", "sheet": "a piece", "offer": "the kind of the piece in view",
	"seen": "the note's code and its place as check prints them", "close": "the month",
	"reopen": "the month and why", "again": "the month", "year": "the year", "handover": "the year",
	"completion": "the shell: bash, zsh, fish or powershell",
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
		if what := toName[a]; what != "" {
			return fmt.Sprintf("Name %s, as in: piecebook %s", what, examples[a][0].line)
		}
	}
	return said
}
