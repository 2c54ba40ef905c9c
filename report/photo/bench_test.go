package photo

import (
	"image"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// BenchmarkReady is a phone's photo of 12 million pixels.
func BenchmarkReady(b *testing.B) {
	img := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	for i := range img.Pix {
		img.Pix[i] = uint8(i * 7 / 3)
	}
	folder := fstest.MapFS{"p.jpg": {Data: asJPEG(b, img, nil)}}
	for b.Loop() {
		_, err := Ready(folder, "p.jpg")
		require.NoError(b, err)
	}
}
