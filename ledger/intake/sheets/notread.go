package sheets

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"piecebook/ledger/fault"
)

// ownFolders are what piecebook writes itself: what lies in them is no record.
var ownFolders = []string{"reports", "closed"}

// noteUnseen notes files that may hold records and lie where none are looked
// for: beside the folder records, or in folders where there is none of it.
func noteUnseen(fsys fs.FS, root string, problems *fault.List) {
	entries, err := fs.ReadDir(fsys, ".")
	if err != nil {
		return // reported already
	}
	var names []string
	for _, e := range entries {
		switch hidden := strings.HasPrefix(e.Name(), ".") || strings.HasPrefix(e.Name(), "~$"); {
		case hidden:
		case !e.IsDir() && root == RecordsFolder && mayHold(e.Name()):
			names = append(names, e.Name())
		case e.IsDir() && root == "." && !slices.Contains(ownFolders, strings.ToLower(e.Name())):
			inside, err := fs.ReadDir(fsys, e.Name())
			if err != nil {
				continue // not read anyway
			}
			for _, f := range inside {
				if !f.IsDir() && !strings.HasPrefix(f.Name(), ".") && !strings.HasPrefix(f.Name(), "~$") && mayHold(f.Name()) {
					names = append(names, e.Name()+"/"+f.Name())
				}
			}
		}
	}
	if len(names) == 0 {
		return
	}
	const most = 10
	list, n := strings.Join(names[:min(len(names), most)], ", "), len(names)
	if n > most {
		list += fmt.Sprintf(" and %d more", n-most)
	}
	p := fault.Problem{Code: fault.CodeFilesBeside, Note: true, Place: fault.Place{File: names[0]},
		Why: fmt.Sprintf("Without a folder records, only the files that stand directly in the books folder are "+
			"read; not read: %s.", list),
		Fix: "If they are records, make a folder records and move all records into it: there, folders within " +
			"folders are read too."}
	if root == RecordsFolder {
		p.Why = fmt.Sprintf("Records are read from the folder records only; not read: %s.", list)
		p.Fix = "If they are records, move them into the folder records; if not, they may stay."
		p.AsksNothing = true
	}
	problems.Add(p)
}

// mayHold says that a file is of a kind that holds records.
func mayHold(name string) bool {
	kind := strings.ToLower(path.Ext(name))
	return !slices.Contains(ownFiles, name) && (IsText(kind) && kind != ".txt" || isBook(kind) ||
		slices.Contains(otherKinds, kind))
}

// ownFolder notes a folder of piecebook's own among the records.
func ownFolder(name string, problems *fault.List) {
	problems.Add(fault.Problem{Code: fault.CodeOwnReport, Note: true, Place: fault.Place{File: name},
		Why: fmt.Sprintf("A folder named %s holds what piecebook makes, so nothing in it is read as records.",
			path.Base(name)),
		Fix: "If it holds records, give it another name."})
}

// otherSettings tells a file that was meant to be settings.toml and is named
// otherwise, such as by a program that adds .txt.
func otherSettings(fsys fs.FS, problems *fault.List) {
	entries, err := fs.ReadDir(fsys, ".")
	if err != nil {
		return // reported when the records are looked for
	}
	_, missing := fs.Stat(fsys, SettingsFile) // there under any case where a system ignores case
	for _, e := range entries {
		if e.IsDir() || e.Name() == SettingsFile || missing == nil && strings.EqualFold(e.Name(), SettingsFile) ||
			!settingsNamed(e.Name()) {
			continue
		}
		problems.Add(fault.Problem{Code: fault.CodeSettingsNotRead, Note: missing == nil, Place: fault.Place{File: e.Name()},
			Why: "The settings are read from a file named settings.toml, in small letters and with nothing after it, so this " +
				"one is not read.",
			Fix: "Rename it settings.toml, or take it out. Where the ending is not shown, the program may have put " +
				".txt after it."})
	}
}

// settingsNamed says that a file is, or was meant to be, settings.toml.
func settingsNamed(name string) bool {
	return slices.Contains([]string{SettingsFile, "settings.toml.txt", "settings.txt", "settings.tml", "setting.toml"},
		strings.ToLower(name))
}

// otherKinds are files that hold tables and are not read: without a word
// their records would be missing.
var otherKinds = []string{".xls", ".xlt", ".ods", ".fods", ".ots", ".sxc", ".numbers", ".xlsb", ".gsheet", ".gnumeric",
	".wks", ".wk1", ".dbf", ".sylk", ".slk", ".dif"}

// otherKind refuses a file by its ending.
func otherKind(name, kind string) fault.Problem {
	return notRead(name, fmt.Sprintf("A file of the kind %s is not read, so its records would be missing.", kind),
		saveAgain)
}

// wanted says whether a file is read as records. What is of another kind is
// reported, but for what programs leave behind: hidden and lock files. A .txt
// file is read where it is named as a table is, since spreadsheet programs
// save text with tabs so.
func wanted(name string, isTable func(string) bool, problems *fault.List) bool {
	base := path.Base(name)
	kind := strings.ToLower(path.Ext(base))
	switch bare := strings.TrimSuffix(base, path.Ext(base)); {
	case strings.HasPrefix(base, "."), strings.HasPrefix(base, "~$"), settingsNamed(base),
		slices.Contains(ownFiles, base),
		strings.TrimSuffix(strings.ToLower(base), ".exe") == programName, strings.EqualFold(base, "thumbs.db"),
		strings.EqualFold(base, "desktop.ini"), strings.EqualFold(base, "icon\r"):
		return false
	case IsText(kind) && kind != ".txt", isBook(kind), kind == ".txt" && isTable(bare):
		return true
	case slices.Contains(otherKinds, kind):
		problems.Add(otherKind(name, kind))
		return false
	}
	problems.Add(fault.Problem{Code: fault.CodeFileSkipped, Note: true, Place: fault.Place{File: name},
		Why: "Records are read from .csv, .tsv and .xlsx files, and from .txt files that are named for a table; this " +
			"one was skipped.",
		Fix: "If it holds records, save it as .xlsx or .csv; if not, move it out of the records."})
	return false
}

// IsText and isBook say how a file of that ending is read.
func IsText(kind string) bool { return slices.Contains([]string{".csv", ".tsv", ".tab", ".txt"}, kind) }
func isBook(kind string) bool {
	return slices.Contains([]string{".xlsx", ".xlsm", ".xltx", ".xltm"}, kind)
}
