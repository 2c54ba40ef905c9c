package intake

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"piecebook/ledger/fault"
)

// Limits on what is read, far above any shop's records, so that a mistake or an
// attack ends in a message rather than in a machine without memory. Reading
// the worst file within them takes under memoryMax (limits_test.go).
const (
	fileBytesMax   = 128 << 20  // of one file as it lies in the folder
	unzipBytesMax  = 512 << 20  // of the parts of one workbook that are read, unpacked
	listBytesMax   = 8 << 20    // of its lists of sheets and links
	sheetsMax      = 1_000      // of one workbook
	elementsMax    = 40_000_000 // of one such part: two or three make a cell, blank ones too
	tagBytesMax    = 1 << 20    // of one text or mark in a part of a workbook
	sheetRowsMax   = 200_000    // not blank, of one sheet
	sheetColsMax   = 1_000      // up to the last that is filled
	sheetCellsMax  = 4_000_000  // of one file, blank ones before a filled one too
	allCellsMax    = 8_000_000  // of all files
	rowWeight      = 20         // cells that a row counts as beside its own
	allBytesMax    = 256 << 20  // of all files
	cellLettersMax = 32_767     // of one cell, as in spreadsheet programs
	unclosedMax    = 20         // quotation marks not closed, of one file
	folderDepthMax = 20         // folders within folders
	foldersFiles   = 10_000     // files in all
	settingsFile   = "settings.toml"
	seenFile       = "seen.csv" // notes the owner has seen: no records
	recordsFolder  = "records"
	settingsBytes  = 1 << 20
	fingerprintLen = 12
)

// rawFile is a file of records as it lies in the folder.
type rawFile struct {
	name  string // below the books folder, parted by /
	bytes []byte
}

// collectSettings reads settings.toml, nil where there is none.
func collectSettings(fsys fs.FS, problems *fault.List) []byte {
	otherSettings(fsys, problems)
	b, ok := readFile(fsys, settingsFile, false, settingsBytes, problems)
	if !ok {
		return nil
	}
	return b
}

// collect reads all record files, in name order. isTable says that a name is a
// table's. The fingerprint is over the settings too.
func collect(fsys fs.FS, settings []byte, isTable func(string) bool, problems *fault.List) (files []rawFile, fingerprint string) {
	total := 0
	for _, name := range recordNames(fsys, problems) {
		if !wanted(name, isTable, problems) {
			continue
		}
		if b, ok := readFile(fsys, name, true, fileBytesMax, problems); ok {
			files = append(files, rawFile{name, b})
			total += len(b)
		}
		if total > allBytesMax {
			problems.Add(tooBig(name, fmt.Sprintf("The files up to here hold more than %d MB, far above any shop's records, so the others are not read.", allBytesMax>>20),
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
	switch info, err := fs.Stat(fsys, recordsFolder); {
	case err == nil && info.IsDir():
		root = recordsFolder
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		problems.Add(notRead(recordsFolder, linkOut, "Put the folder itself here, or name the folder it leads to as the books."))
		return nil
	}
	var names []string
	err := fs.WalkDir(fsys, root, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			problems.Add(notRead(name, "This could not be opened.", "See that it may be read, or take it out of the records."))
			return nil
		case d.IsDir() && name != root && (root == "." || strings.HasPrefix(d.Name(), ".")):
			return fs.SkipDir
		case d.IsDir() && name != root && slices.Contains(ownFolders, strings.ToLower(d.Name())):
			ownFolder(name, problems)
			return fs.SkipDir
		case d.IsDir() && strings.EqualFold(path.Ext(name), ".numbers"):
			problems.Add(otherKind(name, ".numbers"))
			return fs.SkipDir
		case d.IsDir() && strings.Count(name, "/") > folderDepthMax:
			problems.Add(tooBig(name, fmt.Sprintf("Folders stand more than %d deep within each other here.", folderDepthMax), "Move the records further up."))
			return fs.SkipDir
		case !d.IsDir():
			names = append(names, name)
		}
		if len(names) > foldersFiles {
			problems.Add(tooBig(root, fmt.Sprintf("There are more than %d files here, far above any shop's records.", foldersFiles), "Take out what is not records."))
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
		problems.Add(fault.Problem{Code: fault.CodeNoRecords, Place: fault.Place{File: recordsFolder},
			Why: "There are no records here.", Fix: "Put .csv or .xlsx files into the folder records."})
	}
	return names
}

// linkOut is what is told of a link that is not followed.
const linkOut = "This is a link that leads out of the books folder, or to nothing; what lies there is not read."

// otherKinds are files that hold tables and are not read: without a word
// their records would be missing.
var otherKinds = []string{".xls", ".xlt", ".ods", ".fods", ".ots", ".sxc", ".numbers", ".xlsb", ".gsheet", ".gnumeric", ".wks", ".wk1", ".dbf", ".sylk", ".slk", ".dif"}

// otherKind refuses a file by its ending.
func otherKind(name, kind string) fault.Problem {
	return notRead(name, fmt.Sprintf("A file of the kind %s is not read, so its records would be missing.", kind), saveAgain)
}

// wanted says whether a file is read as records. What is of another kind is
// told, but for the litter that programs leave: hidden and lock files. A .txt
// file is read where it is named as a table is, since spreadsheet programs
// save text with tabs so.
func wanted(name string, isTable func(string) bool, problems *fault.List) bool {
	base := path.Base(name)
	kind := strings.ToLower(path.Ext(base))
	switch bare := strings.TrimSuffix(base, path.Ext(base)); {
	case strings.HasPrefix(base, "."), strings.HasPrefix(base, "~$"), settingsNamed(base), base == seenFile,
		strings.EqualFold(base, "thumbs.db"), strings.EqualFold(base, "desktop.ini"), strings.EqualFold(base, "icon\r"):
		return false
	case isText(kind) && kind != ".txt", isBook(kind), kind == ".txt" && isTable(bare):
		return true
	case slices.Contains(otherKinds, kind):
		problems.Add(otherKind(name, kind))
		return false
	}
	problems.Add(fault.Problem{Code: fault.CodeFileSkipped, Note: true, Place: fault.Place{File: name},
		Why: "Records are read from .csv, .tsv and .xlsx files, and from .txt files that are named for a table; this one was skipped.",
		Fix: "If it holds records, save it as .xlsx or .csv; if not, move it out of the records."})
	return false
}

// isText and isBook say how a file of that ending is read.
func isText(kind string) bool { return slices.Contains([]string{".csv", ".tsv", ".tab", ".txt"}, kind) }
func isBook(kind string) bool {
	return slices.Contains([]string{".xlsx", ".xlsm", ".xltx", ".xltm"}, kind)
}

// saveAgain is what helps with most files that cannot be read.
const saveAgain = "Open it in a spreadsheet program and save it as .xlsx, or take it out of the records."

// notRead is a file that cannot be read for what it is.
func notRead(name, why, fix string) fault.Problem {
	return fault.Problem{Code: fault.CodeFileNotRead, Place: fault.Place{File: name}, Why: why, Fix: fix}
}

// tooBig is a file or folder beyond the limits.
func tooBig(name, why, fix string) fault.Problem {
	return fault.Problem{Code: fault.CodeFileTooBig, Place: fault.Place{File: name}, Why: why, Fix: fix}
}

// readFile reads one file up to a limit; a file that is not there is no
// problem unless it is listed. What is no file, such as a pipe, is not opened,
// since that could wait for ever.
func readFile(fsys fs.FS, name string, listed bool, limit int64, problems *fault.List) ([]byte, bool) {
	info, err := fs.Stat(fsys, name)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !listed:
		return nil, false
	case err != nil:
		problems.Add(notRead(name, linkOut, "Put the file itself here, or take the link out."))
		return nil, false
	case info.IsDir():
		problems.Add(notRead(name, "This is a link to a folder; links to folders are not followed.", "Put the folder itself here, or take the link out."))
		return nil, false
	case !info.Mode().IsRegular():
		problems.Add(notRead(name, "This is no file that can be read.", "Take it out of the records."))
		return nil, false
	}
	f, err := fsys.Open(name)
	if err != nil {
		problems.Add(notRead(name, "This file could not be opened.", "Close it in other programs and see that it may be read."))
		return nil, false
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, limit+1))
	switch {
	case err != nil:
		problems.Add(notRead(name, "This file could not be read to its end.", "Copy it here again."))
		return nil, false
	case int64(len(b)) > limit:
		problems.Add(tooBig(name, fmt.Sprintf("This file is larger than %d MB, far above any shop's records.", limit>>20),
			"Take out what is not records, or part it into several files."))
		return nil, false
	}
	return b, true
}

// fingerprintOf is told in Result. Lengths are hashed too, so that no two
// folders can give the same run of bytes.
func fingerprintOf(files []rawFile, settings []byte) string {
	h := sha256.New()
	if settings != nil {
		files = append(slices.Clip(files), rawFile{settingsFile, settings}) // after records/ in name order
	}
	for _, f := range files {
		fmt.Fprintf(h, "%d %s %d ", len(f.name), f.name, len(f.bytes))
		h.Write(f.bytes)
	}
	return hex.EncodeToString(h.Sum(nil))[:fingerprintLen]
}
