package intake

import (
	"encoding/xml"
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
		return // told already
	}
	var names []string
	for _, e := range entries {
		switch hidden := strings.HasPrefix(e.Name(), ".") || strings.HasPrefix(e.Name(), "~$"); {
		case hidden:
		case !e.IsDir() && root == recordsFolder && mayHold(e.Name()):
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
		Why: fmt.Sprintf("Without a folder records, only the files that stand directly in the books folder are read; not read: %s.", list),
		Fix: "If they are records, make a folder records and move all records into it: there, folders within folders are read too."}
	if root == recordsFolder {
		p.Why = fmt.Sprintf("Records are read from the folder records only; not read: %s.", list)
		p.Fix = "If they are records, move them into the folder records; if not, nothing need be done."
	}
	problems.Add(p)
}

// mayHold says that a file is of a kind that holds records.
func mayHold(name string) bool {
	kind := strings.ToLower(path.Ext(name))
	return name != seenFile && (isText(kind) && kind != ".txt" || isBook(kind) || slices.Contains(otherKinds, kind))
}

// ownFolder notes a folder of piecebook's own among the records.
func ownFolder(name string, problems *fault.List) {
	problems.Add(fault.Problem{Code: fault.CodeOwnReport, Note: true, Place: fault.Place{File: name},
		Why: fmt.Sprintf("A folder named %s holds what piecebook makes, so nothing in it is read as records.", path.Base(name)),
		Fix: "If it holds records, give it another name."})
}

// appPart is the part of a workbook that says which program wrote it.
const appPart = "docprops/app.xml"

// ownApplication is how the workbooks of the packs name it.
const ownApplication = "piecebook"

// isOwnReport says that piecebook wrote a workbook as part of a pack.
func (in *inspection) isOwnReport() bool {
	if in.parts[appPart] == nil {
		return false
	}
	name, within := "", false
	err := in.read(appPart, func(t xml.Token) error {
		switch e := t.(type) {
		case xml.StartElement:
			within = e.Name.Local == "Application"
		case xml.EndElement:
			within = false
		case xml.CharData:
			if within {
				name += string(e)
			}
		}
		return nil
	})
	return err == nil && strings.TrimSpace(name) == ownApplication
}

// otherSettings tells a file that was meant to be settings.toml and is named
// otherwise, such as by a program that adds .txt.
func otherSettings(fsys fs.FS, problems *fault.List) {
	entries, err := fs.ReadDir(fsys, ".")
	if err != nil {
		return // told when the records are looked for
	}
	_, missing := fs.Stat(fsys, settingsFile) // there under any case where a system reads over case
	for _, e := range entries {
		if e.IsDir() || e.Name() == settingsFile || missing == nil && strings.EqualFold(e.Name(), settingsFile) || !settingsNamed(e.Name()) {
			continue
		}
		problems.Add(fault.Problem{Code: fault.CodeSettingsNotRead, Note: missing == nil, Place: fault.Place{File: e.Name()},
			Why: "The settings are read from a file named settings.toml, in small letters and with nothing behind it, so this one is not read.",
			Fix: "Rename it settings.toml, or take it out. Where the ending is not shown, the program may have put .txt behind it."})
	}
}

// settingsNamed says that a file is, or was meant to be, settings.toml.
func settingsNamed(name string) bool {
	return slices.Contains([]string{settingsFile, "settings.toml.txt", "settings.txt", "settings.tml", "setting.toml"}, strings.ToLower(name))
}
