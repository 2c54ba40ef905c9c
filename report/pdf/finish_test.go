package pdf

import (
	"bytes"
	"fmt"
	"io"
	"testing"

	"github.com/jung-kurt/gofpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shownThere is what two pages show.
var shownThere = [][]byte{[]byte("first: endobj stream"), []byte("second: endobj stream")}

// plainFile is a file of the library's own with two empty pages, uncompressed.
func plainFile(t *testing.T) []byte {
	d := gofpdf.New("P", "pt", "Letter", "")
	d.SetCompression(false)
	d.SetFont("Helvetica", "", 10)
	for range shownThere {
		d.AddPage()
	}
	var out bytes.Buffer
	require.NoError(t, d.Output(&out))
	return out.Bytes()
}

// Every place in the table of a finished file is where the object of that number
// begins (ISO 32000-1, 7.5.4), pages have what they show, and the catalogue has what
// the library has no call for.
func TestFinishedFilesPlaces(t *testing.T) {
	file := plainFile(t)
	for _, compress := range []bool{true, false} {
		var out bytes.Buffer
		require.NoError(t, finish(&out, file, shownThere, compress))
		places, _, err := objectPlaces(out.Bytes())
		require.NoError(t, err)
		before, _, err := objectPlaces(file)
		require.NoError(t, err)
		require.Len(t, places, len(before))
		for i, at := range places {
			head, _, _ := bytes.Cut(file[before[i]:], []byte("\n"))
			assert.True(t, bytes.HasPrefix(out.Bytes()[at:], head), "%s", head)
		}
		assert.Equal(t, compress, bytes.Count(out.Bytes(), []byte("/Filter /FlateDecode")) == 2)
		for _, shown := range shownThere {
			assert.Contains(t, out.String(), fmt.Sprintf("/Length %d>>\nstream\n%s\nendstream", len(shown), shown))
		}
		assert.Contains(t, out.String(), "/Type /Catalog\n/Lang (en-US)\n")
		assert.True(t, bytes.HasPrefix(out.Bytes(), []byte("%PDF-1.4")))
	}
}

// A file that is not laid out as the library's are is an error, never a file.
func TestFinishRefusesOtherFiles(t *testing.T) {
	file := plainFile(t)
	for _, other := range [][]byte{nil, file[:len(file)/2], bytes.Replace(file, []byte("startxref\n"),
		[]byte("startxref\n9"), 1), bytes.Replace(file, []byte("/Type /Catalog"), []byte("/Type /Katalog"), 1),
		bytes.Replace(file, []byte("<</Length"), []byte("<</Langth"), 1), bytes.Replace(file, []byte("%PDF-1"),
			[]byte("%PDF-2"), 1), bytes.Replace(file, []byte("xref\n0 "), []byte("xref\n1 "), 1)} {
		require.ErrorIs(t, finish(io.Discard, other, shownThere, true), errOtherwise)
	}
	require.ErrorIs(t, finish(io.Discard, file, shownThere[:1], true), errOtherwise)
	require.ErrorIs(t, finish(io.Discard, file, append(shownThere, nil), true), errOtherwise)
}
