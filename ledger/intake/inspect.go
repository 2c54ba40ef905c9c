package intake

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"golang.org/x/text/encoding/htmlindex"
)

// damagedBook is what is told of a workbook that cannot be trusted.
const damagedBook = "This workbook is damaged or only half there."

// inspection walks the parts of a workbook. The library that reads the cells
// is silent about a part that ends early, is missing, or fails its check sum,
// and gives the rows before the damage: so every part that cells come from is
// read through here first, and a workbook is read whole or not at all. What
// the library does not tell of a sheet (hidden, merged, what kind each cell
// is) is noted on the way.
type inspection struct {
	parts  map[string]*zip.File // by name in small letters
	main   string               // the list of sheets
	styles []style              // how cells are shown
	texts  string               // the part that lists texts
	sheets []*sheetFacts        // those with cells, in the workbook's order
	cells  int                  // filled ones
	listed int                  // texts in the list of texts
	needed int                  // texts the cells need the list to have
}

// inspect walks a workbook; why says why it cannot be read, nothing where it can.
func inspect(b []byte) (in *inspection, why string) {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return nil, damagedBook
	}
	in = &inspection{parts: map[string]*zip.File{}}
	for _, part := range z.File {
		in.parts[partKey(part.Name)] = part
	}
	in.main = in.mainPart()
	switch {
	case in.parts["mimetype"] != nil:
		return nil, "This is a workbook of the .ods kind."
	case in.parts["xl/workbook.bin"] != nil:
		return nil, "This is a workbook of the .xlsb kind."
	case in.parts["index/document.iwa"] != nil, in.parts["index.zip"] != nil:
		return nil, "This is a workbook of the .numbers kind."
	case in.parts[in.main] == nil:
		return nil, "This file is no workbook."
	}
	err = in.walk()
	switch {
	case errors.Is(err, errTooBig):
		return nil, fmt.Sprintf("This workbook unpacks to over %d MB, or has more than %d rows or %d columns in a sheet or %d million cells: far above any shop's records.",
			unzipBytesMax>>20, sheetRowsMax, sheetColsMax, sheetCellsMax/1_000_000)
	case errors.Is(err, errTooLong):
		return nil, fmt.Sprintf("A cell in this workbook holds more text than a cell of a spreadsheet can, %d letters.", cellLettersMax)
	case err != nil:
		return nil, damagedBook
	}
	return in, ""
}

// partKey is a part's name for comparing: some programs part folders by \.
func partKey(name string) string {
	return strings.TrimPrefix(strings.ToLower(strings.ReplaceAll(name, `\`, "/")), "/")
}

var (
	errMissing = errors.New("a part names what is not there") // or is no XML of its kind
	errTooBig  = errors.New("beyond the limits")
	errTooLong = errors.New("a text beyond the limits")
)

// mainPart is the list of sheets, by the list of links at the top.
func (in *inspection) mainPart() string {
	links, err := in.links("_rels/.rels", "")
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
// them, the formats, the sheets, and the texts where a cell refers to them.
func (in *inspection) walk() error {
	links, err := in.links(path.Join(path.Dir(in.main), "_rels", path.Base(in.main)+".rels"), path.Dir(in.main))
	if err != nil {
		return err
	}
	if err := in.unpackedSize(links); err != nil {
		return err
	}
	listed, err := in.sheetList(links)
	if err != nil {
		return err
	}
	for _, l := range links {
		switch path.Base(l.Type) {
		case "styles":
			err = in.readStyles(l.part)
		case "sharedStrings":
			in.texts = l.part
			err = in.read(l.part, in.text)
		}
		if err != nil {
			return err
		}
	}
	for _, f := range listed {
		w := &sheetWalk{in: in, facts: f}
		if err := in.read(f.part, w.token); err != nil {
			return err
		}
	}
	in.sheets = listed
	if in.needed > in.listed {
		return errMissing
	}
	return nil
}

// unpackedSize holds the parts that are read to the limit by what they claim;
// what is read beyond a claim is an error of its own.
func (in *inspection) unpackedSize(links []link) error {
	total := uint64(0)
	for _, l := range links {
		if part := in.parts[l.part]; part != nil && slices.Contains([]string{"worksheet", "sharedStrings", "styles"}, path.Base(l.Type)) {
			total += min(part.UncompressedSize64, unzipBytesMax+1)
		}
	}
	if total > unzipBytesMax || in.parts[in.main].UncompressedSize64 > listBytesMax {
		return errTooBig
	}
	return nil
}

// sheetList reads the list of sheets; those that are charts and the like have
// no cells.
func (in *inspection) sheetList(links []link) (sheets []*sheetFacts, err error) {
	any := false
	err = in.read(in.main, func(t xml.Token) error {
		e, is := t.(xml.StartElement)
		if !is || e.Name.Local != "sheet" {
			return nil
		}
		any = true
		f := &sheetFacts{marks: map[int][]mark{}}

		for _, a := range e.Attr {
			switch a.Name.Local {
			case "name":
				f.name = a.Value
			case "id":
				f.id = a.Value
			case "state":
				f.hidden = a.Value != "visible"
			}
		}
		at := slices.IndexFunc(links, func(l link) bool { return l.ID == f.id })
		switch {
		case at < 0:
			return errMissing
		case slices.ContainsFunc(sheets, func(s *sheetFacts) bool { return s.part == links[at].part }), len(sheets) > sheetsMax:
			return errMissing // one part cannot be two sheets
		case path.Base(links[at].Type) == "worksheet":
			f.part = links[at].part
			sheets = append(sheets, f)
		}
		return nil
	})
	if err == nil && !any {
		err = errMissing
	}
	return sheets, err
}

// link is a line of a list of links: what a part is and where it lies.
type link struct {
	ID   string
	Type string
	part string // by its key
}

// links reads a list of links; a target that begins with / is from the top.
func (in *inspection) links(name, folder string) ([]link, error) {
	var links []link
	if part := in.parts[partKey(name)]; part != nil && part.UncompressedSize64 > listBytesMax {
		return nil, errTooBig
	}
	err := in.read(partKey(name), func(t xml.Token) error {
		e, is := t.(xml.StartElement)
		if !is || e.Name.Local != "Relationship" {
			return nil
		}
		var l link
		for _, a := range e.Attr {
			switch a.Name.Local {
			case "Id":
				l.ID = a.Value
			case "Type":
				l.Type = a.Value
			case "Target":
				target := strings.ReplaceAll(a.Value, `\`, "/")
				if !strings.HasPrefix(target, "/") {
					target = folder + "/" + target
				}
				l.part = partKey(path.Clean("/" + target))
			}
		}
		links = append(links, l)
		return nil
	})
	return links, err
}

// text counts the list of texts.
func (in *inspection) text(t xml.Token) error {
	if e, is := t.(xml.StartElement); is && e.Name.Local == "si" {
		in.listed++
		if in.listed > sheetCellsMax {
			return errTooBig
		}
	}
	return nil
}

// guard holds what is read for one token to the limit.
type guard struct {
	from io.Reader
	run  int // bytes since the last token
}

func (g *guard) Read(p []byte) (int, error) {
	if g.run > tagBytesMax {
		return 0, errTooLong
	}
	n, err := g.from.Read(p)
	g.run += n
	return n, err
}

// depthMax is how deep elements of a workbook's parts stand within each other;
// the standard's stand under 20 deep.
const depthMax = 100

// read goes through a part to its end, which checks its form and its check
// sum, and hands over what it finds. A part without any element is damaged.
func (in *inspection) read(name string, each func(xml.Token) error) error {
	part := in.parts[name]
	if part == nil {
		return fmt.Errorf("%s: %w", name, errMissing)
	}
	from, err := part.Open()
	if err != nil {
		return err
	}
	defer from.Close()
	// The declared size may be a lie; what is over the limit is cut off.
	g := &guard{from: &io.LimitedReader{R: from, N: unzipBytesMax}}
	d := xml.NewDecoder(g)
	d.CharsetReader = func(label string, in io.Reader) (io.Reader, error) {
		e, err := htmlindex.Get(label)
		if err != nil {
			return nil, err
		}
		return e.NewDecoder().Reader(in), nil
	}
	elements, depth := 0, 0
	for {
		token, err := d.Token() // also holds each tag to its end
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		g.run = 0
		switch token.(type) {
		case xml.StartElement:
			elements++
			depth++
		case xml.EndElement:
			depth--
		}
		switch {
		case depth > depthMax:
			return errMissing
		case elements > elementsMax:
			return errTooBig
		}
		if err := each(token); err != nil {
			return err
		}
	}
	if elements == 0 {
		return fmt.Errorf("%s: %w", name, io.ErrUnexpectedEOF)
	}
	return nil
}
