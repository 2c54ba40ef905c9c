package commands

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/report/words"
)

type menuCmd struct{}

// Run shows the menu, as a double click on the program does, but for the folder
// that is named, else where one is.
func (menuCmd) Run(c *cli.Call, w terminal.Console) error {
	dir, err := filepath.Abs(c.Books)
	if err != nil {
		return err
	}
	w.ProgramDir = dir
	menu(w, Run)
	return nil
}

// overviewCmd is what is said without a command: what this is, two examples, and
// where the folder stands.
type overviewCmd struct{}

func (overviewCmd) Run(c *cli.Call, w terminal.Console) error {
	if c.JSON {
		return cli.Usage("Name what to answer, as in: piecebook check --json.")
	}
	lines := []string{"piecebook: what each refinished piece cost and earned, from the records you keep.", ""}
	lines = append(lines, exampleLines(lineWide(w), "start", "month")...)
	lines = append(lines, "")
	lines = append(lines, standing(c)...)
	lines = append(lines, "", "piecebook --help lists the commands; piecebook guide makes the guide; "+
		"piecebook menu asks by numbers.")
	terminal.PrintLines(w.Out, w.OutWide, lines)
	return nil
}

// standing says where the books folder stands: what is read, the last pack and
// the months since, what is to put right, and what is closed.
func standing(c *cli.Call) []string {
	if !cli.HasRecords(c.Books) {
		return []string{c.NothingHere()}
	}
	b, err := c.Open(0)
	if err != nil {
		return []string{words.FileProblem(err)}
	}
	out := []string{fmt.Sprintf("Here: records up to %s.", b.Month.Name())}
	made := lastPack(c)
	switch {
	case b.Month == 0:
		out = []string{"Here: " + words.RowsInAll(b.Read.Tally) + "."}
		if words.NothingFilledIn(b.Read.Tally) {
			return append(out, cli.NothingYet)
		}
		out = append(out, "No month has records of two tables yet, so there is no pack to make.")
	case made == 0:
		out = append(out, "Last pack: none yet. piecebook month makes it.")
	case made >= b.Month:
		out = append(out, fmt.Sprintf("Last pack: %s; no later month has records.", made.Name()))
	default:
		n := int(b.Month - made)
		out = append(out, fmt.Sprintf("Last pack: %s; %d %s since.", made.Name(), n, fault.Plural(n, "month", "months")))
	}
	asking, _ := b.Notes()
	causes, waiting := b.Errors()
	switch lines := len(waiting); {
	case len(causes)+lines+len(asking) == 0:
		out = append(out, "To put right: nothing.")
	case lines > 0:
		out = append(out, fmt.Sprintf("To put right: %d, and %d more %s may be right then; worth a look: %d. "+
			"piecebook check "+
			"tells them.", len(causes), lines, fault.Plural(lines, "line", "lines"), len(asking)))
	default:
		out = append(out, fmt.Sprintf("To put right: %d; worth a look: %d. piecebook check tells them.", len(causes),
			len(asking)))
	}
	if len(b.Read.SettingsLines()) > 0 {
		out = append(out, "piecebook check has lines for settings.toml that would have it read as it is.")
	}
	if m := b.LastClosed(); m > 0 {
		return append(out, fmt.Sprintf("Closed: up to %s.", m.Name()))
	}
	return append(out, "Closed: nothing.")
}

// lastPack is the last month whose pack stands in the reports folder; 0: none.
func lastPack(c *cli.Call) calendar.Month {
	entries, err := os.ReadDir(c.OutDir())
	if err != nil {
		return 0
	}
	last := calendar.Month(0)
	for _, e := range entries {
		m, err := calendar.ParseMonth(strings.TrimSpace(e.Name()))
		if err != nil {
			continue
		}
		if _, err := os.Stat(filepath.Join(c.OutDir(), e.Name(), "month.pdf")); err == nil {
			last = max(last, m)
		}
	}
	return last
}
