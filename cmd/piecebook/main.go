// Command piecebook costs refinished furniture from the records its owner
// keeps, and renders the month's pack.
package main

import (
	"os"

	"golang.org/x/term"
)

func main() {
	os.Exit(run(os.Args[1:], world{out: os.Stdout, err: os.Stderr, env: os.Getenv,
		terminal: term.IsTerminal(int(os.Stderr.Fd()))}))
}
