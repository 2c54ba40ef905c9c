package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"hash/crc32"
	"io"
	"runtime"
	"sync"

	"github.com/klauspost/compress/flate"
)

// filledSheet is a part with its rows, compressed.
type filledSheet struct {
	header zip.FileHeader
	data   bytes.Buffer
}

// copy puts the part into a workbook.
func (s *filledSheet) copy(w *zip.Writer) error {
	to, err := w.CreateRaw(&s.header)
	if err != nil {
		return err
	}
	_, err = to.Write(s.data.Bytes())
	return err
}

// fillSheets writes the rows of the parts that have some, as many parts at once
// as there are processors: of a large workbook nothing takes longer. The result
// is by the parts' places, nil for other parts.
func fillSheets(files []*zip.File, rows map[string]func(io.Writer) error) ([]*filledSheet, error) {
	out, failed := make([]*filledSheet, len(files)), make([]error, len(files))
	places := make(chan int)
	var all sync.WaitGroup
	for range min(len(rows), runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			pack, err := flate.NewWriter(nil, packLevel)
			for i := range places {
				if failed[i] = err; err == nil {
					out[i], failed[i] = fill(files[i], rows[files[i].Name], pack)
				}
			}
		})
	}
	for i, f := range files {
		if rows[f.Name] != nil {
			places <- i
		}
	}
	close(places)
	all.Wait()
	for _, err := range failed {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// packLevel takes nearly as few bytes as slower levels do; the standard library
// would take three times as long for as few.
const packLevel = 5

// rowsAt is where the rows of a part without any belong.
var rowsAt = []byte("<sheetData></sheetData>")

// fill is a part with its rows.
func fill(f *zip.File, rows func(io.Writer) error, pack *flate.Writer) (*filledSheet, error) {
	from, err := f.Open()
	if err != nil {
		return nil, err
	}
	text, err := io.ReadAll(from)
	if err != nil {
		return nil, err
	}
	before, after, found := bytes.Cut(text, rowsAt)
	if !found {
		return nil, fmt.Errorf("%s has no place for its rows", f.Name)
	}
	out := &filledSheet{header: f.FileHeader}
	pack.Reset(&out.data)
	sum := &counted{to: pack}
	_, _ = sum.Write(before)
	_, _ = sum.Write([]byte("<sheetData>"))
	if err := rows(sum); err != nil {
		return nil, err
	}
	_, _ = sum.Write([]byte("</sheetData>"))
	_, _ = sum.Write(after)
	if err := pack.Close(); err != nil {
		return nil, err
	}
	out.header.CRC32, out.header.UncompressedSize64 = sum.crc, sum.size
	out.header.CompressedSize64 = uint64(out.data.Len())
	return out, nil
}

// counted counts what it hands on, and keeps its checksum.
type counted struct {
	to   io.Writer
	size uint64
	crc  uint32
}

func (c *counted) Write(b []byte) (int, error) {
	c.size += uint64(len(b))
	c.crc = crc32.Update(c.crc, crc32.IEEETable, b)
	return c.to.Write(b)
}
