package commands

import (
	_ "embed"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"piecebook/cmd/piecebook/terminal"
)

// The scripts hold no command's name: each shell asks the program what fits.
var (
	//go:embed completion/bash.sh
	bashCompletion string
	//go:embed completion/zsh.sh
	zshCompletion string
	//go:embed completion/fish.fish
	fishCompletion string
	//go:embed completion/powershell.ps1
	powershellCompletion string
)

type completionCmd struct {
	Shell string `arg:"" enum:"bash,zsh,fish,powershell" help:"bash, zsh, fish or powershell."`
}

// Run prints the script that makes a shell complete piecebook's commands.
func (k completionCmd) Run(w terminal.Console) error {
	_, err := io.WriteString(w.Out, map[string]string{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion,
		"powershell": powershellCompletion}[k.Shell])
	return err
}

// completeWord is what the scripts call the program with, and the words typed
// so far, the last of them unfinished or blank.
const completeWord = "--complete-words"

// tellFitting prints the words that fit where the last one is typed, one a
// line. Where none does, shells fall back to names of files.
func tellFitting(out io.Writer, app *kong.Application, typed []string) {
	last := ""
	if n := len(typed); n > 0 {
		last, typed = strings.Trim(typed[n-1], `"`), typed[:n-1] // PowerShell's blank word is ""
	}
	for _, word := range fittingWords(app, typed) {
		if strings.HasPrefix(word, last) {
			fmt.Fprintln(out, word)
		}
	}
}

// fittingWords are all words that may follow those typed: the values of a flag
// that has a list of them, commands where none is given yet, flags and a
// command's own words otherwise; none after a flag with a value of its own.
func fittingWords(app *kong.Application, typed []string) []string {
	var command *kong.Node
	flags := slices.Clone(app.Flags)
	for _, word := range typed {
		at := slices.IndexFunc(app.Children, func(n *kong.Node) bool { return n.Name == word })
		if at >= 0 && command == nil {
			command = app.Children[at]
			flags = append(flags, command.Flags...)
		}
	}
	if n := len(typed); n > 0 {
		at := slices.IndexFunc(flags, func(f *kong.Flag) bool { return "--"+f.Name == typed[n-1] && !f.IsBool() })
		if at >= 0 {
			return flags[at].EnumSlice()
		}
	}
	var out []string
	if command == nil {
		out = commandNames(app)
	} else {
		for _, p := range command.Positional {
			out = append(out, p.EnumSlice()...)
		}
	}
	for _, f := range flags {
		if !f.Hidden {
			out = append(out, "--"+f.Name)
		}
	}
	return slices.DeleteFunc(out, func(s string) bool { return s == "" })
}
