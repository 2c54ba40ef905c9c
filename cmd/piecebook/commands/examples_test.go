package commands

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"piecebook/cmd/piecebook/terminal"
)

// TestHelpWithinItsWidth: no line of any command's help is wider than the
// terminal but a command that has no room on one line.
func TestHelpWithinItsWidth(t *testing.T) {
	var c program
	names := append(commandNames(newParser(&c, terminal.Console{}, func(int) {}).Model), "")
	for _, wide := range []int{80, 60} {
		lines := 0
		for _, name := range names {
			var help bytes.Buffer
			Run(strings.Fields(name+" --help"), terminal.Console{Out: &help, Err: &help, OutWide: wide, ErrWide: wide,
				Env: func(string) string { return "" }})
			for line := range strings.Lines(help.String()) {
				lines++
				if !strings.HasPrefix(line, "    piecebook ") {
					assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSpace(line)), wide, line)
				}
			}
		}
		assert.Greater(t, lines, 400)
	}
}
