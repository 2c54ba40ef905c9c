package sheets

import (
	"strings"

	"piecebook/ledger/fault"
)

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
