package pdf

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/jung-kurt/gofpdf"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plainFile is a file of the library's own with two pages, uncompressed.
func plainFile(t *testing.T) []byte {
	d := gofpdf.New("P", "pt", "Letter", "")
	d.SetCompression(false)
	d.SetFont("Helvetica", "", 10)
	for range 2 {
		d.AddPage()
		d.Text(50, 50, strings.Repeat("endobj stream ", 40))
	}
	var out bytes.Buffer
	require.NoError(t, d.Output(&out))
	return out.Bytes()
}

// Every place in the table of a finished file is where the object of that number
// begins (ISO 32000-1, 7.5.4), pages are compressed, and the catalogue has what
// the library has no call for.
func TestFinishedFilesPlaces(t *testing.T) {
	file := plainFile(t)
	for _, compress := range []bool{true, false} {
		var out bytes.Buffer
		require.NoError(t, finish(&out, file, compress))
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
		assert.Equal(t, !compress, bytes.Contains(out.Bytes(), []byte("endobj stream")))
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
		require.ErrorIs(t, finish(io.Discard, other, true), errOtherwise)
	}
}
