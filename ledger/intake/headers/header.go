package headers

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/settings"
	"piecebook/ledger/intake/sheets"
	"piecebook/templates"
)

// readHeader matches the first row to the table's columns and tells what is
// unknown, twice there, or missing.
func (r *Reader) readHeader(s *sheets.Sheet, t *templates.Table) *Block {
	head := s.Lines[0]
	at := s.Place()
	at.Row = head.Number
	b := &Block{sheet: s, Table: t, Columns: map[string]Column{}, headers: head.Cells, Broken: head.Broken,
		Missing: map[string]bool{}, Other: map[string]bool{}, proposed: map[string]bool{}, unreadMoney: map[int]bool{}}
	fields, ignored := r.names.Fields(t, head.Cells)
	var twice []Column
	for i, text := range head.Cells {
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		b.Width = i + 1
		r.seen[t.Name+" "+settings.HeaderKey(text)] = true
		f := fields[i]
		if f != nil && r.isWords(s, f, i) && !r.names.IsOwn(t, text) {
			f = nil
		}
		if !ignored[i] && r.takesTicks(b, f, i) {
			b.ticks = append(b.ticks, Column{Index: i, Header: text, table: t.Name})
			continue
		}
		if f == nil {
			if own := r.ownMoney(b, fields, i); own != nil && !ignored[i] {
				twice = append(twice, Column{Field: own, Index: i, Header: text})
				continue
			}
			if !ignored[i] {
				b.unknown = append(b.unknown, Column{Index: i, Header: text, table: t.Name})
			}
			continue
		}
		if _, there := b.Columns[f.Name]; there { // reported once all columns are known
			twice = append(twice, Column{Field: f, Index: i, Header: text})
			continue
		}
		b.Columns[f.Name] = Column{Field: f, Index: i, Header: text}
		r.checkHeaderUnit(at.At(text), b, f, text)
	}
	for _, c := range twice {
		r.columnTwice(b, b.Columns[c.Field.Name], c)
	}
	b.netOfSales()
	r.takeUnits(b)
	r.askDelivery(b)
	r.takeFor(b)
	r.noteBesideMoney(b)
	if len(b.Columns) > 0 { // else all of them are reported as one
		for _, c := range b.unknown {
			r.unknownHeader(b, c)
		}
	}
	r.askTicks(b)
	r.noteBlankHeaders(b)
	r.missingColumns(b)
	r.otherMeanings(b)
	if b.Broken || b.Faulty {
		r.brokenAt(t, at)
	}
	return b
}

// isWords says that most cells of a column of money are words without a digit: a
// heading such as What I got names a piece as well as an amount.
func (r *Reader) isWords(s *sheets.Sheet, f *templates.Field, index int) bool {
	if !columns.IsMoney(f.Cell) {
		return false
	}
	cells, words := columns.Samples(s, index), 0
	for _, x := range cells {
		if !strings.ContainsAny(x.Cell.Text, "0123456789") && !columns.ReadsAs(f.Cell, x.Cell, r.settings) {
			words++
		}
	}
	return 2*words > len(cells)
}

// brokenAt remembers where a table could not be read, so that what depends on it
// is not reported as an error of its own.
func (r *Reader) brokenAt(t *templates.Table, at fault.Place) {
	if first, there := r.Broken[t.Name]; !there || at.Compare(first) < 0 {
		r.Broken[t.Name] = at
	}
}

// noteBlankHeaders notes a column that is filled but has no name. In a
// workbook it may stand beside the table, a scribble; in a plain file a value
// after the last name means that the row's values have shifted, which
// checkCells refuses.
func (r *Reader) noteBlankHeaders(b *Block) {
	width := b.Width
	if b.sheet.InBook {
		for _, l := range b.sheet.Lines[1:] {
			width = max(width, len(l.Cells))
		}
	}
	for i := range width {
		if i < len(b.headers) && strings.TrimSpace(b.headers[i]) != "" {
			continue
		}
		for _, l := range b.sheet.Lines[1:] {
			if i < len(l.Cells) && strings.TrimSpace(l.Cells[i]) != "" {
				r.problems.Add(fault.Problem{Code: fault.CodeHeaderBlank, Note: true, Place: b.at(sheets.ColumnLetters(i)),
					MoneyCents: columns.SumOf(b.sheet, i, r.settings),
					Why:        fmt.Sprintf("Column %s is filled but has no name, so it is not read.", sheets.ColumnLetters(i)),
					Fix:        "Give it a name if it is to be read."})
				break
			}
		}
	}
}

// NoteUnused notes lines of [columns.TABLE] that name a column that is not there: a
// slip, or a name since changed.
func (r *Reader) NoteUnused(text string) {
	for _, table := range slices.Sorted(maps.Keys(r.settings.Columns)) {
		for _, header := range slices.Sorted(maps.Keys(r.settings.Columns[table])) {
			if r.tables.IsNamed(table) && !r.seen[table+" "+settings.HeaderKey(header)] {
				r.problems.Add(settings.Unused(text, settings.ColumnsSection(table), header, "column"))
			}
		}
	}
}
