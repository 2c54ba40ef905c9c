package sheets

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"piecebook/ledger/fault"
)

// Decode turns a plain file's bytes into text: UTF-16 where it is marked
// or every other byte of its beginning is zero, else UTF-8, else UTF-8 with
// each byte that is none read as Windows-1252, which is then guessed. The error
// says that it is no text, or that its end is missing.
func Decode(b []byte) (text string, guessed bool, err error) {
	order, marked := unicode.LittleEndian, true
	switch {
	case bytes.HasPrefix(b, []byte{0xEF, 0xBB, 0xBF}):
		return decodeBytes(b[3:])
	case bytes.HasPrefix(b, []byte{0xFF, 0xFE}):
	case bytes.HasPrefix(b, []byte{0xFE, 0xFF}):
		order = unicode.BigEndian
	default:
		if order, marked = unmarked16(b); !marked {
			return decodeBytes(b)
		}
	}
	if len(b)%2 != 0 {
		return "", false, errHalfText
	}
	decoded, err := unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(b)
	if err != nil || bytes.IndexByte(decoded, 0) >= 0 {
		return "", false, errNoText
	}
	return string(decoded), false, nil
}

// Bytes that are no whole text.
var (
	errNoText   = errors.New("no plain text")
	errHalfText = errors.New("ends in the middle of a letter")
)

// unmarked16 finds UTF-16 without a mark by its zero bytes: column names are
// of plain letters, each of which is a byte and a zero.
func unmarked16(b []byte) (unicode.Endianness, bool) {
	head := b[:min(len(b), 64)&^1]
	var zeros [2]int
	for i, c := range head {
		if c == 0 {
			zeros[i%2]++
		}
	}
	half := len(head) / 2
	switch {
	case half < 8: // too little to tell
	case zeros[0] == 0 && zeros[1]*10 >= half*9:
		return unicode.LittleEndian, true
	case zeros[1] == 0 && zeros[0]*10 >= half*9:
		return unicode.BigEndian, true
	}
	return unicode.LittleEndian, false
}

// decodeBytes reads UTF-8. What is no UTF-8 is read as Windows-1252 byte by
// byte, so that one row pasted in by another program leaves the others right.
func decodeBytes(b []byte) (text string, guessed bool, err error) {
	if bytes.IndexByte(b, 0) >= 0 {
		return "", false, errNoText
	}
	b = bytes.TrimSuffix(b, []byte{0x1A}) // an end mark of old programs
	if utf8.Valid(b) {
		return string(b), false, nil
	}
	if cutLetter(b) {
		return "", false, errHalfText
	}
	var out strings.Builder
	out.Grow(len(b) + len(b)/8)
	for len(b) > 0 {
		r, size := utf8.DecodeRune(b)
		if r == utf8.RuneError && size == 1 {
			r = charmap.Windows1252.DecodeByte(b[0])
		}
		out.WriteRune(r)
		b = b[size:]
	}
	return out.String(), true, nil
}

// cutLetter says that a text is UTF-8, some of it beyond plain letters, but
// for a last letter whose bytes are not all there.
func cutLetter(b []byte) bool {
	for n := 1; n <= min(3, len(b)); n++ {
		whole := b[:len(b)-n]
		if utf8.RuneStart(b[len(b)-n]) {
			return !utf8.FullRune(b[len(b)-n:]) && utf8.Valid(whole) && utf8.RuneCount(whole) < len(whole)
		}
	}
	return false
}

// lettersName is the name of a plain file's encoding, as registered with IANA.
func lettersName(b []byte, guessed bool) string {
	if guessed {
		return "windows-1252"
	}
	if bytes.HasPrefix(b, []byte{0xFF, 0xFE}) || bytes.HasPrefix(b, []byte{0xFE, 0xFF}) {
		return "utf-16"
	}
	switch order, unmarked := unmarked16(b); {
	case !unmarked:
		return "utf-8"
	case order == unicode.BigEndian:
		return "utf-16be"
	}
	return "utf-16le"
}

// separators separate the cells of plain files, the usual one first.
const separators = ",;\t|"

// headBytesMax is how much of a file is tried for its separator.
const headBytesMax = 64 << 10

// separator finds what separates the cells: the one by which some row near the
// top has most column names in it; where none has any, the one that is
// commonest in the first line that is not blank; a comma where there is none.
func separator(text string, known func(string) bool) byte {
	best, most := byte(0), 0
	head := text[:min(len(text), headBytesMax)]
	for _, sep := range []byte(separators) {
		s := &splitter{text: head, sep: sep, problems: &fault.List{}}
		for rows := 0; s.at < len(s.text) && rows < TitleRowsMax; {
			l := s.record()
			if Blank(l.Cells) {
				continue
			}
			rows++
			names := 0
			for _, c := range l.Cells {
				if known(c) {
					names++
				}
			}
			if names > most {
				best, most = sep, names
			}
		}
	}
	if best != 0 {
		return best
	}
	return commonest(text)
}

// commonest is the commonest separator outside quotation marks in the first
// line that is not blank.
func commonest(text string) byte {
	counts := map[byte]int{}
	quoted, any := false, false
scan:
	for i := range len(text) {
		switch c := text[i]; {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '\n' || c == '\r':
			if any {
				break scan
			}
		case strings.IndexByte(separators, c) >= 0:
			counts[c]++
		}
		any = any || text[i] > ' '
	}
	best := byte(',')
	for _, c := range []byte(";\t") {
		if counts[c] > counts[best] {
			best = c
		}
	}
	return best
}
