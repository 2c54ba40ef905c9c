// Command piecebook costs refinished furniture from the records its owner
// keeps, and renders the month's pack.
package main

import (
	"os"
	"path/filepath"

	"golang.org/x/term"
)

func main() {
	w := console{in: os.Stdin, out: os.Stdout, err: os.Stderr, env: os.Getenv, outWide: wide(os.Stdout),
		errWide: wide(os.Stderr), stop: stopOnInterrupt(), ownWindow: ownWindow(), show: show}
	if !boldWorks() {
		w.env = func(key string) string {
			if key == "NO_COLOR" {
				return "1"
			}
			return os.Getenv(key)
		}
	}
	w.programDir = "."
	if program, err := os.Executable(); err == nil {
		w.programDir = filepath.Dir(program)
	}
	os.Exit(run(os.Args[1:], w))
}

// wide is how many columns a terminal has; 0 where f is none.
func wide(f *os.File) int {
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0
	}
	return columns
}
