// Package photo makes a picture of the books folder ready to print: upright,
// small, and encoded again, so that the same file gives the same bytes. It
// opens nothing but what the folder's file system lets it.
package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"path"
	"strings"

	"golang.org/x/image/draw"

	"piecebook/ledger/plainfile"
)

// What is read at most, so that a picture cannot use up the machine: a decoded
// pixel is up to 8 bytes.
const (
	mostBytes  = 40 << 20
	mostPixels = 40_000_000
)

// size is how large a photo is at most, in pixels, and how finely it is encoded.
type size struct{ wide, high, quality int }

// printed is some 290 to the inch at the size photos have on a sheet; small is
// for a page on a screen that has many of them in one file.
var (
	printed = size{720, 480, 82}
	small   = size{160, 120, 55}
)

// Picture is a photo ready to print.
type Picture struct {
	JPEG          []byte
	Width, Height int // in pixels
}

// Ready reads and prepares the named JPEG or PNG file of the books folder. An
// error is a sentence for the owner: what is wrong and what to do.
func Ready(folder fs.FS, name string) (Picture, error) { return ready(folder, name, printed) }

// Small is Ready for a screen: a quarter as wide and high.
func Small(folder fs.FS, name string) (Picture, error) { return ready(folder, name, small) }

func ready(folder fs.FS, name string, most size) (Picture, error) {
	clean, err := within(name)
	if err != nil {
		return Picture{}, err
	}
	raw, err := read(folder, clean, name)
	if err != nil {
		return Picture{}, err
	}
	img, err := decode(raw, name)
	if err != nil {
		return Picture{}, err
	}
	img = fitted(img, orientation(raw), most)
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: most.quality}); err != nil {
		return Picture{}, fmt.Errorf("%s cannot be made ready to print: %w", name, err)
	}
	return Picture{out.Bytes(), img.Bounds().Dx(), img.Bounds().Dy()}, nil
}

// within is a name as typed, as a path inside the folder.
func within(name string) (string, error) {
	clean := path.Clean(strings.ReplaceAll(strings.TrimSpace(name), `\`, "/"))
	if !fs.ValidPath(clean) || clean == "." || strings.Contains(clean, ":") {
		return "", fmt.Errorf("%s is not a place in the books folder. Put the picture there and type its name, as in "+
			"photos/P012 before.jpg", name)
	}
	return clean, nil
}

func read(folder fs.FS, clean, name string) ([]byte, error) {
	raw, err := plainfile.Read(folder, clean, mostBytes)
	var big *plainfile.TooBigError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s is not in the books folder. Put it there, or correct the name", name)
	case errors.As(err, &big):
		return nil, fmt.Errorf("%s is larger than %d MB. Save it smaller", name, mostBytes>>20)
	case errors.Is(err, plainfile.ErrLink):
		return nil, fmt.Errorf("%s cannot be opened. It must be a file in the books folder, not a link to elsewhere", name)
	case err != nil:
		return nil, fmt.Errorf("%s cannot be read. Save it again", name)
	}
	return raw, nil
}

// decode reads a JPEG or PNG by its first bytes, whatever its name says.
func decode(raw []byte, name string) (image.Image, error) {
	var size func(io.Reader) (image.Config, error)
	var pixels func(io.Reader) (image.Image, error)
	switch {
	case bytes.HasPrefix(raw, []byte{0xFF, 0xD8, 0xFF}):
		size, pixels = jpeg.DecodeConfig, jpeg.Decode
	case bytes.HasPrefix(raw, []byte("\x89PNG\r\n\x1a\n")):
		size, pixels = png.DecodeConfig, png.Decode
	default:
		return nil, fmt.Errorf("%s is neither a JPEG nor a PNG picture. Save it as one of them", name)
	}
	c, err := size(bytes.NewReader(raw))
	if err != nil {
		return nil, fmt.Errorf("%s is damaged and cannot be read as a picture. Save it again", name)
	}
	// Told by the head alone, before any pixel is made room for.
	if c.Width <= 0 || c.Height <= 0 || int64(c.Width)*int64(c.Height) > mostPixels {
		return nil, fmt.Errorf("%s has %d by %d pixels, more than is read (%d million). Save it smaller", name, c.Width,
			c.Height, mostPixels/1_000_000)
	}
	img, err := pixels(bytes.NewReader(raw))
	if err != nil {
		return nil, fmt.Errorf("%s is damaged and cannot be read as a picture. Save it again", name)
	}
	return img, nil
}

// fitted is the picture upright, on white where it is see-through, no larger
// than is printed. It is made small first, so that turning costs little.
func fitted(img image.Image, turn int, most size) image.Image {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	wide, high := most.wide, most.high
	if turn >= 5 { // lies on its side
		wide, high = most.high, most.wide
	}
	scale := min(1, float64(wide)/float64(w), float64(high)/float64(h))
	width, height := max(1, int(float64(w)*scale+0.5)), max(1, int(float64(h)*scale+0.5))
	if w > thrice*width && h > thrice*height {
		img = scaled(draw.ApproxBiLinear, img, thrice*width, thrice*height)
	}
	return turned(scaled(draw.CatmullRom, img, width, height), turn)
}

// thrice is how many times larger a big photo is made before the fine scaling:
// the quick one takes single pixels, and nine of them to one even that out.
const thrice = 3

// scaled is a picture at another size, on white.
func scaled(s draw.Scaler, img image.Image, w, h int) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	s.Scale(out, out.Bounds(), img, img.Bounds(), draw.Over, nil)
	return out
}

// turned sets a picture upright as an orientation of 1 to 8 asks.
func turned(img *image.RGBA, turn int) *image.RGBA {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	outW, outH := w, h
	if turn >= 5 {
		outW, outH = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, outW, outH))
	for y := range outH {
		for x := range outW {
			out.SetRGBA(x, y, img.RGBAAt(from(turn, x, y, w, h)))
		}
	}
	return out
}

// from is the pixel of a stored picture of w by h that stands at x, y when it
// is upright. The eight cases are those of the orientation tag: where the
// stored first row and first column are to be.
func from(turn, x, y, w, h int) (int, int) {
	switch turn {
	case 2: // row top, column right
		return w - 1 - x, y
	case 3: // bottom, right
		return w - 1 - x, h - 1 - y
	case 4: // bottom, left
		return x, h - 1 - y
	case 5: // left, top
		return y, x
	case 6: // right, top
		return y, h - 1 - x
	case 7: // right, bottom
		return w - 1 - y, h - 1 - x
	case 8: // left, bottom
		return w - 1 - y, x
	}
	return x, y
}
