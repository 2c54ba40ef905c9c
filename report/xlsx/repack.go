// Package xlsx writes workbooks whose bytes depend on nothing but what is in
// them.
package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
)

// contentTypes is the part whose elements the workbook library writes in no
// fixed order.
const contentTypes = "[Content_Types].xml"

var contentType = regexp.MustCompile(`<(Default|Override) [^>]*?(/>|></(Default|Override)>)`)

// Repack gives a workbook's parts in the order of their names, and the list of
// content types in the order of its text: the library's own order changes from
// run to run. Parts are copied as they are compressed.
func Repack(book []byte) ([]byte, error) {
	var out bytes.Buffer
	err := repack(&out, book, nil)
	return out.Bytes(), err
}

// repack is Repack; rows of sheets without any are put into them, by their parts'
// names.
func repack(to io.Writer, book []byte, rows map[string]*packed) error {
	in, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		return fmt.Errorf("reading the workbook just written: %w", err)
	}
	files := slices.Clone(in.File)
	slices.SortFunc(files, func(a, b *zip.File) int { return strings.Compare(a.Name, b.Name) })
	w := zip.NewWriter(to)
	for _, f := range files {
		switch {
		case rows[f.Name] != nil:
			err = fill(w, f, rows[f.Name])
		case f.Name == contentTypes:
			err = copyTypes(w, f)
		default:
			err = w.Copy(f)
		}
		if err != nil {
			return fmt.Errorf("repacking %s: %w", f.Name, err)
		}
	}
	if err := w.Close(); err != nil {
		return fmt.Errorf("repacking the workbook: %w", err)
	}
	return nil
}

// copyTypes copies the list of content types, its elements sorted.
func copyTypes(w *zip.Writer, f *zip.File) error {
	from, err := f.Open()
	if err != nil {
		return err
	}
	text, err := io.ReadAll(from)
	if err != nil {
		return err
	}
	elements := contentType.FindAllString(string(text), -1)
	if len(elements) > 0 {
		at := contentType.FindAllStringIndex(string(text), -1)
		slices.Sort(elements)
		text = []byte(string(text[:at[0][0]]) + strings.Join(elements, "") + string(text[at[len(at)-1][1]:]))
	}
	to, err := w.Create(f.Name)
	if err != nil {
		return err
	}
	_, err = to.Write(text)
	return err
}
