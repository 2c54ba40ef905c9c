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

// Limits on what is read. A workbook of a million rows is about 60 MB; a shop
// has thousands of rows, so what is beyond these is a mistake or an attack.
const (
	fileBytesMax   = 128 << 20 // of one file as it lies in the folder
	unzipBytesMax  = 1 << 30   // of one workbook unpacked
	sheetRowsMax   = 200_000   // not blank, of one sheet
	sheetColsMax   = 1_000
	unclosedMax    = 20 // quotation marks never closed, of one file
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

// rawInput is a books folder before anything is understood.
type rawInput struct {
	settings    []byte // nil: no settings.toml
	files       []rawFile
	fingerprint string
}

// collect reads the settings and all record files, in name order.
func collect(fsys fs.FS, problems *fault.List) rawInput {
	var in rawInput
	if b, ok := readFile(fsys, settingsFile, settingsBytes, problems); ok {
		in.settings = b
	}
	for _, name := range recordNames(fsys, problems) {
		if !wanted(name, problems) {
			continue
		}
		if b, ok := readFile(fsys, name, fileBytesMax, problems); ok {
			in.files = append(in.files, rawFile{name, b})
		}
	}
	in.fingerprint = fingerprint(in)
	return in
}

// recordNames lists the files below records/; without that folder, the files
// directly in the books folder.
func recordNames(fsys fs.FS, problems *fault.List) []string {
	root := "."
	if info, err := fs.Stat(fsys, recordsFolder); err == nil && info.IsDir() {
		root = recordsFolder
	}
	var names []string
	err := fs.WalkDir(fsys, root, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			problems.Add(notRead(name, "This could not be opened."))
			return nil
		case d.IsDir() && name != root && (root == "." || strings.HasPrefix(d.Name(), ".")):
			return fs.SkipDir
		case !d.IsDir():
			names = append(names, name)
		}
		return nil
	})
	if err != nil {
		problems.Add(notRead(root, "This folder could not be opened."))
	}
	slices.Sort(names)
	if len(names) == 0 {
		problems.Add(fault.Problem{Code: fault.CodeNoRecords, Place: fault.Place{File: recordsFolder},
			Why: "There are no records here.", Fix: "Put .csv or .xlsx files into the folder records."})
	}
	return names
}

// wanted says whether a file is read as records. What is of another kind is
// told, but for the litter that programs leave: hidden and lock files.
func wanted(name string, problems *fault.List) bool {
	base := path.Base(name)
	switch kind := strings.ToLower(path.Ext(base)); {
	case strings.HasPrefix(base, "."), strings.HasPrefix(base, "~$"), base == settingsFile, base == seenFile,
		strings.EqualFold(base, "thumbs.db"), strings.EqualFold(base, "desktop.ini"):
		return false
	case kind == ".csv", kind == ".xlsx", kind == ".xlsm":
		return true
	case kind == ".xls", kind == ".ods", kind == ".numbers", kind == ".xlsb":
		problems.Add(notRead(name, fmt.Sprintf("A file of the kind %s is not read, so its records would be missing.", kind)))
		return false
	}
	problems.Add(fault.Problem{Code: fault.CodeFileSkipped, Note: true, Place: fault.Place{File: name},
		Why: "Only .csv and .xlsx files are read, so this one was skipped.",
		Fix: "If it holds records, save it as .xlsx or .csv; if not, move it out of the records."})
	return false
}

// notRead is a file that cannot be read for what it is.
func notRead(name, why string) fault.Problem {
	return fault.Problem{Code: fault.CodeFileNotRead, Place: fault.Place{File: name}, Why: why,
		Fix: "Open it in a spreadsheet program and save it as .xlsx, or take it out of the records."}
}

// readFile reads one file up to a limit; a file that is not there is no problem.
func readFile(fsys fs.FS, name string, limit int64, problems *fault.List) ([]byte, bool) {
	f, err := fsys.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, false
	}
	if err != nil {
		problems.Add(notRead(name, "This file could not be opened."))
		return nil, false
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, limit+1))
	switch {
	case err != nil:
		problems.Add(notRead(name, "This file could not be read to its end."))
		return nil, false
	case int64(len(b)) > limit:
		problems.Add(fault.Problem{Code: fault.CodeFileTooBig, Place: fault.Place{File: name},
			Why: fmt.Sprintf("This file is larger than %d MB, far above any shop's records.", limit>>20),
			Fix: "Take out what is not records, or part it into several files."})
		return nil, false
	}
	return b, true
}

// fingerprint is told in Result. Lengths are hashed too, so that no two
// folders can give the same run of bytes.
func fingerprint(in rawInput) string {
	h := sha256.New()
	add := func(name string, b []byte) {
		fmt.Fprintf(h, "%d %s %d ", len(name), name, len(b))
		h.Write(b)
	}
	for _, f := range in.files {
		add(f.name, f.bytes)
	}
	// settings.toml comes after records/ in name order.
	if in.settings != nil {
		add(settingsFile, in.settings)
	}
	return hex.EncodeToString(h.Sum(nil))[:fingerprintLen]
}
