package photo

import (
	"encoding/binary"
	"flag"
	"image"
	"image/color"
	"image/draw"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "draw the sample shop's photos again")

// sampleDir holds the sample shop's photos: drawings, made here, of no piece
// there ever was.
var sampleDir = filepath.Join("..", "..", "sample", "photos")

// easel paints rectangles of a small picture.
type easel struct{ *image.RGBA }

func (e easel) fill(x, y, w, h int, c color.RGBA) {
	draw.Draw(e, image.Rect(x, y, x+w, y+h), image.NewUniform(c), image.Point{}, draw.Src)
}

// framed fills a rectangle and its edges darker.
func (e easel) framed(x, y, w, h int, c color.RGBA) {
	dark := color.RGBA{c.R / 2, c.G / 2, c.B / 2, 255}
	e.fill(x, y, w, h, dark)
	e.fill(x+2, y+2, w-4, h-4, c)
}

// look is how a piece stands in its picture.
type look struct {
	wall, floor, wood, drawer, pull color.RGBA
	worn                            bool
}

// tallboy is a chest on feet with five rows of drawers; worn, it has lost a
// foot and a pull and is scratched, and stands on a brick.
func tallboy(l look) *image.RGBA {
	e := easel{image.NewRGBA(image.Rect(0, 0, 360, 300))}
	e.fill(0, 0, 360, 300, l.wall)
	e.fill(0, 240, 360, 60, l.floor)
	e.framed(100, 34, 160, 206, l.wood)
	e.framed(92, 26, 176, 12, l.wood)
	for row := range 5 {
		y := 44 + row*39
		split := 1
		if row == 0 {
			split = 2
		}
		wide := 148 / split
		for i := range split {
			x := 106 + i*wide
			drop := 0
			if l.worn && row == 2 {
				drop = 4 // it hangs open
			}
			e.framed(x+1, y+drop, wide-2, 34, l.drawer)
			for _, at := range []int{wide / 4, 3 * wide / 4} {
				if split == 2 {
					at = wide / 2
				}
				if l.worn && row == 3 && at > wide/2 {
					continue // lost
				}
				e.framed(x+at-8, y+drop+13, 16, 8, l.pull)
			}
		}
	}
	e.framed(104, 240, 16, 18, l.wood)
	if l.worn {
		e.framed(232, 242, 30, 16, color.RGBA{168, 74, 52, 255})
		for i := range 60 {
			e.fill(130+i, 96+i/3, 2, 1, color.RGBA{70, 52, 38, 255})
			e.fill(238-i/2, 170+i/2, 1, 2, color.RGBA{205, 190, 168, 255})
		}
	} else {
		e.framed(240, 240, 16, 18, l.wood)
	}
	return e.RGBA
}

var (
	wornLook = look{color.RGBA{206, 204, 198, 255}, color.RGBA{150, 146, 138, 255}, color.RGBA{122, 98, 74, 255},
		color.RGBA{134, 110, 86, 255}, color.RGBA{96, 92, 84, 255}, true}
	doneLook = look{color.RGBA{228, 230, 226, 255}, color.RGBA{186, 170, 146, 255}, color.RGBA{158, 104, 56, 255},
		color.RGBA{178, 122, 68, 255}, color.RGBA{206, 172, 84, 255}, false}
)

// TestSamplePhotos: the sample's pictures are those drawn here, one of them
// stored as a camera held on its side stores it, and all come out upright.
func TestSamplePhotos(t *testing.T) {
	files := map[string][]byte{
		"153 before.jpg": asJPEG(t, stored(tallboy(wornLook), 6), exifOf(binary.BigEndian, 6)),
		"153 after.jpg":  asJPEG(t, tallboy(doneLook), nil),
	}
	if *update {
		require.NoError(t, os.MkdirAll(sampleDir, 0o755))
		for name, data := range files {
			require.NoError(t, os.WriteFile(filepath.Join(sampleDir, name), data, 0o644))
		}
	}
	for name := range files {
		got, err := Ready(os.DirFS(sampleDir), name)
		require.NoError(t, err)
		assert.Equal(t, [2]int{360, 300}, [2]int{got.Width, got.Height}, name)
		info, err := os.Stat(filepath.Join(sampleDir, name))
		require.NoError(t, err)
		assert.Less(t, info.Size(), int64(40_000), name)
	}
	raw, err := os.ReadFile(filepath.Join(sampleDir, "153 before.jpg"))
	require.NoError(t, err)
	assert.Equal(t, 6, orientation(raw))
}
