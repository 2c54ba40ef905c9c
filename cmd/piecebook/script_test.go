package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"piecebook": main, "piecebook-killed": killedMain})
}

// TestScripts runs every promise of the command line as a script. `exits N
// command` asserts the exact exit status; `sample` copies the sample's books
// in; `pdftext FILE` prints a PDF's text where poppler is installed.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("testdata", "script"),
		RequireExplicitExec: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":   exits,
			"sample":  copySample,
			"example": copyExample,
		},
	})
}

// exits runs a command and asserts its exit status.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS command ...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if exit, ok := err.(*exec.ExitError); ok {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

func copySample(ts *testscript.TestScript, _ bool, args []string) {
	copyTree(ts, filepath.Join(repository(ts), "sample"), ts.MkAbs(args[0]))
}

func copyExample(ts *testscript.TestScript, _ bool, args []string) {
	copyTree(ts, filepath.Join(repository(ts), "ledger", "testdata", "example"), ts.MkAbs(args[0]))
}

// repository is the project's top, found from the test binary's own folder.
func repository(ts *testscript.TestScript) string {
	here, err := os.Getwd()
	ts.Check(err)
	return filepath.Join(here, "..", "..")
}

func copyTree(ts *testscript.TestScript, from, to string) {
	ts.Check(os.CopyFS(to, os.DirFS(from)))
}
