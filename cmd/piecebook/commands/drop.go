package commands

import (
	"os"
	"path/filepath"
	"strings"
)

// dropped says that the one argument is a workbook or a folder, as when a
// file is dropped on the program.
func dropped(args []string) bool {
	if len(args) != 1 || strings.HasPrefix(args[0], "-") {
		return false
	}
	info, err := os.Stat(args[0])
	if err != nil {
		return false
	}
	return info.IsDir() || strings.Contains(filepath.Base(args[0]), ".")
}

// droppedArgs makes the last month's pack beside what was dropped. A records
// folder inside a books folder stands for the books folder.
func droppedArgs(arg string) []string {
	arg = filepath.Clean(arg)
	if filepath.Base(arg) == "records" {
		return []string{"--books", filepath.Dir(arg)}
	}
	return []string{"--books", arg}
}
