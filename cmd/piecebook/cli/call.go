// Package cli is what all commands share: the flags of a call, books opened,
// problems told, names and periods as typed, files written.
package cli

import (
	"runtime/debug"
	"strings"

	"piecebook/cmd/piecebook/terminal"
)

// Call is one call of the program: the flags that every command has, and what
// it is shown and stopped by.
type Call struct {
	Books string `help:"The books folder (default: where you are)." placeholder:"DIR" default:"."`
	Out   string `help:"Put reports into DIR instead of the books folder's reports/." placeholder:"DIR"`
	Plain bool   `help:"For screen readers: no lines drawn with characters, no bold, one fact a line."`
	JSON  bool   `name:"json" help:"Give the answer as JSON on standard output; write no file."`

	Bar     *terminal.Bar  `kong:"-"` // nil where no one looks
	Stop    *terminal.Stop `kong:"-"` // nil: nothing stops it
	Wide    int            `kong:"-"` // columns that reports are set for; 0: as many as they are made for
	Command string         `kong:"-"` // as it was given, with what it needs
	InMenu  bool           `kong:"-"` // chosen in the menu
}

// Self is how the program is called again for the same books.
func (c *Call) Self() string {
	if c.Books == "." {
		return "piecebook"
	}
	if strings.ContainsAny(c.Books, " '\"&;()") {
		quote := `"`
		if strings.Contains(c.Books, quote) {
			quote = "'"
		}
		return "piecebook --books " + quote + c.Books + quote
	}
	return "piecebook --books " + c.Books
}

// inMenu are the numbers of the commands that messages name, in the menu.
var inMenu = map[string]string{"month": "1", "check": "2"}

// ToType is what to type for a command on the same books: in the menu its number.
func (c *Call) ToType(command string) string {
	if number := inMenu[command]; c.InMenu && number != "" {
		return number
	}
	return c.Self() + " " + command
}

// release is the version of a release, from its tag; the linker sets it.
var release string

// Version is the release's version, else the module's, as the build knows it.
func Version() string {
	if release != "" {
		return "piecebook " + release
	}
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "piecebook (version unknown)"
	}
	return "piecebook " + info.Main.Version
}
