package sheets

import (
	"fmt"
	"strings"

	"piecebook/ledger/fault"
)

// splitter walks a plain file. Rows are numbered as a spreadsheet numbers
// them: a record whose quoted cell holds line breaks is one row, a blank line
// is a row too, a first line sep=; is none. Line breaks within a cell stay as
// they are.
type splitter struct {
	text     string
	at       int
	row      int
	sep      byte
	place    fault.Place
	problems *fault.List
	unclosed int
	filled   int // cells so far
}

// splitText splits a plain file into rows, in the manner of RFC 4180: cells in
// quotation marks may hold the separator, line breaks and doubled quotation
// marks. A quotation mark inside a cell that does not begin with one is
// itself (36"), as in every spreadsheet program; blanks outside the marks are
// ignored. Lines end in LF, CRLF or CR. known says that a text is a column
// name, which finds the separator; it is given back.
func splitText(text string, place fault.Place, known func(string) bool, problems *fault.List) ([]Line, byte) {
	text, sep := sepLine(text)
	if sep == 0 {
		sep = separator(text, known)
	}
	s := &splitter{text: text, sep: sep, place: place, problems: problems}
	var lines []Line
	for s.at < len(s.text) {
		s.row++
		l := s.record()
		s.filled += len(l.Cells)
		if l.Broken || !Blank(l.Cells) {
			lines = append(lines, l)
		}
		if len(lines) > sheetRowsMax || s.filled > sheetCellsMax {
			problems.Add(tooManyRows(place))
			return nil, sep
		}
		if s.unclosed >= unclosedMax && s.at < len(s.text) {
			s.row++
			s.tell(fault.CodeQuoteNotClosed, 0, fmt.Sprintf("%d quotation marks are not closed, so the rest of this file, from "+
				"here on, was not read.", unclosedMax),
				"Close them, or take them out.")
			break
		}
	}
	return lines, sep
}

// sepLine takes off a first line such as sep=; which spreadsheet programs
// write and read, and which they do not count as a row.
func sepLine(text string) (rest string, sep byte) {
	first, rest, _ := strings.Cut(text, "\n")
	if cr, after, is := strings.Cut(first, "\r"); is {
		first = cr
		if after != "" {
			rest = text[len(cr)+1:] // lines end in CR alone
		}
	}
	bare := strings.ToLower(strings.Trim(first, `" ,;`+"\t"))
	if !strings.HasPrefix(bare, "sep=") {
		return text, 0
	}
	switch mark := strings.Trim(first[strings.Index(first, "=")+1:], `" `); {
	case mark == "", strings.Trim(mark, ",;\t|") != "":
		return text, 0
	default:
		return rest, mark[0]
	}
}

// record reads one row and its line end.
func (s *splitter) record() Line {
	l := Line{Number: s.row}
	start := s.at
	for {
		cell, fine := s.cell(start, len(l.Cells))
		if overlong(cell) {
			s.tellLong(len(l.Cells), cell)
			cell, l.Broken = cell[:0], true
		}
		if !fine {
			l.Broken = true
			return l
		}
		if len(l.Cells) < sheetColsMax || cell != "" {
			l.Cells = append(l.Cells, cell)
		}
		if s.at >= len(s.text) {
			return l
		}
		c := s.text[s.at]
		s.at++
		if len(l.Cells) > sheetColsMax {
			s.filled = sheetCellsMax // too wide to be records
			return l
		}
		if c == s.sep {
			if s.at == len(s.text) {
				l.Cells = append(l.Cells, "")
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
	if opens := s.skipBlanks(s.at); opens < len(s.text) && s.text[opens] == '"' && (opens == s.at ||
		s.closesInLine(opens)) {
		s.at = opens + 1
		return s.quoted(start, column)
	}
	end := s.at
	for end < len(s.text) && !s.ends(end) {
		end++
	}
	text = s.text[s.at:end]
	s.at = end
	return text, true
}

// quoted reads the rest of a cell whose quotation mark has been read.
func (s *splitter) quoted(start, column int) (text string, fine bool) {
	var b strings.Builder
	opened := s.at
	for {
		next := strings.IndexByte(s.text[s.at:], '"')
		if next < 0 {
			s.notClosed(start, column, "A quotation mark opens here and is never closed.")
			return "", false
		}
		b.WriteString(s.text[s.at : s.at+next])
		s.at += next + 1
		after := s.skipBlanks(s.at)
		switch {
		case s.at < len(s.text) && s.text[s.at] == '"':
			b.WriteByte('"')
			s.at++
		case after >= len(s.text) || s.ends(after):
			s.at = after
			return b.String(), true
		case strings.ContainsAny(s.text[opened:s.at], "\r\n") && s.unclosed < unclosedMax:
			// A mark that is missing swallows the rows up to the next one: they
			// are read again, each as a row of its own.
			s.notClosed(start, column, "A quotation mark opens here and is not closed where the cell ends, so rows below seem "+
				"to be part of it.")
			return "", false
		default:
			s.tell(fault.CodeStrayQuote, column, "Text follows a closing quotation mark, so it is not clear where "+
				"the cell ends.",
				"Write a quotation mark that belongs to the text twice, or take it out.")
			s.skipLine()
			return "", false
		}
	}
}

// notClosed tells an open quotation mark and goes on at the next line.
func (s *splitter) notClosed(start, column int, why string) {
	s.unclosed++
	s.tell(fault.CodeQuoteNotClosed, column, why, "Close it at the end of the cell, or take it out.")
	s.at = start
	s.skipLine()
}

// closesInLine says that a quotation mark is closed by another that ends its
// cell within the line: only then do blanks before it belong to no text.
func (s *splitter) closesInLine(opens int) bool {
	for i := opens + 1; i < len(s.text); i++ {
		switch c := s.text[i]; {
		case c == '\n' || c == '\r':
			return false
		case c != '"':
		case i+1 < len(s.text) && s.text[i+1] == '"':
			i++
		default:
			after := s.skipBlanks(i + 1)
			return after >= len(s.text) || s.ends(after)
		}
	}
	return false
}

// skipBlanks is where the blanks from i on end.
func (s *splitter) skipBlanks(i int) int {
	for i < len(s.text) && s.text[i] == ' ' {
		i++
	}
	return i
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

// tell adds a problem with the row's place; the column is named by its letter,
// since the header is not known yet.
func (s *splitter) tell(code fault.Code, column int, why, fix string) {
	p := s.place
	p.Row, p.Column = s.row, ColumnLetters(column)
	s.problems.Add(fault.Problem{Code: code, Place: p, Why: why, Fix: fix})
}

// tellLong refuses a row for a cell that is too long.
func (s *splitter) tellLong(column int, cell string) {
	p := s.place
	p.Row, p.Column = s.row, ColumnLetters(column)
	s.problems.Add(tooLong(p, cell))
}
