package headers

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
)

// tellShape notes what a person may not see in a sheet that is read (hidden),
// or sees otherwise than it is saved (merged), and gives cells what their number
// formats show.
func (r *Reader) tellShape(b *Block) {
	if !b.sheet.InBook || b.Broken {
		return
	}
	r.noteHidden(b)
	r.noteMerged(b)
	for _, c := range b.Columns {
		r.showFormats(b.sheet, c)
	}
}

// noteHidden notes hidden rows, columns and sheets: they are read.
func (r *Reader) noteHidden(b *Block) {
	var what []string
	if b.sheet.Hidden {
		what = append(what, "this sheet")
	}
	var rows []string
	for _, n := range b.sheet.HiddenRows {
		if n > b.sheet.Lines[0].Number {
			rows = append(rows, strconv.Itoa(n))
		}
	}
	if n := len(rows); n > 0 {
		what = append(what, counted(n, "row", rows))
	}
	var columns []string
	for i := range b.Width {
		if b.sheet.IsHiddenColumn(i) && strings.TrimSpace(b.headers[i]) != "" {
			columns = append(columns, strings.TrimSpace(b.headers[i]))
		}
	}
	if n := len(columns); n > 0 {
		what = append(what, counted(n, "column", columns))
	}
	if len(what) == 0 {
		return
	}
	r.problems.Add(fault.Problem{Code: fault.CodeHiddenRead, Note: true, Place: b.sheet.Place(),
		Why:         fmt.Sprintf("Hidden here: %s. What is hidden is read like the rest.", strings.Join(what, ", ")),
		AsksNothing: true, Fix: "It may stay; delete what is no longer meant to count."})
}

// counted is `row 4`, `3 rows (4, 5, 6)`, at most ten of them by name.
func counted(n int, what string, names []string) string {
	if n == 1 {
		return what + " " + names[0]
	}
	const most = 10
	tail := ""
	if n > most {
		names, tail = names[:most], " and more"
	}
	return fmt.Sprintf("%d %ss (%s%s)", n, what, strings.Join(names, ", "), tail)
}

// noteMerged notes merged cells among the rows: the first holds the value, the
// others are blank to everyone but the eye. It is not filled in, since a date
// merged over three rows may be meant for each, and a price is not.
func (r *Reader) noteMerged(b *Block) {
	for _, a := range b.sheet.Merged {
		if a.Bottom <= b.sheet.Lines[0].Number || a.Left >= b.Width || a.Top == a.Bottom && a.Left == a.Right {
			continue
		}
		i := slices.IndexFunc(b.sheet.Lines, func(l sheets.Line) bool { return l.Number == a.Top })
		if i < 0 || a.Left >= len(b.sheet.Lines[i].Cells) || strings.TrimSpace(b.sheet.Lines[i].Cells[a.Left]) == "" {
			continue
		}
		from, to := sheets.CellName(a.Left, a.Top), sheets.CellName(a.Right, a.Bottom)
		place := b.sheet.Place()
		place.Row, place.Column = a.Top, sheets.ColumnLetters(a.Left)
		if a.Left < len(b.headers) && strings.TrimSpace(b.headers[a.Left]) != "" {
			place.Column = strings.TrimSpace(b.headers[a.Left])
		}
		r.problems.Add(fault.Problem{Code: fault.CodeMergedCells, Note: true, Place: place,
			Found: sheets.Shortened(strings.TrimSpace(b.sheet.Lines[i].Cells[a.Left])),
			Why: fmt.Sprintf("The cells %s to %s are merged: only %s holds the value, and the others are read as blank.",
				from, to, from),
			Fix: "Undo the merging, and type the value into each cell it is meant for."})
	}
}

// showFormats gives the numbers of a column what their formats show beside
// them: 7 shown as 007 is the name 007, and 8 shown as 8 fl oz is 8 fl oz.
func (r *Reader) showFormats(s *sheets.Sheet, c Column) {
	for _, l := range s.Lines[1:] {
		if c.Index < len(l.Cells) {
			l.Cells[c.Index] = values.AsShown(s.Cell(l, c.Index), l.Cells[c.Index], c.Field.Cell, r.settings)
		}
	}
}
