package closing

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"
	"regexp"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
)

// Schema names the form of a closed month's file; another number is another form.
const Schema = "piecebook/closed/1"

// The file is one JSON object. Lists stand one element a line. Its last member
// is its checksum, "sha256": SHA-256 of all bytes before the comma in front of
// it, in lower case hexadecimal. Money is as in figures.json; amounts, areas
// and hours are fractions in lowest terms ("63/2"). Members are added, never
// renamed or given another meaning under one schema; readers pass over what
// they do not know.
//
//	schema      Schema
//	month       2026-03
//	program     the version that closed it
//	after       sha256 of the file of the month before; blank: the first
//	figures     the month's figures.json
//	files       the copy of the records: name, size, sha256
//	basis       by supply, how what it drew was known
//	closing     the closing stock: pieces, and the shelf layer by layer
//	opening     of the first closed month: postings and closing of what was there before it
//	corrections carried by it: the last month they correct, the records changed; none: null
//	shared      totals that were shared
//	postings    "of" is the place in shared of the total it is a part of, from 0
//	records     a line each: table, place, month, cells in standard form, fingerprint
//	sha256      the checksum
type member struct {
	name string
	// value is written as it is; of a list each element on its own line.
	value any
}

// list is a member's elements, made as they are written.
type list iter.Seq[any]

func listOf[T any](all iter.Seq[T]) list {
	return func(yield func(any) bool) {
		for x := range all {
			if !yield(x) {
				return
			}
		}
	}
}

// before is the opening of the books.
type before struct {
	Month    calendar.Month   `json:"month"`
	Postings []ledger.Posting `json:"postings"`
	Closing  costing.State    `json:"closing"`
}

// posting is a posting that points to its total by number.
type posting struct {
	ledger.Posting
	Of *int `json:"of,omitempty"`
}

// Encode is a closed month's file.
func Encode(m *Month) ([]byte, error) {
	var shared []*ledger.Shared
	at := map[*ledger.Shared]int{}
	postings := make([]posting, len(m.Postings))
	for i, p := range m.Postings {
		postings[i].Posting = p
		if p.Of == nil {
			continue
		}
		n, known := at[p.Of]
		if !known {
			n = len(shared)
			at[p.Of], shared = n, append(shared, p.Of)
		}
		postings[i].Of = &n
	}
	var opening *before
	if m.Before != nil {
		opening = &before{m.Before.Month, m.Before.Postings, m.Before.Closing}
	}
	var figures bytes.Buffer
	if err := json.Compact(&figures, m.Figures); err != nil {
		return nil, err
	}
	var data bytes.Buffer
	var err error
	m.Sum, err = encode(&data, []member{{"schema", Schema}, {"month", m.Month}, {"program", m.Program}, {"after", m.After},
		{"figures", json.RawMessage(figures.Bytes())},
		{"files", listOf(slices.Values(m.Files))}, {"basis", m.Basis}, {"closing", m.Closing}, {"opening", opening}, {"corrections", m.Corrections},
		{"shared", listOf(slices.Values(shared))}, {"postings", listOf(slices.Values(postings))},
		{"records", listOf(slices.Values(m.Records))}})
	return data.Bytes(), err
}

// encode writes members and their checksum, which is returned too.
func encode(to io.Writer, members []member) (string, error) {
	hash := sha256.New()
	w := &memberWriter{Writer: bufio.NewWriter(io.MultiWriter(to, hash))}
	w.json = json.NewEncoder(&w.line)
	w.json.SetEscapeHTML(false)
	w.WriteString("{\n") // what fails is told by Flush
	for i, x := range members {
		if i > 0 {
			w.WriteString(",\n")
		}
		if err := w.member(x); err != nil {
			return "", err
		}
	}
	if err := w.Flush(); err != nil {
		return "", err
	}
	stated := hex.EncodeToString(hash.Sum(nil))
	_, err := fmt.Fprintf(to, ",\n\"sha256\": %q\n}\n", stated)
	return stated, err
}

// memberWriter writes values as JSON, each on one line.
type memberWriter struct {
	*bufio.Writer
	json *json.Encoder // to line
	line bytes.Buffer
}

func (w *memberWriter) member(x member) error {
	fmt.Fprintf(w, "%q: ", x.name)
	elements, isList := x.value.(list)
	if !isList {
		return w.value(x.value)
	}
	w.WriteString("[")
	before := "\n"
	for element := range elements {
		w.WriteString(before)
		if err := w.value(element); err != nil {
			return err
		}
		before = ",\n"
	}
	w.WriteString("]")
	return nil
}

// value writes < and & as they are.
func (w *memberWriter) value(v any) error {
	w.line.Reset()
	if err := w.json.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(bytes.TrimSuffix(w.line.Bytes(), []byte("\n")))
	return err
}

func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:])
}

// checksum is the end of a closed month's file.
var checksum = regexp.MustCompile(",\n\"sha256\": \"([0-9a-f]{64})\"\n}\n$")

// What is wrong with a closed month's file.
var (
	ErrAltered = errors.New("it is not as it was written: a part is missing, or something was changed")
	ErrNewer   = errors.New("it was written by a newer piecebook, which this one cannot read")
	ErrOrder   = errors.New("it does not follow the closed month before it")
)

// decode reads members whose checksum holds, and returns that; ErrAltered, ErrNewer.
func decode(data []byte, schema string, into any) (string, error) {
	from := max(0, len(data)-100)
	end := checksum.FindSubmatchIndex(data[from:])
	if end == nil {
		return "", ErrAltered
	}
	stated := string(data[from+end[2] : from+end[3]])
	if sum(data[:from+end[0]]) != stated {
		return "", ErrAltered
	}
	var head struct {
		Schema string `json:"schema"`
	}
	if err := json.Unmarshal(data, &head); err != nil {
		return "", ErrAltered
	}
	if head.Schema != schema {
		return "", ErrNewer
	}
	if err := json.Unmarshal(data, into); err != nil {
		return "", ErrAltered
	}
	return stated, nil
}

// Decode reads a closed month's file; ErrAltered, ErrNewer.
func Decode(data []byte) (*Month, error) {
	var f struct {
		Schema      string                  `json:"schema"`
		Month       calendar.Month          `json:"month"`
		Program     string                  `json:"program"`
		After       string                  `json:"after"`
		Figures     json.RawMessage         `json:"figures"`
		Files       []File                  `json:"files"`
		Basis       map[string]ledger.Basis `json:"basis"`
		Closing     costing.State           `json:"closing"`
		Opening     *before                 `json:"opening"`
		Corrections *Corrections            `json:"corrections"`
		Shared      []*ledger.Shared        `json:"shared"`
		Postings    []posting               `json:"postings"`
		Records     []Line                  `json:"records"`
	}
	stated, err := decode(data, Schema, &f)
	if err != nil {
		return nil, err
	}
	m := &Month{Program: f.Program, Figures: f.Figures, Records: f.Records, Files: f.Files, Corrections: f.Corrections,
		After: f.After, Sum: stated}
	m.Month, m.Closing, m.Basis = f.Month, f.Closing, f.Basis
	if f.Opening != nil {
		m.Before = &costing.MonthResult{Month: f.Opening.Month, Postings: f.Opening.Postings, Closing: f.Opening.Closing}
	}
	for _, p := range f.Postings {
		if p.Of != nil {
			if *p.Of < 0 || *p.Of >= len(f.Shared) || f.Shared[*p.Of] == nil {
				return nil, ErrAltered
			}
			p.Posting.Of = f.Shared[*p.Of]
		}
		m.Postings = append(m.Postings, p.Posting)
		if m.Corrections != nil && IsCorrection(&p.Posting) {
			m.Corrections.Postings = append(m.Corrections.Postings, p.Posting)
		}
	}
	return m, nil
}
