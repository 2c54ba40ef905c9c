// Package commands is the command line: its commands and their examples, the
// menu, completion, and what is said without arguments.
package commands

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/closemonths"
	"piecebook/cmd/piecebook/packs"
	"piecebook/cmd/piecebook/questions"
	"piecebook/cmd/piecebook/setup"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/fault"
)

// program is the whole command line. Each command has its own file, with its Run.
type program struct {
	cli.Call

	Version kong.VersionFlag `help:"Print the version."`

	Check questions.CheckCmd `cmd:"" help:"Read everything and tell all problems and notes. Writes nothing but what --datapackage asks for."`
	Month packs.MonthCmd     `cmd:"" help:"Make the month-end pack: month.html, month.pdf, pieces.pdf, month.xlsx, figures.json."`
	Sheet packs.SheetCmd     `cmd:"" help:"Make the profit sheet of any piece, sold or not."`
	Why   questions.WhyCmd   `cmd:"" help:"Show what is behind any figure: each amount with its arithmetic and record."`
	Seen  questions.SeenCmd  `cmd:"" help:"Quiet a note until a cell it rests on changes."`
	Start setup.StartCmd     `cmd:"" help:"Lay out a new books folder: settings explained, and a workbook to fill in."`
	Area  questions.AreaCmd  `cmd:"" help:"Work out finish areas, from Surfaces or from a shape in words."`
	Kinds questions.KindsCmd `cmd:"" help:"Tell which kinds are worth flipping: kinds.pdf."`
	Offer questions.OfferCmd `cmd:"" help:"Tell the most to pay for a piece in view."`

	Close  closemonths.CloseCmd  `cmd:"" help:"Close the months up to one: what was given out of them stays as it is."`
	Reopen closemonths.ReopenCmd `cmd:"" help:"Open a closed month and all later ones again, with a reason."`
	Again  closemonths.AgainCmd  `cmd:"" help:"Work a closed month out again from the copy of its records, and compare."`

	Cards      setup.CardsCmd `cmd:"" help:"Make cards to fill in by hand: bench, shelf and sale."`
	Guide      setup.GuideCmd `cmd:"" help:"Make the guide: guide.pdf, from the first piece to the year's end."`
	Overview   overviewCmd    `cmd:"" default:"1" hidden:""`
	Menu       menuCmd        `cmd:"" help:"Ask what to do by numbers, as a double click on the program does."`
	Completion completionCmd  `cmd:"" help:"Print the script that makes a shell complete these commands."`

	Year     packs.YearCmd     `cmd:"" help:"Make a tax year's cost records: year.html, year.pdf, year.xlsx, figures.json."`
	Handover packs.HandoverCmd `cmd:"" help:"Make one folder of a year's reports, records and hashes, to hand over or keep."`
}

// Run is the whole program: arguments in, exit status out.
func Run(args []string, w terminal.Console) (status int) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(w.Err, "piecebook has a defect; nothing was written. What it says for its makers:\n%v\n%s", r,
				debug.Stack())
			status = cli.ExitBug
		}
	}()
	if w.OwnWindow && len(args) > 0 { // something was dropped on the program
		defer terminal.KeepOpen(w)
	}
	switch {
	case len(args) == 0 && w.OwnWindow:
		menu(w, Run)
		return cli.ExitDone
	case dropped(args):
		args = append([]string{"month"}, droppedArgs(args[0])...)
	case len(args) > 0 && args[0] == "help":
		args = append(args[1:len(args):len(args)], "--help")
	}
	var c program
	done := -1
	parser := newParser(&c, w, func(code int) { done = code })
	if len(args) > 0 && args[0] == completeWord {
		tellFitting(w.Out, parser.Model, args[1:])
		return cli.ExitDone
	}
	ctx, err := parser.Parse(switchesFirst(parser, minusSigns(args)))
	if done >= 0 { // --help has been printed
		return cli.ExitDone
	}
	if err != nil {
		fmt.Fprintf(w.ForPeople(false).Err, "%s\nNext: piecebook --help lists the commands.\n",
			plainUsage(commandNames(parser.Model), args, err))
		return cli.ExitUse
	}
	if c.Plain {
		w.OutWide, w.ErrWide = 0, 0
	}
	c.Command, c.InMenu = ctx.Command(), w.InMenu
	c.FindBooks(w)
	c.Stop, c.Wide = w.Stop, lineWide(w)
	w, c.Bar = w.Begin(c.JSON)
	defer c.Bar.End()
	return cli.Tell(w, ctx.Run(&c.Call, w))
}

// newParser is the command line's, with each command's examples in its help.
func newParser(c *program, w terminal.Console, exit func(int)) *kong.Kong {
	wide := lineWide(w)
	parser, err := kong.New(c, kong.Name("piecebook"), kong.Description(about(wide)), kong.Writers(w.Out, w.Err),
		kong.Exit(exit), kong.UsageOnError(), kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: wide}),
		kong.Bind(w), kong.Vars{"version": cli.Version()}, kong.Help(plainHelp))
	if err != nil {
		panic(err)
	}
	parser.Model.HelpFlag.Help = "Print this help."
	for _, command := range parser.Model.Children {
		command.Detail = helpOf(wide, command.Name)
	}
	return parser
}

// plainHelp is kong's help with a plain word for what it calls arguments, and
// its last line short.
func plainHelp(o kong.HelpOptions, ctx *kong.Context) error {
	var b bytes.Buffer
	to := ctx.Stdout
	ctx.Stdout = &b
	if err := kong.DefaultHelpPrinter(o, ctx); err != nil {
		return err
	}
	ctx.Stdout = to
	_, err := strings.NewReplacer("\nArguments:\n", "\nWhat to name:\n", " for more information on a command.",
		" for more.").WriteString(to, b.String())
	return err
}

// about heads the help.
func about(wide int) string {
	return "Costs refinished furniture from the records its owner keeps.\n\n" +
		strings.Join(exampleLines(wide, "start", "check", "month", "why", "kinds", "offer", "year", "close", "guide"), "\n") +
		"\n\nExit status: 0 done, 1 problems in the records (no report written), 2 wrong use, 3 a file could not be " +
		"read or written."
}

// commandNames are the commands there are.
func commandNames(app *kong.Application) []string {
	var out []string
	for _, c := range app.Children {
		if !c.Hidden {
			out = append(out, c.Name)
		}
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
