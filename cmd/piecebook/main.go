// Command piecebook costs refinished furniture from the records its owner
// keeps, and renders the month's pack.
package main

import (
	"os"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
)

func main() {
	os.Exit(commands.Run(os.Args[1:], terminal.OfProcess()))
}
