package starter

import (
	"fmt"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"piecebook/templates"
)

// Rows of the sheet of lists: its title, a line of words, the heads, then the
// choices; the kinds have room for the owner's own.
const (
	listsHead  = 3
	listsFirst = 4
	kindsLast  = 200
	// namesLast is the last row of the names that are worked out, namedLast the
	// last row of a table that they are worked out from.
	namesLast = 150
	namedLast = 250
)

// list is one column of choices on the sheet of lists.
type list struct {
	head    string
	choices []string
}

// lists are the columns of choices, the kinds first. Columns of different
// tables with the same choices share one.
type lists struct {
	all    []list
	names  []templates.Table         // whose names are worked out, to the right of all
	source map[templates.Cell]string // of references: where their names stand
}

// newLists gathers the choices of all tables.
func newLists(set *templates.Set, tables []templates.Table) lists {
	kinds := list{head: "Kinds of piece"}
	for _, a := range set.Areas {
		kinds.choices = append(kinds.choices, a.Kind)
	}
	l := lists{all: []list{kinds, {"Yes or no", []string{"yes", "no"}}}, source: map[templates.Cell]string{}}
	for _, t := range tables {
		for _, f := range t.Fields {
			if len(f.Constraints.Enum) > 0 && l.find(f.Constraints.Enum) < 0 {
				l.all = append(l.all, list{t.Title + ": " + strings.ToLower(f.Title), f.Constraints.Enum})
			}
		}
	}
	for cell, table := range map[templates.Cell]string{templates.PieceRef: "pieces", templates.PieceList: "pieces",
		templates.SupplyRef: "supplies", templates.LotRef: "lots", templates.ScheduleRef: "schedules",
		templates.ChannelRef: "channels"} {
		// The name is each table's first column.
		t := set.Table(table)
		l.source[cell] = fmt.Sprintf("%s!$A$%d:$A$%d", quoted(t.Title), firstRow(*t), choiceRow)
	}
	l.workOutNames(set)
	return l
}

// workOutNames has the names of supplies and schedules offered as formulas find
// them: their example lines are there to be made the owner's, and a line counts
// once it says example: no longer; a schedule has a line for each of its supplies.
func (l *lists) workOutNames(set *templates.Set) {
	for _, cell := range []templates.Cell{templates.SupplyRef, templates.ScheduleRef} {
		table := map[templates.Cell]string{templates.SupplyRef: "supplies", templates.ScheduleRef: "schedules"}[cell]
		l.names = append(l.names, *set.Table(table))
		name := column(len(l.all) + len(l.names))
		l.source[cell] = fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(templates.ListsSheet), name, listsFirst, name, namesLast)
	}
}

// find is the list with these choices, -1 where there is none.
func (l *lists) find(choices []string) int {
	return slices.IndexFunc(l.all, func(o list) bool { return slices.Equal(o.choices, choices) })
}

// rangeOf is where a list's choices stand.
func (l *lists) rangeOf(i int) string {
	last := listsFirst + len(l.all[i].choices) - 1
	if i == 0 {
		last = kindsLast
	}
	return fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(templates.ListsSheet), column(i+1), listsFirst, column(i+1), last)
}

// choices offers a column's choices, never stopping what else is typed: a cell
// may name several pieces. Where only the choices can be read, another word is
// warned of; a name that is on no other sheet yet is remarked on; of pieces,
// kinds and channels nothing is said. Those carry the mildest style all the
// same, since a program that loses 'say nothing' would else make it a stop.
func (m *maker) choices(t templates.Table, n int, f templates.Field) {
	dv := excelize.NewDataValidation(true)
	dv.SetError(excelize.DataValidationErrorStyleInformation, f.Title, "This is not on the list. It is kept "+
		"as you typed it.")
	switch source := m.lists.source[f.Cell]; {
	case len(f.Constraints.Enum) > 0:
		dv.SetSqrefDropList(m.lists.rangeOf(m.lists.find(f.Constraints.Enum)))
		dv.SetError(excelize.DataValidationErrorStyleWarning, f.Title, "piecebook knows only the choices of the list here.")
	case f.Cell == templates.YesNo:
		dv.SetSqrefDropList(m.lists.rangeOf(1))
		dv.SetError(excelize.DataValidationErrorStyleWarning, f.Title, "Type yes or no.")
	case f.Name == "kind" && f.Cell == templates.Text:
		dv.SetSqrefDropList(m.lists.rangeOf(0))
		dv.ShowErrorMessage = false
	case source != "":
		dv.SetSqrefDropList(source)
		dv.ShowErrorMessage = f.Cell != templates.PieceList && f.Cell != templates.ChannelRef
	default:
		return
	}
	dv.SetSqref(fmt.Sprintf("%s%d:%s%d", column(n), firstRow(t), column(n), choiceRow))
	m.try(m.book.AddDataValidation(t.Title, dv))
}

// listsSheet writes the choices out.
func (m *maker) listsSheet() {
	const sheet = templates.ListsSheet
	m.try(m.book.SetCellStr(sheet, "A1", templates.ListsOpening))
	m.try(m.book.SetCellStyle(sheet, "A1", "A1", m.running("list title", deep, 14, true)))
	m.try(m.book.SetCellStr(sheet, "A2", "Add kinds of your own below the others, and they are offered too. The other "+
		"columns are all that piecebook knows."))
	m.try(m.book.SetCellStyle(sheet, "A2", "A2", m.running("list words", greyInk, size, false)))
	m.try(m.book.SetRowHeight(sheet, 1, 24))
	m.try(m.book.SetRowHeight(sheet, listsHead, 30))
	head, plain := m.header(free, false), m.cell(templates.Text, false)
	for i, l := range m.lists.all {
		m.try(m.book.SetColWidth(sheet, column(i+1), column(i+1), 21))
		m.try(m.book.SetCellStr(sheet, at(i+1, listsHead), l.head))
		m.try(m.book.SetCellStyle(sheet, at(i+1, listsHead), at(i+1, listsHead), head))
		for j, c := range l.choices {
			m.try(m.book.SetCellStr(sheet, at(i+1, listsFirst+j), c))
		}
		last := listsFirst + len(l.choices) - 1
		if i == 0 {
			last = kindsLast
		}
		m.try(m.book.SetCellStyle(sheet, at(i+1, listsFirst), at(i+1, last), plain))
	}
	for i, t := range m.lists.names {
		m.names(t, len(m.lists.all)+1+i, len(m.lists.all)+len(m.lists.names)+1+i)
	}
	m.try(m.book.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: listsHead, TopLeftCell: at(1, listsFirst),
		ActivePane: "bottomLeft"}))
	m.page(sheet, guide)
}

// names works out a table's names in one column: each once, in the order of its
// lines, without the example lines. A hidden column beside it numbers the lines
// that bring a new name. Only functions that every spreadsheet program knows.
func (m *maker) names(t templates.Table, names, numbers int) {
	const sheet = templates.ListsSheet
	from, number := quoted(t.Title), column(numbers)
	m.try(m.book.SetColWidth(sheet, column(names), column(names), 21))
	m.try(m.book.SetCellStr(sheet, at(names, listsHead), "Your "+strings.ToLower(t.Title)))
	m.try(m.book.SetCellStyle(sheet, at(names, listsHead), at(names, listsHead), m.header(free, false)))
	for row := headerRow + 1; row <= namedLast; row++ {
		m.try(m.book.SetCellFormula(sheet, at(numbers, listsFirst+row-headerRow-1),
			fmt.Sprintf(`IF(OR(%[1]s!A%[2]d="",LEFT(%[1]s!A%[2]d,%[3]d)="%[4]s",COUNTIF(%[1]s!A$1:A%[5]d,%[1]s!A%[2]d)>0),"",`+
				`COUNT(%[6]s$%[7]d:%[6]s%[8]d)+1)`, from, row, len(templates.ExamplePrefix), templates.ExamplePrefix, row-1, number,
				listsHead, listsFirst+row-headerRow-2)))
	}
	last := listsFirst + namedLast - headerRow - 1
	for row := listsFirst; row <= namesLast; row++ {
		m.try(m.book.SetCellFormula(sheet, at(names, row),
			fmt.Sprintf(`IFERROR(INDEX(%s!A$%d:A$%d,MATCH(%d,%s$%d:%s$%d,0)),"")`,
				from, headerRow+1, namedLast, row-listsFirst+1, number, listsFirst, number, last)))
	}
	m.try(m.book.SetCellStyle(sheet, at(names, listsFirst), at(names, namesLast), m.cell(templates.Text, false)))
	m.try(m.book.SetColVisible(sheet, number, false))
}
