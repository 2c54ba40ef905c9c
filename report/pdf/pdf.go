// Package pdf renders a page.Document as a PDF file. It is the only room that
// knows the PDF library.
//
// The way is: blocks become strips (a line of words, a row of a table) with
// everything on them measured and placed; strips are put on pages, which
// says how many there are; then the pages are painted. Nothing is drawn before
// its room is known, so nothing can fall on its neighbour.
package pdf

import (
	"io"

	"piecebook/report/page"
)

// Write lays out d and writes it to w. The same document gives the same bytes.
func Write(w io.Writer, d page.Document) error { return write(w, d, true) }

// write is Write; tests read uncompressed files back.
func write(w io.Writer, d page.Document, compress bool) error {
	canvas, err := newCanvas(d, compress)
	if err != nil {
		return err
	}
	l := layout{faces: canvas.faces, sheet: sheetOf(d.Paper), sign: page.Sign(d.Currency)}
	pages := paginate(l.document(d), l.sheet.bodyHeight())
	canvas.paint(d, l.sheet, pages)
	return canvas.output(w)
}
