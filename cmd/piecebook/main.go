// Command piecebook costs refinished furniture from the records its owner
// keeps, and renders the month's pack.
package main

import (
	"os"

	"golang.org/x/term"
)

func main() {
	os.Exit(run(os.Args[1:], world{out: os.Stdout, err: os.Stderr, env: os.Getenv,
		outWide: wide(os.Stdout), errWide: wide(os.Stderr), stop: stopOnInterrupt()}))
}

// wide is how many columns a terminal has; 0 where f is none.
func wide(f *os.File) int {
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return columns
}
