package photo

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// quarters is a picture of 64 by 32 whose quarters differ, as it is to be seen
// upright: red, green above blue, white.
func quarters() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 64, 32))
	for y := range 32 {
		for x := range 64 {
			img.SetRGBA(x, y, [2][2]color.RGBA{{{255, 0, 0, 255}, {0, 255, 0, 255}},
				{{0, 0, 255, 255}, {255, 255, 255, 255}}}[y/16][x/32])
		}
	}
	return img
}

// stored is the upright picture as a camera held otherwise stores it. It is
// written from the words of the standard, not from the code under test: of
// orientation n, the stored row 0 is the seen side named first, column 0 the
// seen side named second.
func stored(seen *image.RGBA, turn int) *image.RGBA {
	sides := map[int][2]string{1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
		5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"}}[turn]
	w, h := seen.Bounds().Dx(), seen.Bounds().Dy()
	outW, outH := w, h
	if turn >= 5 {
		outW, outH = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, outW, outH))
	for row := range outH {
		for column := range outW {
			x, y := 0, 0
			for i, side := range sides {
				n := []int{row, column}[i]
				switch side {
				case "top":
					y = n
				case "bottom":
					y = h - 1 - n
				case "left":
					x = n
				case "right":
					x = w - 1 - n
				}
			}
			out.SetRGBA(column, row, seen.RGBAAt(x, y))
		}
	}
	return out
}

func asJPEG(t testing.TB, img image.Image, exif []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, &jpeg.Options{Quality: 92}))
	if exif == nil {
		return b.Bytes()
	}
	segment := append([]byte{0xFF, 0xE1, 0, 0}, exif...)
	binary.BigEndian.PutUint16(segment[2:], uint16(len(exif)+2))
	return append(append([]byte{0xFF, 0xD8}, segment...), b.Bytes()[2:]...)
}

// exifOf is an Exif block with a maker's tag and the orientation.
func exifOf(order binary.ByteOrder, turn int) []byte {
	b := []byte("Exif\x00\x00")
	tiff := make([]byte, 8+2+24+4)
	copy(tiff, map[bool]string{true: "II*\x00", false: "MM\x00*"}[order == binary.LittleEndian])
	order.PutUint32(tiff[4:], 8)
	order.PutUint16(tiff[8:], 2)
	order.PutUint16(tiff[10:], 0x010F)
	order.PutUint16(tiff[12:], 2)
	order.PutUint32(tiff[14:], 4)
	order.PutUint16(tiff[22:], 0x0112)
	order.PutUint16(tiff[24:], 3)
	order.PutUint32(tiff[26:], 1)
	order.PutUint16(tiff[30:], uint16(turn))
	return append(b, tiff...)
}

// TestOrientations: each of the eight ways to hold a camera, in both byte
// orders, comes out upright (Exif 2.32, CIPA DC-008: Orientation).
func TestOrientations(t *testing.T) {
	for turn := 1; turn <= 8; turn++ {
		for _, order := range []binary.ByteOrder{binary.LittleEndian, binary.BigEndian} {
			file := asJPEG(t, stored(quarters(), turn), exifOf(order, turn))
			require.Equal(t, turn, orientation(file))
			got, err := Ready(fstest.MapFS{"p.jpg": {Data: file}}, "p.jpg")
			require.NoError(t, err)
			assert.Equal(t, [2]int{64, 32}, [2]int{got.Width, got.Height}, turn)
			img, err := jpeg.Decode(bytes.NewReader(got.JPEG))
			require.NoError(t, err)
			for _, at := range []image.Point{{8, 8}, {56, 8}, {8, 24}, {56, 24}} {
				want := quarters().RGBAAt(at.X, at.Y)
				r, g, b, _ := img.At(at.X, at.Y).RGBA()
				assert.InDeltaSlice(t, []int{int(want.R), int(want.G), int(want.B)}, []int{int(r >> 8), int(g >> 8), int(b >> 8)},
					40, "orientation %d at %v", turn, at)
			}
		}
	}
}

// TestDamagedExif: an Exif block cut anywhere gives an upright picture, and
// nothing panics.
func TestDamagedExif(t *testing.T) {
	whole := asJPEG(t, quarters(), exifOf(binary.BigEndian, 6))
	for n := range len(exifOf(binary.BigEndian, 6)) + 8 {
		got := orientation(whole[:n])
		assert.Contains(t, []int{1, 6}, got, n)
	}
	assert.Equal(t, 1, orientation(asJPEG(t, quarters(), exifOf(binary.BigEndian, 9))))
	assert.Equal(t, 1, orientation(nil))
}

// hugePNG is a picture whose head asks for more pixels than there is memory.
func hugePNG(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 4, 4))))
	raw := b.Bytes()
	binary.BigEndian.PutUint32(raw[16:], 1<<15)
	binary.BigEndian.PutUint32(raw[20:], 1<<15)
	binary.BigEndian.PutUint32(raw[29:], crc32.ChecksumIEEE(raw[12:29]))
	return raw
}

// TestRefused: what cannot be shown is said in words that say what to do.
func TestRefused(t *testing.T) {
	var g bytes.Buffer
	require.NoError(t, gif.Encode(&g, quarters(), nil))
	whole := asJPEG(t, quarters(), nil)
	folder := fstest.MapFS{"photos/huge.png": {Data: hugePNG(t)}, "photos/really.jpg": {Data: g.Bytes()},
		"photos/cut.jpg":   {Data: whole[:len(whole)/3]},
		"photos/empty.png": {}, "photos/fat.jpg": {Data: append([]byte{0xFF, 0xD8, 0xFF}, make([]byte, mostBytes)...)}}
	for name, want := range map[string]string{
		"photos/huge.png": "more than is read", "photos/really.jpg": "neither a JPEG nor a PNG", "photos/cut.jpg": "damaged", "photos/empty.png": "neither a JPEG nor a PNG",
		"photos/none.jpg": "not in the books folder", "../elsewhere.jpg": "not a place in the books folder", "/etc/passwd": "not a place in the books folder",
		`C:\photos\a.jpg`: "not a place in the books folder", "photos": "cannot be read",
		"photos/fat.jpg": "larger than 40 MB",
	} {
		_, err := Ready(folder, name)
		if assert.Error(t, err, name) {
			assert.Contains(t, err.Error(), want, name)
			assert.Contains(t, err.Error(), name)
		}
	}
	_, err := Ready(folder, `photos\none.jpg`)
	assert.ErrorContains(t, err, "not in the books folder", "a backslash is a slash")
}

// TestLinkOut: a link that leads out of the books folder is not followed.
func TestLinkOut(t *testing.T) {
	dir := t.TempDir()
	secret := filepath.Join(dir, "secret.jpg")
	require.NoError(t, os.WriteFile(secret, asJPEG(t, quarters(), nil), 0o644))
	books := filepath.Join(dir, "books")
	require.NoError(t, os.Mkdir(books, 0o755))
	if err := os.Symlink(secret, filepath.Join(books, "p.jpg")); err != nil {
		t.Skip("no links here: ", err)
	}
	root, err := os.OpenRoot(books)
	require.NoError(t, err)
	defer root.Close()
	_, err = Ready(root.FS(), "p.jpg")
	assert.ErrorContains(t, err, "not a link to elsewhere")
}

// TestSmallAndTheSame: a large photo is made small, never a small one large;
// see-through parts are white; the same file gives the same bytes.
func TestSmallAndTheSame(t *testing.T) {
	big := image.NewNRGBA(image.Rect(0, 0, 3000, 2000))
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, big))
	folder := fstest.MapFS{"b.png": {Data: b.Bytes()}, "s.jpg": {Data: asJPEG(t, quarters(), nil)}}
	one, err := Ready(folder, "b.png")
	require.NoError(t, err)
	two, err := Ready(folder, "b.png")
	require.NoError(t, err)
	assert.Equal(t, one, two)
	assert.Equal(t, "720x480", fmt.Sprintf("%dx%d", one.Width, one.Height))
	assert.Less(t, len(one.JPEG), 100_000)
	img, err := jpeg.Decode(bytes.NewReader(one.JPEG))
	require.NoError(t, err)
	r, _, _, _ := img.At(100, 100).RGBA()
	assert.Greater(t, r>>8, uint32(250), "white")
	small, err := Ready(folder, "s.jpg")
	require.NoError(t, err)
	assert.Equal(t, 64, small.Width)
}
