package intake

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"piecebook/ledger/fault"
)

// decodeText turns a plain file's bytes into text: UTF-16 where it is marked,
// else UTF-8, else Windows-1252, which is then guessed. Text with a zero
// character is no text.
func decodeText(b []byte) (text string, guessed, ok bool) {
	var form encoding.Encoding
	switch {
	case bytes.HasPrefix(b, []byte{0xEF, 0xBB, 0xBF}):
		b = b[3:]
	case bytes.HasPrefix(b, []byte{0xFF, 0xFE}), bytes.HasPrefix(b, []byte{0xFE, 0xFF}):
		form = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	}
	if form == nil && !utf8.Valid(b) {
		form, guessed = charmap.Windows1252, true
	}
	if form != nil {
		decoded, err := form.NewDecoder().Bytes(b)
		if err != nil {
			return "", false, false
		}
		b = decoded
	}
	return string(b), guessed, bytes.IndexByte(b, 0) < 0
}

// separator finds what parts the cells from the first line that is not blank:
// the commonest of comma, semicolon and tab outside quotation marks, a comma
// where none is there.
func separator(text string) byte {
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
		case c == ',' || c == ';' || c == '\t':
			counts[c]++
		}
		any = any || text[i] > ' '
	}
	best := byte(',')
	for _, c := range []byte{';', '\t'} {
		if counts[c] > counts[best] {
			best = c
		}
	}
	return best
}

// splitter walks a plain file. Rows are numbered as a spreadsheet numbers
// them: a record whose quoted cell holds line breaks is one row, a blank line
// is a row too.
type splitter struct {
	text     string
	at       int
	row      int
	sep      byte
	place    fault.Place
	problems *fault.List
	unclosed int
}

// splitText parts a plain file into rows, in the manner of RFC 4180: cells in
// quotation marks may hold the separator, line breaks and doubled quotation
// marks. A quotation mark inside a cell that does not begin with one is
// itself (36"), as in every spreadsheet program. Lines end in LF, CRLF or CR.
func splitText(text string, place fault.Place, problems *fault.List) []line {
	s := &splitter{text: text, sep: separator(text), place: place, problems: problems}
	var lines []line
	for s.at < len(s.text) {
		s.row++
		l := s.record()
		if l.broken || !blank(l.cells) {
			lines = append(lines, l)
		}
		if len(lines) > sheetRowsMax {
			problems.Add(tooManyRows(place))
			return nil
		}
		if s.unclosed >= unclosedMax {
			break
		}
	}
	return lines
}

// tooManyRows refuses a sheet whole: reading a part of it would drop rows.
func tooManyRows(place fault.Place) fault.Problem {
	return fault.Problem{Code: fault.CodeFileTooBig, Place: place,
		Why: fmt.Sprintf("There are more than %d rows here, far above any shop's records.", sheetRowsMax),
		Fix: "Part the records into several files, or take out what is not records."}
}

// record reads one row and its line end.
func (s *splitter) record() line {
	l := line{number: s.row}
	start := s.at
	for {
		cell, fine := s.cell(start, len(l.cells))
		if !fine {
			l.broken = true
			return l
		}
		l.cells = append(l.cells, cell)
		if s.at >= len(s.text) {
			return l
		}
		c := s.text[s.at]
		s.at++
		if c == s.sep {
			if s.at == len(s.text) {
				l.cells = append(l.cells, "")
			}
			continue
		}
		if c == '\r' && s.at < len(s.text) && s.text[s.at] == '\n' {
			s.at++
		}
		return l
	}
}

// cell reads one cell and stops before the separator or line end. Where the
// quotation marks do not work out it tells so and leaves the reader at the
// start of the next line.
func (s *splitter) cell(start, column int) (text string, fine bool) {
	if s.at >= len(s.text) || s.text[s.at] != '"' {
		end := s.at
		for end < len(s.text) && !s.ends(end) {
			end++
		}
		text = s.text[s.at:end]
		s.at = end
		return text, true
	}
	var b strings.Builder
	s.at++
	for {
		next := strings.IndexByte(s.text[s.at:], '"')
		if next < 0 {
			s.unclosed++
			s.tell(fault.CodeQuoteNotClosed, column, "A quotation mark opens here and is never closed.",
				"Close it at the end of the cell, or take it out.")
			s.at = start
			s.skipLine()
			return "", false
		}
		b.WriteString(s.text[s.at : s.at+next])
		s.at += next + 1
		switch {
		case s.at < len(s.text) && s.text[s.at] == '"':
			b.WriteByte('"')
			s.at++
		case s.at >= len(s.text) || s.ends(s.at):
			return b.String(), true
		default:
			s.tell(fault.CodeStrayQuote, column, "Text follows a closing quotation mark, so it is not clear where the cell ends.",
				"Write a quotation mark that belongs to the text twice, or take it out.")
			s.skipLine()
			return "", false
		}
	}
}

// ends says that a cell ends at i.
func (s *splitter) ends(i int) bool {
	c := s.text[i]
	return c == s.sep || c == '\n' || c == '\r'
}

// skipLine moves past the next line end.
func (s *splitter) skipLine() {
	for s.at < len(s.text) && s.text[s.at] != '\n' && s.text[s.at] != '\r' {
		s.at++
	}
	if strings.HasPrefix(s.text[s.at:], "\r\n") {
		s.at++
	}
	s.at = min(s.at+1, len(s.text))
}

// tell adds a problem with the row's place; the column is told by its letter,
// since the header is not known yet.
func (s *splitter) tell(code fault.Code, column int, why, fix string) {
	p := s.place
	p.Row, p.Column = s.row, columnLetters(column)
	s.problems.Add(fault.Problem{Code: code, Place: p, Why: why, Fix: fix})
}

// columnLetters is a column as a spreadsheet letters it: 0 is A, 26 is AA.
func columnLetters(i int) string {
	if i >= 26 {
		return columnLetters(i/26-1) + string(rune('A'+i%26))
	}
	return string(rune('A' + i))
}
