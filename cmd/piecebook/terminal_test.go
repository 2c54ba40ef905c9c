package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
)

// TestTerminalFits: what the commands that show pages print fits 80 columns,
// has no colour and no cursor movement in it, and is the same whether NO_COLOR
// is set or not: nothing is shown by colour.
func TestTerminalFits(t *testing.T) {
	sample := filepath.Join("..", "..", "sample")
	for _, args := range [][]string{{"sheet", "153", "120", "162", "146", "--text"}, {"sheet", "153", "2026-01", "--text"},
		{"why", "153"}, {"why", "supply", "Stripper, gel"},
		{"why", "statement", "trips"}, {"why", "stock", "closing"}, {"why", "net", "profit"}, {"area"},
		{"area", "disc", "24"}} {
		var first string
		for _, noColor := range []string{"", "1"} {
			var out, said bytes.Buffer
			status := commands.Run(append([]string{"--books", sample}, args...), terminal.Console{Out: &out, Err: &said,
				Env: func(k string) string {
					return map[string]string{"NO_COLOR": noColor}[k]
				}})
			require.Equal(t, cli.ExitDone, status, "%v: %s", args, said.String())
			assert.NotContains(t, out.String(), "\x1b")
			for line := range strings.SplitSeq(out.String(), "\n") {
				assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%v: %q", args, line)
			}
			if noColor == "" {
				first = out.String()
			}
			assert.Equal(t, first, out.String())
		}
		assert.NotEmpty(t, first)
	}
}
