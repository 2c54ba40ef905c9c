package terminal

import (
	"os"
	"os/exec"
	"unsafe"

	"golang.org/x/sys/windows"
)

var getConsoleProcessList = windows.NewLazySystemDLL("kernel32.dll").NewProc("GetConsoleProcessList")

// ownWindow says that the program has a console window to itself, as after a
// double click: no shell is in it that would keep it open.
func ownWindow() bool {
	var ids [2]uint32
	n, _, _ := getConsoleProcessList.Call(uintptr(unsafe.Pointer(&ids[0])), uintptr(len(ids)))
	return n == 1
}

// boldWorks switches on that the console understands what turns bold type on
// and off, and says whether it does.
func boldWorks() bool {
	for _, f := range []*os.File{os.Stdout, os.Stderr} {
		var mode uint32
		console := windows.Handle(f.Fd())
		if windows.GetConsoleMode(console, &mode) != nil {
			continue // no console: a file or a pipe
		}
		if windows.SetConsoleMode(console, mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING) != nil {
			return false
		}
	}
	return true
}

// show opens a file or a folder with the program it usually opens with.
func show(path string) error {
	return exec.Command("rundll32", "url.dll,FileProtocolHandler", path).Start()
}
