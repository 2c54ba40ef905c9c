//go:build !windows

package terminal

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"

	"golang.org/x/term"
)

// OwnWindow says that the program was started by a double click: macOS then
// runs it in a new terminal window, in the home folder, by its whole name.
// On Linux the entry piecebook.desktop asks for the menu by name.
func ownWindow() bool {
	home, err := os.UserHomeDir()
	if err != nil || runtime.GOOS != "darwin" || !filepath.IsAbs(os.Args[0]) || !term.IsTerminal(int(os.Stdin.Fd())) {
		return false
	}
	here, err := os.Getwd()
	return err == nil && here == home
}

// boldWorks says that terminals understand what turns bold type on and off.
func boldWorks() bool { return true }

// Show opens a file or a folder with the program it usually opens with.
func show(path string) error {
	opener := "xdg-open"
	if runtime.GOOS == "darwin" {
		opener = "open"
	}
	return exec.Command(opener, path).Start()
}
