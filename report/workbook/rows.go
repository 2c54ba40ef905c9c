package workbook

import (
	"encoding/binary"
	"iter"
)

// packed is a row as a sheet keeps it: a byte for its style, then its cells one
// after the other. A large workbook has a million cells, of which most are
// empty, short words or small numbers.
type packed string

// What a cell has, in the byte that it begins with; the lowest bits are its
// kind. An empty cell is a zero byte.
const (
	hasKind    = 1<<3 - 1
	hasText    = 1 << 3
	hasFormula = 1 << 4
	hasLink    = 1 << 5
	isFull     = 1 << 6
	hasValue   = 1 << 7
)

// Len is how many rows there are.
func (s *Sheet) Len() int { return s.count }

// At is a row by its place from 0, of a sheet whose rows are kept.
func (s *Sheet) At(i int) Row { return s.unpack(s.rows[i], nil) }

// Rows are the rows that are kept, by their places from 0. A row's cells hold
// until the next row is asked for.
func (s *Sheet) Rows() iter.Seq2[int, Row] {
	return func(yield func(int, Row) bool) {
		var r Row
		for i := range s.rows {
			if r = s.unpack(s.rows[i], r.Cells[:0]); !yield(i, r) {
				return
			}
		}
	}
}

func (s *Sheet) pack(style Style, cells []Cell) packed {
	b := append(s.packing[:0], byte(style))
	for i := range cells {
		b = s.packCell(b, &cells[i])
	}
	s.packing = b
	return packed(b)
}

func (s *Sheet) packCell(b []byte, c *Cell) []byte {
	at := len(b)
	b = append(b, byte(c.Kind))
	for _, words := range [...]struct {
		has  byte
		text string
	}{{hasText, c.Text}, {hasFormula, c.Formula}, {hasLink, c.Link}} {
		if words.text != "" {
			b[at] |= words.has
			b = append(binary.AppendUvarint(b, uint64(len(words.text))), words.text...)
		}
	}
	if c.Full {
		b[at] |= isFull
	}
	if v := c.Value; !v.None() {
		b[at] |= hasValue
		b = append(b, byte(c.Decimals))
		if v.denom == 0 {
			s.large = append(s.large, v.large)
			v.num = int64(len(s.large) - 1)
		}
		b = binary.AppendUvarint(binary.AppendVarint(b, v.num), uint64(v.denom))
	}
	return b
}

// unpack is a row again, its cells in the room given.
func (s *Sheet) unpack(p packed, cells []Cell) Row {
	r := Row{Style: Style(p[0]), Cells: cells}
	for p = p[1:]; len(p) > 0; {
		has := p[0]
		p = p[1:]
		c := Cell{Kind: Kind(has & hasKind), Full: has&isFull != 0}
		if has&hasText != 0 {
			c.Text = p.words()
		}
		if has&hasFormula != 0 {
			c.Formula = p.words()
		}
		if has&hasLink != 0 {
			c.Link = p.words()
		}
		if has&hasValue != 0 {
			c.Decimals = int8(p[0])
			p = p[1:]
			num, denom := p.number(), p.number()
			c.Value = fraction(int64(num>>1)^-int64(num&1), int64(denom)) // see binary.PutVarint
			if denom == 0 {
				c.Value = Value{large: s.large[c.Value.num]}
			}
		}
		r.Cells = append(r.Cells, c)
	}
	return r
}

// words takes words off the beginning.
func (p *packed) words() string {
	n := p.number()
	words := (*p)[:n]
	*p = (*p)[n:]
	return string(words)
}

// number takes a number off the beginning (binary.Uvarint, which takes no string).
func (p *packed) number() uint64 {
	var x uint64
	for i := 0; ; i++ {
		b := (*p)[i]
		x |= uint64(b&0x7f) << (7 * i)
		if b < 0x80 {
			*p = (*p)[i+1:]
			return x
		}
	}
}
