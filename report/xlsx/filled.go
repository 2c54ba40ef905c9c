package xlsx

import (
	"archive/zip"
	"bytes"
	"cmp"
	"fmt"
	"hash/crc32"
	"io"
	"sync"

	"github.com/klauspost/compress/flate"
)

// packLevel takes nearly as few bytes as slower levels do; the standard library
// would take three times as long for as few.
const packLevel = 5

// packed is a part of a file, compressed while it is written (RFC 1951), so that
// it can be joined to what is before and after it.
type packed struct {
	pack   *flate.Writer
	blocks [][]byte // what is compressed so far
	size   uint64   // before it was
	sum    uint32   // CRC-32 of that
}

// compressors are used again: each takes a megabyte.
var compressors = sync.Pool{New: func() any {
	w, _ := flate.NewWriter(nil, packLevel) // only another level fails
	return w
}}

func newPacked() *packed {
	p := &packed{pack: compressors.Get().(*flate.Writer)}
	p.pack.Reset((*blockWriter)(p))
	return p
}

// end ends a part; the last of a file is ended otherwise.
func (p *packed) end(last bool) error {
	end := p.pack.Flush
	if last {
		end = p.pack.Close
	}
	defer compressors.Put(p.pack)
	return end()
}

// packedText is a part of one text.
func packedText(text []byte, last bool) (*packed, error) {
	p := newPacked()
	_, err := p.Write(text)
	return p, cmp.Or(err, p.end(last))
}

func (p *packed) Write(b []byte) (int, error) {
	p.size += uint64(len(b))
	p.sum = crc32.Update(p.sum, crc32.IEEETable, b)
	return p.pack.Write(b)
}

// blockWriter keeps a part's bytes in blocks: one that grows would be copied
// again and again, and take twice the room.
type blockWriter packed

// blockBytes is how large a block is.
const blockBytes = 16 << 10

func (w *blockWriter) Write(b []byte) (int, error) {
	for rest := b; len(rest) > 0; {
		last := len(w.blocks) - 1
		if last < 0 || len(w.blocks[last]) == blockBytes {
			w.blocks = append(w.blocks, make([]byte, 0, blockBytes))
			last++
		}
		n := min(len(rest), blockBytes-len(w.blocks[last]))
		w.blocks[last], rest = append(w.blocks[last], rest[:n]...), rest[n:]
	}
	return len(b), nil
}

// rowsAt is where the rows of a part without any belong.
var rowsAt = []byte("<sheetData></sheetData>")

// fill writes a part with its rows.
func fill(w *zip.Writer, f *zip.File, rows *packed) error {
	from, err := f.Open()
	if err != nil {
		return err
	}
	text, err := io.ReadAll(from)
	if err != nil {
		return err
	}
	at := bytes.Index(text, rowsAt)
	if at < 0 {
		return fmt.Errorf("%s has no place for its rows", f.Name)
	}
	at += len("<sheetData>")
	before, err := packedText(text[:at], false)
	if err != nil {
		return err
	}
	after, err := packedText(text[at:], true)
	if err != nil {
		return err
	}
	header := f.FileHeader
	header.CRC32, header.UncompressedSize64, header.CompressedSize64 = 0, 0, 0
	for _, part := range []*packed{before, rows, after} {
		header.CRC32 = joinedSum(header.CRC32, part.sum, part.size)
		header.UncompressedSize64 += part.size
		for _, block := range part.blocks {
			header.CompressedSize64 += uint64(len(block))
		}
	}
	to, err := w.CreateRaw(&header)
	if err != nil {
		return err
	}
	for _, part := range []*packed{before, rows, after} {
		for _, block := range part.blocks {
			if _, err := to.Write(block); err != nil {
				return err
			}
		}
	}
	return nil
}

// joinedSum is the CRC-32 of two texts one after the other, the second of so many
// bytes, from their own: the first's times x to the 8 × bytes, as polynomials over
// two elements modulo that of IEEE 802.3, plus the second's.
func joinedSum(first, second uint32, bytes uint64) uint32 {
	const x8 = 1 << (31 - 8) // x to the 8; the highest bit is that of x to the 0
	for power := uint32(x8); bytes > 0; bytes >>= 1 {
		if bytes&1 == 1 {
			first = timesModulo(first, power)
		}
		power = timesModulo(power, power)
	}
	return first ^ second
}

// timesModulo multiplies two polynomials.
func timesModulo(a, b uint32) uint32 {
	product := uint32(0)
	for bit := uint32(1) << 31; bit > 0; bit >>= 1 {
		if a&bit != 0 {
			product ^= b
		}
		carry := b & 1
		b >>= 1
		if carry == 1 {
			b ^= crc32.IEEE
		}
	}
	return product
}
