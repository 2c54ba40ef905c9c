package accountant

import (
	"cmp"
	"iter"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// recordTable is the records of one table, by their places.
type recordTable struct {
	name    string
	columns []ledger.Cell // blank: of which name and kind
	records []ledger.Record
}

// recordTables are the tables that have records, in the order of their
// descriptors. Records are many: a table's hold until the next one is asked for.
func recordTables(books *ledger.Books) iter.Seq[recordTable] {
	return func(yield func(recordTable) bool) {
		columns := ledger.Columns()
		var t recordTable
		whole := func() bool {
			slices.SortStableFunc(t.records, func(a, b ledger.Record) int { return a.At.Compare(b.At) })
			return len(t.records) == 0 || yield(t)
		}
		for r := range books.Records() {
			if t.name != r.Table {
				if !whole() {
					return
				}
				t = recordTable{name: r.Table, columns: columns[r.Table], records: t.records[:0]}
			}
			t.records = append(t.records, r)
		}
		whole()
	}
}

// recordKind is the kind of a workbook's column for a kind of records' cells.
var recordKind = map[ledger.CellKind]wb.Kind{ledger.TextCell: wb.KindText, ledger.MoneyCell: wb.KindMoney,
	ledger.NumberCell: wb.KindNumber,
	ledger.AreaCell:   wb.KindNumber, ledger.HoursCell: wb.KindHours, ledger.DayCell: wb.KindDate}

// recordCell is a record's cell in a workbook: numbers as they were written, to
// four decimals at most, areas to 0.01.
func recordCell(c ledger.Cell) wb.Cell {
	switch {
	case c.Cents != nil && c.Optional:
		return amountIf(c.Cents)
	case c.Cents != nil:
		return amount(*c.Cents)
	case c.Number != nil && c.Kind == ledger.HoursCell:
		return wb.Hours(c.Number)
	case c.Number != nil && c.Kind == ledger.AreaCell:
		return wb.Number(c.Number, 2)
	case c.Number != nil:
		return wb.Number(c.Number, -4)
	case c.Kind == ledger.DayCell:
		return dayCell(c.Day)
	}
	return wb.Text(c.Text)
}

// addRecords lays out a sheet for each table that has rows.
func (b *book) addRecords() {
	for t := range recordTables(b.shown) {
		cols := heads{}.text(0, "File", "Sheet").number(0, "Row")
		for _, c := range t.columns {
			cols = append(cols, wb.Column{Head: b.fieldTitle(t.name, c.Column), Kind: recordKind[c.Kind]})
		}
		b.records[t.name] = b.add(b.tableTitle(t.name)+" records", "Records of "+b.tableTitle(t.name),
			"the records as they were read, with file and row", cols)
		b.counted = append(b.counted, b.records[t.name])
	}
}

func (b *book) tableTitle(name string) string {
	for _, t := range b.in.Tables {
		if t.Name == name {
			return t.Title
		}
	}
	return words.Capital(name)
}

func (b *book) fieldTitle(table, name string) string {
	for _, t := range b.in.Tables {
		for _, f := range t.Fields {
			if t.Name == table && f.Name == name {
				if b.in.Settings().Metric() {
					return cmp.Or(f.MetricTitle, f.Title)
				}
				return f.Title
			}
		}
	}
	return words.Capital(strings.ReplaceAll(name, "_", " "))
}

// fillRecords writes the records with their places.
func (b *book) fillRecords() {
	var read []ledger.Cell
	for t := range recordTables(b.shown) {
		s := b.records[t.name]
		s.Landscape, s.Filter, s.Long, s.Freeze = true, true, true, 3
		s.Note("The rows of this table of the tax year, also those after the period, and those of pieces still here, with " +
			"where each stands. Names and lists are resolved; amounts of supplies are in their usual containers.")
		for _, r := range t.records {
			b.cells = append(b.cells[:0], wb.Text(r.At.File), wb.Text(r.At.Sheet), no(r.At.Row))
			read = r.Cells(read[:0])
			for _, c := range read {
				b.cells = append(b.cells, recordCell(c))
			}
			s.Row(wb.Normal, b.cells...)
		}
	}
}
