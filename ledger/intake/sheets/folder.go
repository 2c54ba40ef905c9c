package sheets

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"piecebook/ledger/fault"
	"piecebook/ledger/plainfile"
)

// The names that mean something in a books folder.
const (
	SettingsFile  = "settings.toml"
	RecordsFolder = "records"
	programName   = "piecebook" // the program itself may lie beside the records
)

// ownFiles are no records: notes the owner has seen, the guide, and what else is in
// the archive that the program comes in.
var ownFiles = []string{"seen.csv", "guide.pdf", "guide.md", "cards.pdf", "LICENSE.txt", "FONT-LICENSE.txt",
	"LICENSES of what is inside.txt", "piecebook.desktop"}

// Settings reads settings.toml, nil where there is none.
func Settings(fsys fs.FS, problems *fault.List) []byte {
	otherSettings(fsys, problems)
	b, ok := readFile(fsys, SettingsFile, false, settingsBytes, problems)
	if !ok {
		return nil
	}
	return b
}

// Collect reads all record files, in name order. isTable says that a name is a
// table's. The fingerprint is over the settings too.
func Collect(fsys fs.FS, settings []byte, isTable func(string) bool, problems *fault.List) (files []File,
	fingerprint string) {
	total := 0
	for _, name := range recordNames(fsys, problems) {
		if !wanted(name, isTable, problems) {
			continue
		}
		if b, ok := readFile(fsys, name, true, fileBytesMax, problems); ok {
			files = append(files, File{name, b})
			total += len(b)
		}
		if total > allBytesMax {
			problems.Add(tooBig(name, fmt.Sprintf("The files up to here hold more than %d MB, far above any shop's records, so "+
				"the others are not read.", allBytesMax>>20),
				"Take out what is not records."))
			break
		}
	}
	return files, fingerprintOf(files, settings)
}

// recordNames lists the files below records/; without that folder, the files
// directly in the books folder.
func recordNames(fsys fs.FS, problems *fault.List) []string {
	root := "."
	switch info, err := fs.Stat(fsys, RecordsFolder); {
	case err == nil && info.IsDir():
		root = RecordsFolder
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		problems.Add(notRead(RecordsFolder, linkOut, "Put the folder itself here, or name the folder it leads "+
			"to as the books."))
		return nil
	}
	var names []string
	err := fs.WalkDir(fsys, root, func(name string, d fs.DirEntry, err error) error {
		switch {
		case !utf8.ValidString(name):
			problems.Add(unreadableName(name))
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		case err != nil:
			problems.Add(notRead(name, "This could not be opened.", "See that it may be read, or take it out of the records."))
			return nil
		case d.IsDir() && name != root && (root == "." || strings.HasPrefix(d.Name(), ".")):
			return fs.SkipDir
		case d.Type()&fs.ModeSymlink != 0 && root == RecordsFolder && linkToNoFile(fsys, name, problems):
			return nil
		case d.IsDir() && name != root && slices.Contains(ownFolders, strings.ToLower(d.Name())):
			ownFolder(name, problems)
			return fs.SkipDir
		case d.IsDir() && strings.EqualFold(path.Ext(name), ".numbers"):
			problems.Add(otherKind(name, ".numbers"))
			return fs.SkipDir
		case d.IsDir() && strings.Count(name, "/") > folderDepthMax:
			problems.Add(tooBig(name, fmt.Sprintf("Folders stand more than %d deep within each other here.", folderDepthMax),
				"Move the records further up."))
			return fs.SkipDir
		case !d.IsDir():
			names = append(names, name)
		}
		if len(names) > filesMax {
			problems.Add(tooBig(root, fmt.Sprintf("There are more than %d files here, far above any shop's records.", filesMax),
				"Take out what is not records."))
			return fs.SkipAll
		}
		return nil
	})
	if err != nil {
		problems.Add(notRead(root, "This folder could not be opened.", "See that it may be read."))
	}
	slices.Sort(names)
	noteUnseen(fsys, root, problems)
	if len(names) == 0 {
		problems.Add(fault.Problem{Code: fault.CodeNoRecords, Place: fault.Place{File: RecordsFolder},
			Why: "There are no records here.", Fix: "Put .csv or .xlsx files into the folder records."})
	}
	return names
}

// linkToNoFile tells a link below records that leads to a folder, or nowhere
// that may be read: records would be missing without a word.
func linkToNoFile(fsys fs.FS, name string, problems *fault.List) bool {
	if strings.HasPrefix(path.Base(name), ".") {
		return false
	}
	info, err := fs.Stat(fsys, name)
	switch {
	case err != nil:
		problems.Add(notRead(name, linkOut, "Put the file or folder itself here, or take the link out."))
	case info.IsDir():
		problems.Add(linkToFolder(name))
	default:
		return false
	}
	return true
}

// linkToFolder refuses a link to a folder.
func linkToFolder(name string) fault.Problem {
	return notRead(name, "This is a link to a folder; links to folders are not followed.", "Put the folder itself "+
		"here, or take the link out.")
}

// linkOut is what is said of a link that is not followed.
const linkOut = "This is a link that leads out of the books folder, or to nothing; what lies there is not read."

// saveAgain is what helps with most files that cannot be read.
const saveAgain = "Open it in a spreadsheet program and save it as .xlsx, or take it out of the records."

// notRead is a file that cannot be read for what it is.
func notRead(name, why, fix string) fault.Problem {
	return fault.Problem{Code: fault.CodeFileNotRead, Place: fault.Place{File: name}, Why: why, Fix: fix}
}

// readFile reads one file up to a limit; a file that is not there is no
// problem unless it is listed.
func readFile(fsys fs.FS, name string, listed bool, limit int64, problems *fault.List) ([]byte, bool) {
	b, err := plainfile.Read(fsys, name, limit)
	var big *plainfile.TooBigError
	switch {
	case err == nil:
		return b, true
	case errors.Is(err, fs.ErrNotExist) && !listed:
	case errors.Is(err, plainfile.ErrLink), errors.Is(err, fs.ErrNotExist):
		problems.Add(notRead(name, linkOut, "Put the file itself here, or take the link out."))
	case errors.Is(err, plainfile.ErrFolder) && listed:
		problems.Add(linkToFolder(name))
	case errors.Is(err, plainfile.ErrFolder), errors.Is(err, plainfile.ErrNoFile):
		problems.Add(notRead(name, "This is no file that can be read.", "Take it out of here."))
	case errors.Is(err, fs.ErrInvalid):
		problems.Add(unreadableName(name))
	case errors.As(err, &big):
		problems.Add(tooBig(name, fmt.Sprintf("This file is larger than %d MB, far above any shop's records.", limit>>20),
			"Take out what is not records, or split it into several files."))
	default:
		problems.Add(notRead(name, "This file could not be read.", "Close it in other programs and see that it may be read, "+
			"or copy it here again."))
	}
	return nil, false
}

// unreadableName tells a file or folder whose name is no text (UTF-8), as happens
// on disks of old systems.
func unreadableName(name string) fault.Problem {
	return notRead(strings.ToValidUTF8(name, "\ufffd"), "Its name holds letters that cannot be read, so what is in it "+
		"cannot either.", "Give it a name of plain letters and digits.")
}

// fingerprintOf is reported in Result. Lengths are hashed too, so that no two
// folders can give the same run of bytes.
func fingerprintOf(files []File, settings []byte) string {
	h := sha256.New()
	if settings != nil {
		files = append(slices.Clip(files), File{SettingsFile, settings}) // after records/ in name order
	}
	for _, f := range files {
		fmt.Fprintf(h, "%d %s %d ", len(f.Name), f.Name, len(f.Bytes))
		h.Write(f.Bytes)
	}
	return hex.EncodeToString(h.Sum(nil))[:12]
}
