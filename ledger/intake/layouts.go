package intake

import (
	"bytes"
	"slices"

	"piecebook/templates"
)

// Layout is how one sheet of a table stands in its file, for describing it to
// other programs.
type Layout struct {
	File, Sheet string // Sheet: workbooks only
	Table       string
	HeaderRow   int   // as the spreadsheet numbers it
	Examples    []int // rows that are not read, since they begin example:
	Columns     []LayoutColumn
}

// LayoutColumn is a column that is read: the owner's header, and the column of
// the table it was read as.
type LayoutColumn struct{ Header, Field string }

// layout tells a sheet's layout. Nothing where its header could not be read.
func (r *reading) layout(s *sheet, t *templates.Table, lay *layout) {
	if lay.broken {
		return
	}
	l := Layout{File: s.file, Sheet: s.name, Table: t.Name, HeaderRow: s.lines[0].number}
	for _, line := range s.lines[1:] {
		if isExample(line) {
			l.Examples = append(l.Examples, line.number)
		}
	}
	read := make([]column, 0, len(lay.columns))
	for _, c := range lay.columns {
		read = append(read, c)
	}
	slices.SortFunc(read, func(a, b column) int { return a.index - b.index })
	for _, c := range read {
		l.Columns = append(l.Columns, LayoutColumn{c.header, c.field.Name})
	}
	r.layouts = append(r.layouts, l)
}

// TextForm is what parts the cells of a plain file, and the name of its
// letters' encoding as registered with IANA.
func TextForm(b []byte) (separates, encoding string) {
	text, guessed, _ := decodeText(b)
	encoding = "utf-8"
	switch {
	case guessed:
		encoding = "windows-1252"
	case bytes.HasPrefix(b, []byte{0xFF, 0xFE}), bytes.HasPrefix(b, []byte{0xFE, 0xFF}):
		encoding = "utf-16"
	}
	return string(separator(text)), encoding
}
