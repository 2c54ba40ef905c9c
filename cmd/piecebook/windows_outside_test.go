package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
	ledgerkit "piecebook/ledger/testkit"
)

// wine is an installation of Wine of the test's own.
type wine struct {
	t           *testing.T
	dir, prefix string
}

// newWine sets Wine up. Its release 8 lacks bcryptprimitives.dll, which every Go
// program asks for random numbers: one that passes them on to advapi32.dll, by the
// name that RtlGenRandom has there, is linked without a line of code.
func newWine(t *testing.T, dir string) wine {
	w := wine{t, dir, filepath.Join(t.TempDir(), "wine")}
	t.Cleanup(func() {
		c := exec.Command("wineserver", "-k")
		c.Env = w.env()
		_ = c.Run() // none may be left
	})
	w.runs("", "wine", "wineboot", "-i")
	system := filepath.Join(w.prefix, "drive_c", "windows", "system32")
	if _, err := os.Stat(filepath.Join(system, "bcryptprimitives.dll")); err == nil {
		return w
	}
	const linker = "x86_64-w64-mingw32-ld"
	ledgerkit.Needs(t, linker)
	exports := filepath.Join(t.TempDir(), "exports.def")
	require.NoError(t, os.WriteFile(exports, []byte("LIBRARY bcryptprimitives.dll\nEXPORTS\n"+
		"    ProcessPrng = advapi32.SystemFunction036\n"), 0o644))
	w.runs("", linker, "-shared", "--entry=0", "-o", filepath.Join(system, "bcryptprimitives.dll"), exports)
	return w
}

// env has no window, and none of Wine's own programs that want a download.
func (w wine) env() []string {
	return append(os.Environ(), "WINEPREFIX="+w.prefix, "WINEDEBUG=-all", "WINEDLLOVERRIDES=mscoree,mshtml=", "DISPLAY=")
}

// runs runs a command in the folder, and gives what it prints.
func (w wine) runs(typed, program string, args ...string) string {
	w.t.Helper()
	c := exec.Command(program, args...)
	c.Dir, c.Stdin, c.Env = w.dir, strings.NewReader(typed), w.env()
	var out, printed bytes.Buffer
	c.Stdout, c.Stderr = &out, &printed
	require.NoError(w.t, c.Run(), out.String()+printed.String())
	return out.String()
}

// inConsole runs the program in a console that no shell is in, as after a double
// click or a drop, types once it has printed what it waits with, and gives what it
// printed.
func (w wine) inConsole(waitsWith, typed string, args ...string) string {
	w.t.Helper()
	ledgerkit.Needs(w.t, "script") // of util-linux: a terminal for a test
	// Raw, as a console's keys are: Enter stays what it is.
	line := strings.Join(append([]string{"stty raw -echo; wine piecebook.exe"}, args...), " ")
	c := exec.Command("script", "-qec", line, os.DevNull)
	c.Dir, c.Env = w.dir, append(w.env(), "TERM=xterm")
	in, err := c.StdinPipe()
	require.NoError(w.t, err)
	out, err := c.StdoutPipe()
	require.NoError(w.t, err)
	require.NoError(w.t, c.Start())
	var said []byte
	for buffer := make([]byte, 4096); ; {
		n, err := out.Read(buffer)
		said = append(said, buffer[:n]...)
		if waitsWith != "" && bytes.Contains(said, []byte(waitsWith)) {
			waitsWith = ""
			_, err := io.WriteString(in, typed)
			require.NoError(w.t, err)
		}
		if err != nil {
			break
		}
	}
	require.NoError(w.t, c.Wait(), string(said))
	return string(said)
}

// The Windows program under Wine: it makes of the sample the bytes that this
// system's makes, in a folder whose name has blanks and letters of several
// languages; it names files with its own separators, and its menu reads lines
// that end as Windows ends them.
func TestWindowsProgram(t *testing.T) {
	ledgerkit.Needs(t, "wine")
	dir := filepath.Join(t.TempDir(), "Möbel & Söhne 家具")
	require.NoError(t, os.CopyFS(filepath.Join(dir, "books"), os.DirFS(filepath.Join("..", "..", "sample"))))
	build := exec.Command("go", "build", "-o", filepath.Join(dir, "piecebook.exe"), ".")
	build.Env = append(os.Environ(), "GOOS=windows", "GOARCH=amd64", "CGO_ENABLED=0")
	said, err := build.CombinedOutput()
	require.NoError(t, err, string(said))
	w := newWine(t, dir)
	windows := func(typed string, args ...string) string {
		return w.runs(typed, "wine", append([]string{"piecebook.exe"}, args...)...)
	}
	assert.Contains(t, windows("", "--books", "books", "month"), `books\reports\2026-02\month.pdf`)
	here := t.TempDir()
	require.Equal(t, cli.ExitDone, commands.Run([]string{"--books", filepath.Join("..", "..", "sample"), "--out",
		here, "month"},
		terminal.Console{Out: &bytes.Buffer{}, Err: &bytes.Buffer{}, Env: func(string) string { return "" }}))
	for _, name := range []string{"month.pdf", "pieces.pdf", "month.xlsx", "month.html", "figures.json"} {
		want, err := os.ReadFile(filepath.Join(here, "2026-02", name))
		require.NoError(t, err)
		got, err := os.ReadFile(filepath.Join(dir, "books", "reports", "2026-02", name))
		require.NoError(t, err)
		assert.True(t, bytes.Equal(want, got), "%s differs", name)
	}
	menu := windows("2\r\n0\r\n", "menu")
	assert.Contains(t, menu, "Type a number and press Enter:")
	assert.Contains(t, menu, "1381 rows read = 1381 used + 0 skipped", "the books are found beside the program")
	assert.Contains(t, w.inConsole("press Enter:", "0\r"), "Start a new book", "a double click shows the menu")
	assert.Contains(t, w.inConsole("close this window.", "\r", "books"), "The pack of February 2026",
		"what is dropped is made a pack of, and the window stays until Enter")
}
