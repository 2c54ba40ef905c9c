package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
	ledgerkit "piecebook/ledger/testkit"
)

// fitting are the words that the program gives the shells.
func fitting(typed ...string) []string {
	var out bytes.Buffer
	commands.Run(append([]string{"--complete-words"}, typed...), terminal.Console{Out: &out, Err: &out})
	return strings.Fields(out.String())
}

func TestFittingWords(t *testing.T) {
	assert.Equal(t, []string{"month", "menu"}, fitting("m"))
	assert.Equal(t, []string{"month"}, fitting("--books", "my books", "mo"))
	assert.Empty(t, fitting("--books", ""), "a folder: the shell's own completion")
	assert.Contains(t, fitting("month", ""), "--draft")
	assert.NotContains(t, fitting("month", ""), "check")
	assert.Equal(t, []string{"bash", "zsh", "fish", "powershell"}, fitting("completion", "")[:4])
	assert.Equal(t, []string{"letter", "a4"}, fitting("guide", "--paper", ""))
	assert.Contains(t, fitting(`""`), "check", "how PowerShell gives an unfinished blank word")
}

// The scripts as the shells run them: with the program in the path, words begun
// are completed. A shell that is not there is left out, saying so.
func TestCompletionInTheShells(t *testing.T) {
	bin := t.TempDir()
	here, err := os.Executable()
	require.NoError(t, err)
	require.NoError(t, os.Symlink(here, filepath.Join(bin, "piecebook")))
	for shell, script := range map[string]string{
		"bash": `source <(piecebook completion bash); COMP_WORDS=(piecebook offer --k); COMP_CWORD=2; _piecebook
			echo "${COMPREPLY[@]}"`,
		"fish": `piecebook completion fish | source; complete -C "piecebook offer --k"`,
		"zsh": `function compdef { }; source <(piecebook completion zsh)
			function compadd { shift; print -r -- "$@" }; words=(piecebook offer --k); CURRENT=3; _piecebook`,
		"pwsh": `piecebook completion powershell | Out-String | Invoke-Expression
			(TabExpansion2 'piecebook offer --k' 19).CompletionMatches.CompletionText`} {
		t.Run(shell, func(t *testing.T) {
			if shell != "pwsh" {
				ledgerkit.Needs(t, shell)
			} else if _, err := exec.LookPath(shell); err != nil {
				t.Skip("PowerShell is in no package that is tried here; TestPowerShellScript looks at its script")
			}
			c := exec.Command(shell, "-c", script)
			c.Env = append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"))
			said, err := c.CombinedOutput()
			require.NoError(t, err, string(said))
			assert.Equal(t, "--kind", strings.TrimSpace(string(said)))
		})
	}
}

// The script for PowerShell by its text, where there is none to run it: plain
// ASCII, which no code page of a Windows console changes, its brackets closed in
// order, the program asked with the word it knows; and the words as PowerShell
// hands them on, with their quotation marks.
func TestPowerShellScript(t *testing.T) {
	var out bytes.Buffer
	commands.Run([]string{"completion", "powershell"}, terminal.Console{Out: &out, Err: &out, Env: os.Getenv})
	script := out.String()
	for _, c := range []byte(script) {
		require.True(t, c == '\n' || c >= ' ' && c < 0x7f, "%q", c)
	}
	var open []rune
	closes := map[rune]rune{')': '(', '}': '{', ']': '['}
	for _, c := range script {
		switch {
		case strings.ContainsRune("({[", c):
			open = append(open, c)
		case closes[c] != 0:
			require.NotEmpty(t, open)
			require.Equal(t, closes[c], open[len(open)-1])
			open = open[:len(open)-1]
		}
	}
	assert.Empty(t, open)
	assert.Zero(t, strings.Count(script, `"`)%2)
	assert.Contains(t, script, "\n    piecebook --complete-words @typed ")
	assert.True(t, strings.HasSuffix(script, "\n}\n"))
	assert.Contains(t, fitting("--books", `"my books"`, `""`), "month")
	assert.Equal(t, []string{"--draft"}, fitting("--books", `"my books"`, "month", "--d"))
}
