// Package pdf renders a page.Document as a PDF file. It is the only room that
// knows the PDF library.
//
// The way is: blocks become strips (a line of words, a row of a table) with
// everything on them measured and placed; strips are put on pages, which
// says how many there are; then the pages are painted. Nothing is drawn before
// its room is known, so nothing can fall on its neighbor. A third of the room are
// tests, which read the finished files back.
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
	strips := l.document(d)
	d.Sections = nil // each is dropped when its strips are made
	pages := paginate(strips, l.sheet.bodyHeight())
	if err := canvas.paint(d, l.sheet, pages); err != nil {
		return err
	}
	return canvas.output(w)
}

// mm is a millimetre in points, the unit everything here is measured in.
const mm = 72 / 25.4

// The sizes and line pitches of the page.
const (
	bodySize, bodyPitch   = 9.0, 12.0
	tableSize, tablePitch = 8.5, 11.5
	noteSize, notePitch   = 8.5, 10.5
	refSize, refPitch     = 7.5, 9.5 // record references, the smallest type
	leadSize, leadPitch   = 11.0, 15.0
	headSize              = 10.0
	titleSize             = 17.0
	keyFigureSize         = 24.0
	keyFigureSizeMin      = 11.0
	columnGap             = 8.0    // between the columns of a table
	gridGutter            = 4 * mm // between the six columns of the page
	hairline              = 0.4
	rule                  = 0.7
)

// ink is a colour. All inks for words are at least 7:1 on white.
type ink struct{ r, g, b uint8 }

var (
	black  = ink{20, 20, 20}
	accent = ink{23, 55, 94}
	grey   = ink{80, 80, 80}
)

// rgb is the ink as the PDF library takes it.
func (i ink) rgb() (r, g, b int) { return int(i.r), int(i.g), int(i.b) }

// sheet is the paper with its margins, in points from its upper left corner.
type sheet struct {
	name               string // as the PDF library calls it
	width, height      float64
	left, right        float64 // edges of the body
	top, bottom        float64
	headLine, footLine float64 // baselines of the running head and foot
}

// sheetOf gives margins such that Letter prints on A4 and back (RFC 2346):
// A4 is narrower, so both keep 21 mm at the sides; Letter is shorter, so A4
// keeps its top and bottom free.
func sheetOf(p page.Paper) sheet {
	s := sheet{name: "Letter", width: 215.9 * mm, height: 279.4 * mm, left: 21 * mm, top: 21 * mm, headLine: 14 * mm}
	foot, bottom := 12*mm, 19*mm
	if p == page.A4 {
		s.name, s.width, s.height = "A4", 210*mm, 297*mm
		s.top, s.headLine = 30*mm, 23*mm
		foot, bottom = 21*mm, 28*mm
	}
	s.right = s.width - s.left
	s.bottom, s.footLine = s.height-bottom, s.height-foot
	return s
}

func (s sheet) bodyWidth() float64  { return s.right - s.left }
func (s sheet) bodyHeight() float64 { return s.bottom - s.top }

// span is the width of n of the six columns that share the given width.
func span(width float64, n int) float64 {
	one := (width - 5*gridGutter) / 6
	return float64(n)*one + float64(n-1)*gridGutter
}
