package sheets

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"golang.org/x/text/encoding/htmlindex"
)

// link is a line of a list of links: what a part is and where it lies.
type link struct {
	ID   string
	Type string
	part string // by its key
}

// links reads a list of links; a target that begins with / is from the top.
func (w *workbook) links(name, folder string) ([]link, error) {
	var links []link
	if part := w.parts[partKey(name)]; part != nil && part.UncompressedSize64 > listBytesMax {
		return nil, errTooBig
	}
	err := w.read(partKey(name), func(t xml.Token) error {
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

// read goes through a part to its end, which checks its form and its check
// sum, and hands over what it finds. A part without any element is damaged.
func (w *workbook) read(name string, each func(xml.Token) error) error {
	part := w.parts[name]
	if part == nil {
		return fmt.Errorf("%s: %w", name, errDamaged)
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
	elements := 0
	var open []xml.Name
	for {
		// Names need not be put into their spaces, which takes as long again.
		token, err := d.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return err
		}
		g.run = 0
		switch e := token.(type) {
		case xml.StartElement:
			open = append(open, e.Name)
			if elements++; elements%elementsStep == 0 && w.elements.Add(elementsStep) > elementsMax {
				return errTooBig
			}
		case xml.EndElement:
			last := len(open) - 1
			if last < 0 || open[last] != e.Name {
				return errDamaged
			}
			open = open[:last]
		}
		if len(open) > depthMax {
			return errDamaged
		}
		if err := each(token); err != nil {
			return err
		}
	}
	if elements == 0 || len(open) > 0 {
		return fmt.Errorf("%s: %w", name, io.ErrUnexpectedEOF)
	}
	return nil
}
