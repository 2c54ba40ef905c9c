package sheets

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/xml"
	"errors"
	"fmt"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"

	"piecebook/ledger/atonce"
	"piecebook/ledger/fault"
)

// workbook is a workbook whose parts are walked, each once and to its end: a
// part that ends early, is missing or fails its check sum is found out, and a
// workbook is read whole or not at all. The parts are those of ECMA-376 part 1,
// 18 (SpreadsheetML); what cells do not come from (pictures, charts) is not unpacked.
type workbook struct {
	file   string
	parts  map[string]*zip.File // by name in small letters
	main   string               // the list of sheets
	is1904 bool                 // its count of days begins in 1904
	styles []style              // how cells are shown
	texts  []string             // the list of texts that cells refer to
	// struckTexts are those of them whose parts say whether they are crossed out.
	struckTexts map[int]markKind
	sheets      []*sheetPart // those with cells, in the workbook's order
	elements    atomic.Int64 // of its parts, so far
	cells       atomic.Int64 // so far, blank ones before a filled one too
}

// Why a workbook cannot be read.
var (
	errDamaged = errors.New("damaged, or only half there") // or no XML of its kind
	errTooBig  = errors.New("beyond the limits")
	errTooLong = errors.New("a text beyond the limits")
	errNoBook  = errors.New("no workbook")
	errOwn     = errors.New("part of a report")
)

// otherBookError is a workbook of a kind that is not read, by its usual ending.
type otherBookError string

func (e otherBookError) Error() string { return string(e) }

// openWorkbook reads all sheets of a workbook, telling why it cannot be read.
func openWorkbook(f File, problems *fault.List) []*Sheet {
	sheets, err := readWorkbook(f, problems)
	if err != nil {
		problems.Add(workbookProblem(f.Name, err))
	}
	return sheets
}

// workbookProblem says why a workbook is not read.
func workbookProblem(name string, err error) fault.Problem {
	var other otherBookError
	switch {
	case errors.As(err, &other):
		return notRead(name, fmt.Sprintf("This is a workbook of the %s kind.", string(other)), saveAgain)
	case errors.Is(err, errNoBook):
		return notRead(name, "This file is no workbook.", saveAgain)
	case errors.Is(err, errOwn):
		return fault.Problem{Code: fault.CodeOwnReport, Note: true, Place: fault.Place{File: name},
			Why: "Piecebook made this workbook as part of a report, so it is not read as records.",
			Fix: "Move it out of the records. If you keep records in it, save it as a new workbook in your spreadsheet program."}
	case errors.Is(err, errTooBig):
		return tooBig(name, fmt.Sprintf("This workbook unpacks to over %d MB, or has more than %d rows or %d columns in a "+
			"sheet or %d million cells: far above any shop's records.",
			unzipBytesMax>>20, sheetRowsMax, sheetColsMax, sheetCellsMax/1_000_000), "Take out what is not "+
			"records, or split it "+
			"into several files.")
	case errors.Is(err, errTooLong):
		return fault.Problem{Code: fault.CodeCellTooLong, Place: fault.Place{File: name},
			Why: fmt.Sprintf("A cell in this workbook holds more text than a cell of a spreadsheet can, %d letters.",
				cellLettersMax),
			Fix: "Shorten the text, or take it out."}
	}
	return notRead(name, "This workbook is damaged or only half there.", saveAgain)
}

// newWorkbook lists the parts of a workbook; nil where it is no zip file.
func newWorkbook(f File) *workbook {
	z, err := zip.NewReader(bytes.NewReader(f.Bytes), int64(len(f.Bytes)))
	if err != nil {
		return nil
	}
	w := &workbook{file: f.Name, parts: map[string]*zip.File{}, struckTexts: map[int]markKind{}}
	for _, part := range z.File {
		w.parts[partKey(part.Name)] = part
	}
	w.main = w.mainPart()
	return w
}

// readWorkbook reads all sheets of a workbook that have cells, in its order.
// Single cells that are too long are among the problems.
func readWorkbook(f File, problems *fault.List) ([]*Sheet, error) {
	w := newWorkbook(f)
	if w == nil {
		return nil, errDamaged
	}
	switch {
	case w.parts["mimetype"] != nil:
		return nil, otherBookError(".ods")
	case w.parts["xl/workbook.bin"] != nil:
		return nil, otherBookError(".xlsb")
	case w.parts["index/document.iwa"] != nil, w.parts["index.zip"] != nil:
		return nil, otherBookError(".numbers")
	case w.parts[w.main] == nil:
		return nil, errNoBook
	}
	if err := w.walk(); err != nil {
		return nil, err
	}
	if w.isOwnReport() {
		return nil, errOwn
	}
	var sheets []*Sheet
	for _, s := range w.sheets {
		problems.Join(s.long)
		sheets = append(sheets, s.sheet)
	}
	return sheets, nil
}

// partKey is a part's name for comparing: some programs part folders by \.
func partKey(name string) string {
	return strings.TrimPrefix(strings.ToLower(strings.ReplaceAll(name, `\`, "/")), "/")
}

// mainPart is the list of sheets, by the list of links at the top.
func (w *workbook) mainPart() string {
	links, err := w.links("_rels/.rels", "")
	if err == nil {
		for _, l := range links {
			if path.Base(l.Type) == "officeDocument" {
				return l.part
			}
		}
	}
	return "xl/workbook.xml"
}

// walk reads all parts that cells come from: the list of sheets, the links to
// them, the formats and texts that cells refer to, the sheets.
func (w *workbook) walk() error {
	links, err := w.links(path.Join(path.Dir(w.main), "_rels", path.Base(w.main)+".rels"), path.Dir(w.main))
	if err != nil {
		return err
	}
	if err := w.unpackedSize(links); err != nil {
		return err
	}
	if err := w.sheetList(links); err != nil {
		return err
	}
	for _, l := range links {
		switch path.Base(l.Type) {
		case "styles":
			err = w.readStyles(l.part)
		case "sharedStrings":
			err = w.read(l.part, (&textList{book: w}).token)
		}
		if err != nil {
			return err
		}
	}
	return w.readSheets()
}

// readSheets reads the sheets side by side. Of several errors the one of the first
// sheet is told; that the workbook is too big goes before others, since it shows
// in whichever sheet comes to the limit.
func (w *workbook) readSheets() error {
	errs := make([]error, len(w.sheets))
	atonce.Each(len(w.sheets), func(i int) {
		s := w.sheets[i]
		s.sheet.styles, s.sheet.is1904 = w.styles, w.is1904
		errs[i] = w.read(s.part, s.token)
	})
	if slices.ContainsFunc(errs, func(err error) bool { return errors.Is(err, errTooBig) }) {
		return errTooBig
	}
	return cmp.Or(errs...)
}

// appPart is the part of a workbook that says which program wrote it.
const appPart = "docprops/app.xml"

// ownApplication is how the workbooks of the packs name it.
const ownApplication = "piecebook"

// isOwnReport says that piecebook wrote a workbook as part of a pack.
func (w *workbook) isOwnReport() bool {
	if w.parts[appPart] == nil {
		return false
	}
	name, within := "", false
	err := w.read(appPart, func(t xml.Token) error {
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

// unpackedSize holds the parts that are read to the limit by what they claim;
// what is read beyond a claim is an error of its own.
func (w *workbook) unpackedSize(links []link) error {
	total := uint64(0)
	for _, l := range links {
		if part := w.parts[l.part]; part != nil && slices.Contains([]string{"worksheet", "sharedStrings", "styles"},
			path.Base(l.Type)) {
			total += min(part.UncompressedSize64, unzipBytesMax+1)
		}
	}
	if total > unzipBytesMax || w.parts[w.main].UncompressedSize64 > listBytesMax {
		return errTooBig
	}
	return nil
}

// sheetList reads the list of sheets; those that are charts and the like have
// no cells.
func (w *workbook) sheetList(links []link) error {
	found := false
	err := w.read(w.main, func(t xml.Token) error {
		e, is := t.(xml.StartElement)
		if is && e.Name.Local == "workbookPr" {
			w.is1904 = isOn(attribute(e, "date1904"))
		}
		if !is || e.Name.Local != "sheet" {
			return nil
		}
		found = true
		at := slices.IndexFunc(links, func(l link) bool { return l.ID == attribute(e, "id") })
		switch {
		case at < 0, len(w.sheets) > sheetsMax:
			return errDamaged
		case slices.ContainsFunc(w.sheets, func(s *sheetPart) bool { return s.part == links[at].part }):
			return errDamaged // one part cannot be two sheets
		case path.Base(links[at].Type) == "worksheet":
			name, state := attribute(e, "name"), attribute(e, "state")
			s := &Sheet{File: w.file, Name: name, Known: name, InBook: true, Hidden: state != "" && state != "visible"}
			w.sheets = append(w.sheets, &sheetPart{book: w, sheet: s, part: links[at].part})
		}
		return nil
	})
	if err == nil && !found {
		err = errDamaged
	}
	return err
}

// textList reads the list of texts. A text may be in pieces of different looks,
// and have its sound written beside it (rPh), which is no part of it.
type textList struct {
	book   *workbook
	text   []byte
	inText bool
	sound  bool
	runs   struckRuns
}

func (l *textList) token(t xml.Token) error {
	switch e := t.(type) {
	case xml.StartElement:
		switch e.Name.Local {
		case "si":
			l.text, l.runs = l.text[:0], struckRuns{}
		case "rPh":
			l.sound = true
		case "t":
			l.inText = !l.sound
		}
		l.runs.start(e)
	case xml.EndElement:
		switch e.Name.Local {
		case "si":
			if mark := l.runs.mark(); mark != 0 {
				l.book.struckTexts[len(l.book.texts)] = mark
			}
			l.book.texts = append(l.book.texts, unescaped(l.text))
			if len(l.book.texts) > sheetCellsMax {
				return errTooBig
			}
		case "rPh":
			l.sound = false
		case "t":
			l.inText = false
		}
	case xml.CharData:
		if l.inText {
			l.text = l.runs.joined(l.text, e)
		}
	}
	return nil
}

// escapedLetter is a letter that XML cannot hold, by its number in hexadecimal
// digits (ECMA-376 part 1, 22.9.2.19, ST_Xstring).
var escapedLetter = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

// unescaped is a text with such letters put back.
func unescaped(text []byte) string {
	if !bytes.Contains(text, []byte("_x")) {
		return string(text)
	}
	return escapedLetter.ReplaceAllStringFunc(string(text), func(s string) string {
		n, err := strconv.ParseUint(s[2:6], 16, 16)
		if err != nil {
			return s
		}
		return string(rune(n))
	})
}
