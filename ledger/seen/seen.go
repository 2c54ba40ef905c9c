// Package seen keeps the notes that the owner has marked as seen.
// They stand in seen.csv beside settings.toml, a line each, which the owner may
// read and delete. A quiet note is reported again as soon as a cell it rests on
// changes: each line carries a fingerprint of the row the note stands at and of
// the note's own words, which name what it rests on elsewhere. Row numbers do not
// count (see fault.Problem.Rowless), so a row inserted above changes nothing.
package seen

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/plainfile"
)

// File is where quiet notes are kept, beside settings.toml.
const File = "seen.csv"

// fingerprintLen is how many hexadecimal digits of SHA-256 tell two notes
// apart: 48 bits, among at most thousands of notes.
const fingerprintLen = 12

var header = []string{"code", "file", "sheet", "row", "column", "stands there", "note", "fingerprint"}

// Entry is one quiet note. Code and Fingerprint are what counts; the rest says
// to the owner which note it was when it was quieted.
type Entry struct {
	Code        fault.Code
	Place       fault.Place
	Found, Note string
	Fingerprint string
}

// Of is a note as an entry. rowText is what stands in the row at its place.
func Of(note fault.Problem, rowText string) Entry {
	sum := sha256.New()
	for _, part := range []string{string(note.Code), note.Place.File, note.Place.Sheet, note.Place.Column, rowText,
		note.Found, cmp.Or(note.Rowless, note.Why)} {
		// The length keeps two parts from being taken for one.
		_, _ = io.WriteString(sum, strconv.Itoa(len(part))+":"+part+"\n")
	}
	return Entry{Code: note.Code, Place: note.Place, Found: note.Found, Note: note.Why,
		Fingerprint: hex.EncodeToString(sum.Sum(nil))[:fingerprintLen]}
}

// Split divides notes into those still reported and those the entries quiet. Errors
// are always reported.
func Split(problems fault.List, entries []Entry, rowText func(fault.Place) string) (shown, quiet fault.List) {
	type key struct {
		code        fault.Code
		fingerprint string
	}
	known := map[key]bool{}
	for _, e := range entries {
		known[key{e.Code, e.Fingerprint}] = true
	}
	for _, p := range problems.All() {
		if p.Note && len(known) > 0 && known[key{p.Code, Of(p, rowText(p.Place)).Fingerprint}] {
			quiet.Add(p)
		} else {
			shown.Add(p)
		}
	}
	return shown, quiet
}

// Read reads seen.csv. A line that is not as piecebook writes it quiets
// nothing and is reported as a note, so that the file can be put right or deleted.
func Read(text []byte) (entries []Entry, problems fault.List) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\xEF\xBB\xBF"))))
	r.FieldsPerRecord = -1
	for n := 1; ; n++ {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return entries, problems
		}
		row, _ := strconv.Atoi(cellAt(cells, 3))
		switch {
		case err == nil && n == 1 && slices.Equal(cells, header):
		case err != nil || len(cells) != len(header) || len(cells[7]) != fingerprintLen:
			problems.Add(fault.Problem{Code: fault.CodeSeenNotRead, Note: true, Place: fault.Place{File: File, Row: n},
				Found: strings.Join(cells, ","), Why: "This line is not as piecebook writes it, so it quiets no note.",
				Fix: "Delete the line, and type piecebook seen again for its note if it comes back."})
		default:
			entries = append(entries, Entry{Code: fault.Code(cells[0]),
				Place: fault.Place{File: cells[1], Sheet: cells[2], Row: row, Column: cells[4]},
				Found: cells[5], Note: cells[6], Fingerprint: cells[7]})
		}
		var parse *csv.ParseError
		if err != nil && !errors.As(err, &parse) {
			return entries, problems
		}
	}
}

func cellAt(cells []string, i int) string {
	if i < len(cells) {
		return cells[i]
	}
	return ""
}

// Add puts entries to those there are; one whose note stood at the same place
// with the same code takes the older one's line.
func Add(entries []Entry, more ...Entry) []Entry {
	out := slices.Clone(entries)
	for _, e := range more {
		at := slices.IndexFunc(out, func(o Entry) bool {
			return o.Code == e.Code && (o.Place == e.Place || o.Fingerprint == e.Fingerprint)
		})
		if at < 0 {
			out = append(out, e)
		} else {
			out[at] = e
		}
	}
	return out
}

// Write writes seen.csv.
func Write(w io.Writer, entries []Entry) error {
	out := csv.NewWriter(w)
	if err := out.Write(header); err != nil {
		return err
	}
	for _, e := range entries {
		row := ""
		if e.Place.Row > 0 {
			row = strconv.Itoa(e.Place.Row)
		}
		if err := out.Write([]string{string(e.Code), e.Place.File, e.Place.Sheet, row, e.Place.Column, e.Found, e.Note,
			e.Fingerprint}); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// bytesMax is the most that seen.csv is read of.
const bytesMax = 8 << 20

// ReadFile reads seen.csv; nothing where there is none.
func ReadFile(folder fs.FS) ([]Entry, fault.List, error) {
	text, err := plainfile.Read(folder, File, bytesMax)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fault.List{}, nil
	}
	if err != nil {
		return nil, fault.List{}, err
	}
	entries, problems := Read(text)
	return entries, problems, nil
}
