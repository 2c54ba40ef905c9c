package pdf

import (
	"bytes"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/page"
)

// TestPicturesInOrder: many pictures of one width give the same bytes every
// time, in the order drawn, each with its own whole width; one shown twice is
// in the file once.
func TestPicturesInOrder(t *testing.T) {
	var blocks []page.Block
	for i := range 12 {
		photo := page.Photo{Caption: "photo " + strconv.Itoa(i), JPEG: tinyJPEG(t, 64, 40+i), Width: 64, Height: 40 + i}
		blocks = append(blocks, page.Photos{Items: []page.Photo{photo, photo}})
	}
	d := document(blocks...)
	var first bytes.Buffer
	require.NoError(t, write(&first, d, false))
	for range 20 {
		var again bytes.Buffer
		require.NoError(t, write(&again, d, false))
		require.True(t, bytes.Equal(first.Bytes(), again.Bytes()), "the same document gave other bytes")
	}
	found := regexp.MustCompile(`/Subtype /Image\n/Width (\d+)\n/Height (\d+)`).FindAllSubmatch(first.Bytes(), -1)
	require.Len(t, found, 12)
	for i, m := range found {
		assert.Equal(t, "64", string(m[1]))
		assert.Equal(t, strconv.Itoa(40+i), string(m[2]))
	}
}
