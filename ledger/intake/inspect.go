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
	"strconv"
	"strings"

	"golang.org/x/text/encoding/htmlindex"
)

// damagedBook is what is told of a workbook that cannot be trusted.
const damagedBook = "This workbook is damaged or only half there."

// inspection walks the parts of a workbook. The library that reads the cells
// is silent about a part that ends early, is missing, or fails its check sum,
// and gives the rows before the damage: so every part that cells come from is
// read through here first, and a workbook is read whole or not at all.
type inspection struct {
	parts    map[string]*zip.File // by name in small letters
	formulas bool                 // some cell is a formula
	listed   int                  // texts in the list of texts
	needed   int                  // texts the cells need the list to have
	toText   bool                 // within a cell that is a number into that list
	inValue  bool                 // within the value of a cell
}

// inspect says whether any cell is a formula, and why the workbook cannot be
// read; nothing where it can.
func inspect(b []byte) (formulas bool, why string) {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return false, damagedBook
	}
	in := inspection{parts: map[string]*zip.File{}}
	total := uint64(0)
	for _, part := range z.File {
		total += min(part.UncompressedSize64, unzipBytesMax+1)
		in.parts[strings.ToLower(part.Name)] = part
	}
	switch {
	case in.parts["mimetype"] != nil:
		return false, "This is a workbook of the .ods kind."
	case in.parts["xl/workbook.bin"] != nil:
		return false, "This is a workbook of the .xlsb kind."
	case in.parts["xl/workbook.xml"] == nil:
		return false, "This file is no workbook."
	case total > unzipBytesMax:
		return false, "This workbook unpacks to over 1 GB, far above any shop's records."
	}
	if err := in.walk(); err != nil {
		return false, damagedBook
	}
	return in.formulas, ""
}

// errMissing is a part that another one names and that is not there.
var errMissing = errors.New("a part is missing")

// walk reads all parts that cells come from: the list of sheets, the links to
// them, the sheets, the formats, and the texts where a cell refers to them.
func (in *inspection) walk() error {
	links, err := in.links()
	if err != nil {
		return err
	}
	linked := map[string]bool{}
	for _, l := range links {
		linked[l.ID] = true
	}
	err = in.read("xl/workbook.xml", func(t xml.Token) error {
		e, is := t.(xml.StartElement)
		if !is || e.Name.Local != "sheet" {
			return nil
		}
		for _, a := range e.Attr {
			if a.Name.Local == "id" && !linked[a.Value] {
				return errMissing
			}
		}
		return nil
	})
	for _, l := range links {
		kind := path.Base(l.Type)
		switch {
		case err != nil:
			return err
		case kind == "worksheet":
			err = in.read(l.part(), in.cell)
		case kind == "sharedStrings":
			err = in.read(l.part(), in.text)
		case kind == "styles":
			err = in.read(l.part(), func(xml.Token) error { return nil })
		}
	}
	if err == nil && in.needed > in.listed {
		return errMissing
	}
	return err
}

// link is a line of the list of links: what a part is and where it lies.
type link struct {
	ID     string
	Type   string
	Target string
}

// part is the linked part's name; one that begins with / is from the top.
func (l link) part() string {
	if strings.HasPrefix(l.Target, "/") {
		return path.Clean(l.Target[1:])
	}
	return path.Join("xl", l.Target)
}

// links reads the list of links.
func (in *inspection) links() ([]link, error) {
	var links []link
	err := in.read("xl/_rels/workbook.xml.rels", func(t xml.Token) error {
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
				l.Target = a.Value
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
	}
	return nil
}

// cell notes what a sheet's cells are and need.
func (in *inspection) cell(t xml.Token) error {
	switch e := t.(type) {
	case xml.StartElement:
		switch e.Name.Local {
		case "f":
			in.formulas = true
		case "v":
			in.inValue = true
		case "c":
			in.toText = slices.ContainsFunc(e.Attr, func(a xml.Attr) bool { return a.Name.Local == "t" && a.Value == "s" })
		}
	case xml.EndElement:
		in.inValue = false
	case xml.CharData:
		if in.toText && in.inValue {
			n, err := strconv.Atoi(strings.TrimSpace(string(e)))
			if err != nil || n < 0 {
				return errMissing
			}
			in.needed = max(in.needed, n+1)
		}
	}
	return nil
}

// read goes through a part to its end, which checks its form and its check
// sum, and hands over what it finds. A part without any element is damaged.
func (in *inspection) read(name string, each func(xml.Token) error) error {
	part := in.parts[strings.ToLower(name)]
	if part == nil {
		return fmt.Errorf("%s: %w", name, errMissing)
	}
	from, err := part.Open()
	if err != nil {
		return err
	}
	defer from.Close()
	// The declared size may be a lie; one byte over the limit is an error.
	limited := &io.LimitedReader{R: from, N: unzipBytesMax}
	d := xml.NewDecoder(limited)
	d.CharsetReader = func(label string, in io.Reader) (io.Reader, error) {
		e, err := htmlindex.Get(label)
		if err != nil {
			return nil, err
		}
		return e.NewDecoder().Reader(in), nil
	}
	some := false
	for {
		token, err := d.Token() // also holds each tag to its end
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		if _, is := token.(xml.StartElement); is {
			some = true
		}
		if err := each(token); err != nil {
			return err
		}
	}
	if !some {
		return fmt.Errorf("%s: %w", name, io.ErrUnexpectedEOF)
	}
	return nil
}
