package starter

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"piecebook/report/xlsx"
	"piecebook/templates"
)

// Rows of a table's sheet: the header, the examples, then the owner's.
const (
	headerRow = 1
	// preparedRow is the last row with prepared cells. Below it the columns
	// carry the formats, which most programs heed.
	preparedRow = 500
	// ruledRow is the last row with lines to write on: printed empty, a sheet is
	// one page of a book kept on paper. What is typed below prints all the same.
	ruledRow = 22
	// choiceRow is the last row that offers choices, and the last that the
	// lists draw from.
	choiceRow = 2000
)

// maker builds the workbook; the first error stands in styles.err.
type maker struct {
	styles
	set   *templates.Set
	lists lists
}

// Workbook is the workbook to fill in: where to begin, the four tables that give
// costed pieces, those of daily work, the others, and the lists. The same bytes every time.
func Workbook(set *templates.Set) ([]byte, error) {
	m := &maker{styles: styles{book: excelize.NewFile(), made: map[string]int{}}, set: set}
	defer func() { _ = m.book.Close() }() // nothing of it is on the disk
	m.try(m.book.SetDefaultFont(face))
	m.try(m.book.SetSheetName("Sheet1", templates.BeginSheet))
	tables := inOrder(set.Tables)
	for _, t := range tables {
		m.newSheet(t.Title)
	}
	m.newSheet(templates.ListsSheet)
	m.lists = newLists(set, tables)
	m.beginSheet(tables)
	for _, t := range tables {
		m.tableSheet(t)
	}
	m.listsSheet()
	// Neither the clock nor the machine is in it.
	m.try(m.book.SetDocProps(&excelize.DocProperties{Title: "Shop book", Creator: "piecebook", LastModifiedBy: "piecebook",
		Created: "2026-01-01T00:00:00Z", Modified: "2026-01-01T00:00:00Z"}))
	m.book.SetActiveSheet(0)
	if m.err != nil {
		return nil, fmt.Errorf("laying out the workbook: %w", m.err)
	}
	var out bytes.Buffer
	if err := m.book.Write(&out); err != nil {
		return nil, fmt.Errorf("writing the workbook: %w", err)
	}
	return xlsx.Repack(out.Bytes())
}

// try keeps the first error.
func (m *maker) try(err error) {
	if m.err == nil {
		m.err = err
	}
}

func (m *maker) newSheet(name string) {
	_, err := m.book.NewSheet(name)
	m.try(err)
}

// firstRow is the first row below a table's examples.
func firstRow(t templates.Table) int { return headerRow + 1 + len(t.ExampleRows) }

// beginWith are the tables that alone give costed pieces; they stand first.
var beginWith = []string{"pieces", "supplies", "schedules", "purchases"}

// stage is when a table is needed: to begin with, as work goes on, or later.
func stage(t templates.Table) int {
	switch {
	case slices.Contains(beginWith, t.Name):
		return 0
	case t.Essential:
		return 1
	}
	return 2
}

// inOrder is the tables by when they are needed.
func inOrder(tables []templates.Table) []templates.Table {
	out := slices.Clone(tables)
	slices.SortStableFunc(out, func(a, b templates.Table) int {
		return cmp.Or(cmp.Compare(stage(a), stage(b)), cmp.Compare(slices.Index(beginWith, a.Name),
			slices.Index(beginWith, b.Name)))
	})
	return out
}

// tableSheet lays out one table.
func (m *maker) tableSheet(t templates.Table) {
	fields, first := t.InOrderOfUse()
	for i, f := range fields {
		m.column(t, i+1, f)
	}
	m.foldAway(t.Title, first+1, len(fields))
	m.try(m.book.SetRowHeight(t.Title, headerRow, 30))
	for row := firstRow(t); row <= ruledRow; row++ {
		m.try(m.book.SetRowHeight(t.Title, row, 21))
	}
	m.try(m.book.SetPanes(t.Title, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: 1, TopLeftCell: "B2",
		ActivePane: "bottomLeft",
		Selection:  []excelize.Selection{{SQRef: at(1, firstRow(t)), ActiveCell: at(1, firstRow(t)), Pane: "bottomLeft"}}}))
	tab := later
	if stage(t) < 2 {
		tab = essential
	}
	m.page(t.Title, tab)
	last := column(len(fields))
	// No warning triangle beside each number that is text on purpose.
	m.try(m.book.AddIgnoredErrors(t.Title, fmt.Sprintf("A2:%s%d", last, choiceRow),
		excelize.IgnoredErrorsNumberStoredAsText))
	m.try(m.book.SetSheetDimension(t.Title, fmt.Sprintf("A1:%s%d", last, preparedRow)))
	m.try(m.book.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", Scope: t.Title,
		RefersTo: fmt.Sprintf("%s!$A:$A,%s!$1:$1", quoted(t.Title), quoted(t.Title))}))
}

// foldAway hides columns in an outline group, which a click on its + opens.
func (m *maker) foldAway(sheet string, from, to int) {
	for n := from; n <= to; n++ {
		m.try(m.book.SetColOutlineLevel(sheet, column(n), 1))
		m.try(m.book.SetColVisible(sheet, column(n), false))
	}
}

// column lays out one column: its format down the sheet, its header with a
// note, the examples, and its choices.
func (m *maker) column(t templates.Table, n int, f templates.Field) {
	sheet, name := t.Title, column(n)
	plain := m.cell(f.Cell, false)
	m.try(m.book.SetColStyle(sheet, name, plain))
	m.try(m.book.SetColWidth(sheet, name, name, width(t, n, f)))
	m.try(m.book.SetCellStyle(sheet, at(n, firstRow(t)), at(n, preparedRow), plain))
	m.try(m.book.SetCellStyle(sheet, at(n, firstRow(t)), at(n, ruledRow), m.ruled(f.Cell)))
	needed, sign := needOf(f)
	m.try(m.book.SetCellStr(sheet, at(n, headerRow), f.Title+sign))
	m.try(m.book.SetCellStyle(sheet, at(n, headerRow), at(n, headerRow), m.header(needed, rightAligned(f.Cell))))
	m.note(sheet, at(n, headerRow), f)
	for i, row := range t.ExampleRows {
		cell := at(n, headerRow+1+i)
		kind := f.Cell
		if n == 1 {
			kind = templates.Text // since it holds the words example:
		}
		m.try(m.book.SetCellStyle(sheet, cell, cell, m.cell(kind, true)))
		m.example(sheet, cell, n == 1, f, row[f.Name])
	}
	m.choices(t, n, f)
}

// example writes a cell of an example line the way it would be typed: a date
// as a date, an amount as a number. The first cell says that the line is not
// read.
func (m *maker) example(sheet, cell string, first bool, f templates.Field, text string) {
	switch {
	case first:
		m.try(m.book.SetCellStr(sheet, cell, templates.ExamplePrefix+" "+text))
	case text == "":
	case f.Cell == templates.Date:
		day, err := dayNumber(text)
		m.try(err)
		m.try(m.book.SetCellInt(sheet, cell, day))
	case rightAligned(f.Cell) && isNumber(text):
		m.try(m.book.SetCellDefault(sheet, cell, text))
	default:
		m.try(m.book.SetCellStr(sheet, cell, text))
	}
}

func isNumber(text string) bool {
	_, err := strconv.ParseFloat(text, 64)
	return err == nil
}

// note is the header's note: what to type, from the descriptor.
func (m *maker) note(sheet, cell string, f templates.Field) {
	text := NoteText(f)
	lines := 0
	for line := range strings.SplitSeq(text, "\n") {
		lines += 1 + utf8.RuneCountInString(line)/34
	}
	m.try(m.book.AddComment(sheet, excelize.Comment{Cell: cell, Author: "piecebook", Width: 240,
		Height:    uint(24 + 15*lines),
		Paragraph: []excelize.RichTextRun{{Text: text, Font: &excelize.Font{Family: face, Size: 9, Color: "000000"}}}}))
}

// NoteText is a header's note: what the column holds, when it is needed, what
// a blank means, its limits, and an example.
func NoteText(f templates.Field) string {
	lines := f.Told()
	if f.Constraints.Required {
		lines = append(lines, "Always filled in.")
	}
	return strings.Join(append(lines, "For example: "+f.Example), "\n")
}

// page sets a sheet's tab and how it prints: lying, and as wide as one page.
func (m *maker) page(sheet, tab string) {
	yes, none, wide, lying, letter := true, 0, 1, "landscape", 1
	m.try(m.book.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &yes, TabColorRGB: &tab}))
	m.try(m.book.SetPageLayout(sheet, &excelize.PageLayoutOptions{Size: &letter, Orientation: &lying, FitToWidth: &wide,
		FitToHeight: &none}))
	margin, small := 0.8, 0.5
	m.try(m.book.SetPageMargins(sheet, &excelize.PageLayoutMarginsOptions{Left: &margin, Right: &margin, Top: &margin,
		Bottom: &margin, Header: &small, Footer: &small}))
	m.try(m.book.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddHeader: "&L&A",
		OddFooter: "&LShop book&RPage &P of &N"}))
}

// width is a column's width in characters: its header's, its examples', and
// what is usually typed there.
func width(t templates.Table, n int, f templates.Field) float64 {
	widest := 9
	for _, row := range t.ExampleRows {
		text := row[f.Name]
		if n == 1 {
			text = templates.ExamplePrefix + " " + text
		}
		widest = max(widest, utf8.RuneCountInString(text)+2)
	}
	_, sign := needOf(f)
	for word := range strings.FieldsSeq(f.Title) {
		widest = max(widest, utf8.RuneCountInString(word+sign)+3)
	}
	switch f.Cell {
	case templates.PieceList:
		widest = max(widest, 16)
	case templates.Date:
		widest = max(widest, 12)
	}
	return float64(min(widest, 30))
}
