package intake

import (
	"bytes"

	"golang.org/x/text/encoding/unicode"

	"piecebook/templates"
)

// Layout is how one sheet of a table stands in its file, for describing it to
// other programs.
type Layout struct {
	File, Sheet string // Sheet: workbooks only
	Table       string
	HeaderRow   int   // as the spreadsheet numbers it
	Examples    []int // rows that are no records: examples, totals, column names again
	Columns     []LayoutColumn
	// Of a plain file: what parts its cells, and the name of its letters'
	// encoding as registered with IANA.
	Separates, Letters string
}

// LayoutColumn is a column that is read: the owner's header, and the column of
// the table it was read as.
type LayoutColumn struct{ Header, Field string }

// layout tells a sheet's layout. Nothing where its header could not be read.
func (r *reading) layout(s *sheet, t *templates.Table, lay *layout, skipped []int) {
	if lay.broken || lay.faulty {
		return
	}
	l := Layout{File: s.file, Sheet: s.name, Table: t.Name, HeaderRow: s.lines[0].number,
		Separates: s.separates, Letters: s.letters, Examples: skipped}
	for _, c := range lay.inOrder() {
		l.Columns = append(l.Columns, LayoutColumn{c.header, c.field.Name})
	}
	r.layouts = append(r.layouts, l)
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
