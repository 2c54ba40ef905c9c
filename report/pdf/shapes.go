package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"fmt"

	"github.com/jung-kurt/gofpdf"
)

// shape is what of an op is filled; none of a line and of words.
type shape uint8

const (
	noShape shape = iota
	box           // from x, y to toX, y+rise
	dot           // about x, y, with size as radius
	picture       // as box
)

// The fills of charts. Solid and pale differ in lightness alone, so grey print
// tells them apart; a pale one has an outline as well.
var (
	solid = accent
	pale  = ink{214, 222, 232}
	white = ink{255, 255, 255}
)

// boxOf is a filled box with an outline.
func boxOf(x, y, toX, toY float64, fill ink) op {
	if toX < x {
		x, toX = toX, x
	}
	if toY < y {
		y, toY = toY, y
	}
	return op{shape: box, x: x, y: y, toX: toX, rise: toY - y, fill: fill, ink: accent, thick: hairline}
}

// dotOf is a point.
func dotOf(x, y, radius float64, fill ink) op {
	return op{shape: dot, x: x, y: y, toX: x, size: radius, fill: fill, ink: accent, thick: 0.6}
}

// stroke is a line between any two points.
func stroke(x, y, toX, toY, thick float64, color ink) op {
	return op{x: x, y: y, toX: toX, rise: toY - y, thick: thick, ink: color}
}

// shape paints what is filled.
func (c *canvas) shape(o op) {
	c.pdf.SetLineWidth(o.thick)
	c.pdf.SetDrawColor(o.ink.rgb())
	c.pdf.SetFillColor(o.fill.rgb())
	switch o.shape {
	case box:
		c.pdf.Rect(o.x, o.y, o.toX-o.x, o.rise, "FD")
	case dot:
		c.pdf.Circle(o.x, o.y, o.size, "FD")
	case picture:
		c.picture(o)
	}
}

// picture places a photo. It is named by what it shows, so the same one twice
// is in the file once.
func (c *canvas) picture(o op) {
	name := fmt.Sprintf("%x", sha256.Sum256(o.jpeg))
	options := gofpdf.ImageOptions{ImageType: "JPG"}
	if c.pdf.GetImageInfo(name) == nil {
		c.pictures++
		for _, pdf := range []*gofpdf.Fpdf{c.pdf, c.file} {
			info := pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(o.jpeg))
			if pdf.Ok() {
				pdf.SetError(inOrder(info, c.pictures))
			}
		}
	}
	c.pdf.ImageOptions(name, o.x, o.y, o.toX-o.x, o.rise, false, options, 0, "")
}

// inOrder makes the library write pictures in the order they were first drawn.
// It sorts them by their width in pixels alone, and those of one width come
// out of a map as they please, so that the same document gave other bytes. The
// width is a float that is printed as a whole number, so a millionth more for
// each picture settles the order and changes nothing else. The one way to the
// field is the library's own encoding of a picture.
func inOrder(info *gofpdf.ImageInfoType, nth int) error {
	raw, err := info.GobEncode()
	if err != nil {
		return err
	}
	// The fields in the library's order; the fourth is the width.
	var data, mask, palette []byte
	var object, bits int
	var width, height, scale, dpi float64
	var colours, filter, parameters string
	var transparent []int
	fields := []any{&data, &mask, &object, &width, &height, &colours, &palette, &bits, &filter, &parameters, &transparent,
		&scale, &dpi}
	from := gob.NewDecoder(bytes.NewReader(raw))
	for _, f := range fields {
		if err := from.Decode(f); err != nil {
			return err
		}
	}
	width += float64(nth) / 1e6
	var out bytes.Buffer
	to := gob.NewEncoder(&out)
	for _, f := range fields {
		if err := to.Encode(f); err != nil {
			return err
		}
	}
	return info.GobDecode(out.Bytes())
}

// line paints a line, dashed where asked.
func (c *canvas) line(o op) {
	c.pdf.SetLineWidth(o.thick)
	c.pdf.SetDrawColor(o.ink.rgb())
	if o.dashed {
		c.pdf.SetDashPattern([]float64{3, 2}, 0)
		defer c.pdf.SetDashPattern(nil, 0)
	}
	c.pdf.Line(o.x, o.y, o.toX, o.y+o.rise)
}
