package commands

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/terminal"
	"piecebook/report/guide"
)

// printedShop has all that the commands printed anywhere name: P012, a dresser
// sold in March 2026, and a piece whose area is the usual one of its kind, on
// line 4.
var printedShop = map[string]string{
	"settings.toml": "",
	"records/pieces.csv": "piece,kind,got_on,price,area\nP012,dresser,2026-03-01,40,31.50\nP013,dresser,2026-03-02,30,28\n" +
		"P014,chest,2026-03-03,20,\n",
	"records/supplies.csv":  "supply,group,container,coverage\nPrimer,primer,1 qt,100\n",
	"records/purchases.csv": "bought_on,supply,containers,cost\n2026-03-02,Primer,1,18.99\n",
	"records/uses.csv":      "used_on,pieces,supply,coats\n2026-03-10,P012,Primer,1\n2026-03-11,P014,Primer,1\n",
	"records/hours.csv":     "worked_on,pieces,hours,task\n2026-03-10,P012,2:30,prime\n2026-03-11,P013,2,sand\n",
	"records/sales.csv":     "sold_on,pieces,channel,price\n2026-03-28,P012,direct,210\n2026-03-29,P013,direct,180\n",
	"records/trips.csv":     "on,miles,purpose\n2026-03-28,10,market\n",
	"records/expenses.csv":  "paid_on,what,group,amount\n2026-03-05,booth,booth rent,50\n",
}

// commandLine is a line of code that is a command of ours: what is behind two
// blanks says what it does.
var commandLine = regexp.MustCompile(`(?m)^(?:    )?(?:bin/)?piecebook ((?:\S| \S)+?)(?:  .*)?$`)

// printedIn are the commands printed in a text, in order.
func printedIn(text string) (out []string) {
	for _, m := range commandLine.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	return out
}

// wordsOf are a command's words as a shell parts them.
func wordsOf(line string) (out []string) {
	for _, m := range regexp.MustCompile(`"([^"]*)"|(\S+)`).FindAllStringSubmatch(line, -1) {
		out = append(out, m[1]+m[2])
	}
	return out
}

// inPrintedShop runs a command where it may be run as printed: in the books
// folder, with others of the names that are printed below it.
func inPrintedShop(t *testing.T, line string) (status int, said string) {
	t.Helper()
	dir := t.TempDir()
	t.Chdir(dir)
	args := wordsOf(line)
	command := slices.IndexFunc(args, func(a string) bool { return examples[a] != nil })
	require.GreaterOrEqual(t, command, 0, "%s has no command with examples", line)
	if args[command] != "start" {
		for _, books := range []string{".", "books", "north", "south"} {
			for name, text := range printedShop {
				path := filepath.Join(books, name)
				require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
				require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
			}
		}
	}
	w := func(out *bytes.Buffer) terminal.Console {
		return terminal.Console{In: strings.NewReader(""), Out: out, Err: out, Env: func(string) string { return "" },
			ProgramDir: dir}
	}
	if args[command] == "reopen" || args[command] == "again" {
		var out bytes.Buffer
		before := append(slices.Clone(args[:command]), "close", "2026-03")
		require.Equal(t, cli.ExitDone, Run(before, w(&out)), out.String())
	}
	var out bytes.Buffer
	status = Run(args, w(&out))
	return status, out.String()
}

// Every command that the guide, the README and the help print runs as it is
// printed, and finds nothing to put right.
func TestCommandsRunAsPrinted(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	lines := map[string][]string{"README.md": printedIn(string(readme)), "guide.md": printedIn(string(guide.Text))}
	for _, command := range slices.Sorted(maps.Keys(examples)) {
		for _, e := range examples[command] {
			lines["--help"] = append(lines["--help"], e.line)
		}
	}
	done := map[string]bool{}
	for _, where := range slices.Sorted(maps.Keys(lines)) {
		require.Greater(t, len(lines[where]), 5, where)
		for _, line := range lines[where] {
			if done[line] {
				continue
			}
			done[line] = true
			t.Run(where+": "+line, func(t *testing.T) {
				status, said := inPrintedShop(t, line)
				assert.Equal(t, cli.ExitDone, status, said)
				assert.NotContains(t, said, "to put right before")
			})
		}
	}
}

// Every command has examples in its help, and no other has.
func TestEveryCommandHasExamples(t *testing.T) {
	var c program
	parser := newParser(&c, terminal.Console{}, func(int) {})
	names := commandNames(parser.Model)
	for _, name := range names {
		assert.NotEmpty(t, examples[name], name)
	}
	assert.Len(t, examples, len(names))
	for name := range toName {
		assert.Contains(t, names, name)
	}
	var out bytes.Buffer
	require.Equal(t, cli.ExitDone, Run([]string{"month", "--help"}, terminal.Console{Out: &out, Err: &out,
		Env: func(string) string { return "" }}))
	assert.Contains(t, out.String(), "piecebook month --draft")
}

// What the Makefile's lines in the README name is there.
func TestMakeTargetsAreThere(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "..", "README.md"))
	require.NoError(t, err)
	makefile, err := os.ReadFile(filepath.Join("..", "..", "..", "Makefile"))
	require.NoError(t, err)
	found := regexp.MustCompile(`\bmake (month|test|check|release|bench|calibrate)\b`).FindAllStringSubmatch(
		string(readme), -1)
	require.Greater(t, len(found), 1)
	for _, m := range found {
		assert.Regexp(t, `(?m)^`+m[1]+`:`, string(makefile))
	}
}

// Printed plainly, every example of a command is lines of one fact each: nothing is
// drawn, and nothing stands in columns.
func TestPlainDrawsNothing(t *testing.T) {
	drawn := regexp.MustCompile(`\S {2,}[^\s\[]|[\x{2500}-\x{259f}]|-{3,}|={2,}|_{3,}`)
	for _, command := range slices.Sorted(maps.Keys(examples)) {
		if slices.Contains([]string{"completion", "menu"}, command) {
			continue // a script for a shell, and questions
		}
		for _, e := range examples[command] {
			if strings.Contains(e.line, "--json") {
				continue
			}
			t.Run(e.line, func(t *testing.T) {
				_, said := inPrintedShop(t, "--plain "+e.line)
				for line := range strings.Lines(said) {
					assert.NotRegexp(t, drawn, line)
				}
			})
		}
	}
}
