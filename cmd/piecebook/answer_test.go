package main

import (
	"bytes"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
)

// TestAnswerFirst: the month's answer comes first, in bold on a terminal that
// wants it; what is no terminal gets plain words.
func TestAnswerFirst(t *testing.T) {
	for _, c := range []struct {
		wide    int
		noColor string
		bold    bool
	}{{0, "", false}, {80, "", true}, {80, "1", false}} {
		var out, said bytes.Buffer
		status := commands.Run([]string{"--books", "../../sample", "--out", t.TempDir(), "month", "2026-02"},
			terminal.Console{Out: &out, Err: &said, ErrWide: c.wide, Env: func(k string) string {
				return map[string]string{"NO_COLOR": c.noColor}[k]
			}})
		assert.Equal(t, cli.ExitDone, status)
		want := `February 2026: net profit \$[0-9.]+, 7 sold, \$[0-9.]+ an hour after shop costs\.`
		if c.bold {
			want = `\x1b\[1m` + want + `\x1b\[0m`
		}
		if c.wide == 0 {
			want = "^" + want // a bar stands before it on a terminal
		}
		assert.Regexp(t, want+"\n", said.String())
		assert.Equal(t, c.bold, strings.Contains(said.String(), "\x1b[1m"))
	}
}
