package shapes

import (
	"archive/zip"
	"bytes"
	"io"
	"strings"
)

// repack is a zip file with one part put in the place of its namesake.
func repack(b, part string, text []byte) []byte {
	in, err := zip.NewReader(strings.NewReader(b), int64(len(b)))
	if err != nil {
		panic(err)
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, old := range in.File {
		if old.Name == part {
			continue
		}
		from, err := old.Open()
		if err != nil {
			panic(err)
		}
		to, _ := w.Create(old.Name)
		_, _ = io.Copy(to, from)
		_ = from.Close()
	}
	to, err := w.Create(part)
	if err == nil {
		_, _ = to.Write(text)
	}
	_ = w.Close()
	return out.Bytes()
}
