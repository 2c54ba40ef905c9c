// Package sheets turns the files of a books folder into sheets: grids of texts
// with places. It knows what a file is, and nothing of tables.
//
// In: a folder. Out: one Sheet after another. Of a file sales.csv
//
//	sold_on,price
//	2026-03-09,"1,250"
//
// comes Sheet{File: "records/sales.csv", Known: "sales"} with the lines
// {Number: 1, Cells: {"sold_on", "price"}} and {Number: 2, Cells: {"2026-03-09", "1,250"}}.
//
// # What is read
//
// .csv, .tsv and .tab, .txt where it is named as a table is, and .xlsx, .xlsm
// and their templates, each by what its bytes are. Plain files are UTF-8 or
// UTF-16, marked or not, else Windows-1252 with a note; what separates their
// cells is found from the column names (comma, semicolon, tab or |); their lines
// end in LF, CRLF or CR; line breaks within quotation marks are kept as they are. A first line
// sep=; is no row. Hidden rows, columns and sheets are read; of merged cells
// the first has the value; a formula is the value it was saved with.
//
// Links are followed within the books folder, to files only; what is no file is
// not opened. The limits are constants in limits.go: what is beyond them is a
// problem, and no part of such a sheet is read.
package sheets

import (
	"fmt"
	"iter"
	"strings"

	"piecebook/ledger/fault"
)

// File is a file of records as it lies in the folder. The parts of Name, below
// the books folder, are separated by /.
type File struct {
	Name  string
	Bytes []byte
}

// Sheet is one grid of texts: a plain file, or a sheet of a workbook.
type Sheet struct {
	File  string
	Name  string // of the sheet in a workbook; empty for a plain file
	Known string // what its table is known by: sheet name, or the file's without ending
	Lines []Line // not wholly blank
	// Of a part of a sheet with several tables: the sheet, the heading above the
	// part and the first cell of its column names.
	Of                 *Sheet
	Heading, FirstCell string
	IsCash             bool // it has the rows of a cash book that have money in, or out
	IsTurned           bool // its rows are the columns of the sheet in the file
	// Of a plain file: what separates its cells, and the name of its letters'
	// encoding as registered with IANA.
	Separates, Letters string

	// Of a sheet of a workbook.
	InBook     bool
	Hidden     bool
	HiddenRows []int    // filled ones
	HiddenCols [][2]int // from and to, from 0
	Merged     []Area   // the first mergedMax of them
	styles     []style  // the workbook's number formats
	is1904     bool     // its count of days begins in 1904
}

// Line is one row. Number is the spreadsheet's own, from 1.
type Line struct {
	Number int
	Cells  []string
	Broken bool // it cannot be read, which has been reported
	// SumBeside says that a table on its left calls the row a total, and that it has
	// nothing but numbers itself.
	SumBeside bool
	marks     []mark // of a workbook, one for each cell
}

// Area is a block of cells, both corners in it; columns from 0, rows from 1.
type Area struct{ Left, Top, Right, Bottom int }

// Place is the sheet as a whole.
func (s *Sheet) Place() fault.Place { return fault.Place{File: s.File, Sheet: s.Name} }

// IsHiddenColumn says that a column (from 0) is hidden.
func (s *Sheet) IsHiddenColumn(column int) bool {
	for _, c := range s.HiddenCols {
		if column >= c[0] && column <= c[1] {
			return true
		}
	}
	return false
}

// Text is a cell's text (column from 0) without outer blanks; empty where the
// line ends before it.
func (l Line) Text(column int) string {
	if column >= len(l.Cells) {
		return ""
	}
	return strings.TrimSpace(l.Cells[column])
}

// Cell is one cell: its text without outer blanks and, of a workbook, what the
// text alone does not say. A cell of a plain file is always text.
type Cell struct {
	Text   string
	InBook bool
	Is1904 bool // a number that is a day counts from 1904
	kind   markKind
	style  style
}

// Cell is the cell of a line in a column (from 0), blank where there is none.
func (s *Sheet) Cell(l Line, column int) Cell {
	c := Cell{Text: l.Text(column), InBook: s.InBook, Is1904: s.is1904}
	if s.InBook && column < len(l.marks) {
		m := l.marks[column]
		c.kind = m.kind
		if m.kind != 0 && int(m.style) < len(s.styles) {
			c.style = s.styles[m.style]
			if m.kind&markText != 0 {
				c.style = style{struck: c.style.struck} // a text is shown as it is
			}
		}
	}
	return c
}

// IsText says that the cell was saved as text rather than as a number.
func (c Cell) IsText() bool { return !c.InBook || c.kind&markText != 0 }

// IsFormula says that the cell is a formula.
func (c Cell) IsFormula() bool { return c.kind&markFormula != 0 }

// IsUnsaved says that the cell is a formula that never got a value. One whose
// value is an empty text (the usual =IF(A2="","",...) ) is merely blank.
func (c Cell) IsUnsaved() bool { return c.IsFormula() && c.kind&(markText|markValue) == 0 }

// IsTick says that the cell is yes or no, as a tick box is saved.
func (c Cell) IsTick() bool { return c.kind&markTick != 0 }

// SumsAbove says that the cell is a formula that sums rows above it.
func (c Cell) SumsAbove() bool { return c.kind&markSum != 0 }

// IsStruck says that the cell is crossed out, by its font or all its text.
func (c Cell) IsStruck() bool {
	return c.kind&markStruck != 0 || c.style.struck && c.kind&markOwnLooks == 0
}

// IsMoney says that the cell is a number shown with two decimals or a currency.
func (c Cell) IsMoney() bool { return c.style.money }

// Currency is the sign or letters of the currency that a number is shown with.
func (c Cell) Currency() string { return c.style.currency }

// IsDate says that the cell is a number shown as a date or a time.
func (c Cell) IsDate() bool { return c.style.date }

// IsDay says that the cell is a number shown as a date, and not only as a time.
func (c Cell) IsDay() bool { return c.style.day }

// IsPercent says that the cell is a number shown as a percentage, which is
// stored as a hundredth of what is shown.
func (c Cell) IsPercent() bool { return c.style.percent }

// IsExponent says that the cell is a number shown with an exponent.
func (c Cell) IsExponent() bool { return c.style.exponent }

// Words are what the cell's number format shows before and after its number.
func (c Cell) Words() (before, after string) { return c.style.before, c.style.after }

// Zeros is with how many digits at least the cell's number is shown; 0 or 1
// where it is shown as it is.
func (c Cell) Zeros() int { return c.style.zeros }

// Blank says that a row holds nothing.
func Blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// ColumnLetters is a column as a spreadsheet letters it: 0 is A, 26 is AA.
func ColumnLetters(column int) string {
	if column >= 26 {
		return ColumnLetters(column/26-1) + string(rune('A'+column%26))
	}
	return string(rune('A' + column))
}

// Open reads files into their sheets one after another, as long as all their
// cells are within the limit. known says that a text is a column name, by which
// what separates the cells of a plain file is found.
func Open(files []File, known func(string) bool, problems *fault.List) iter.Seq[*Sheet] {
	return func(yield func(*Sheet) bool) {
		cells := 0
		for _, file := range files {
			for _, s := range openFile(file, known, problems) {
				for _, l := range s.Lines {
					cells += len(l.Cells) + rowWeight
				}
				if !yield(s) {
					return
				}
			}
			if cells > allCellsMax {
				problems.Add(tooBig(file.Name, fmt.Sprintf("The files up to here hold more than %d rows or %d million cells, far "+
					"above any shop's records, so the others are not read.",
					allCellsMax/rowWeight, allCellsMax/1_000_000), "Take out what is not records."))
				return
			}
		}
	}
}

// Shown is a row's filled cells, for showing it.
func (l Line) Shown() string {
	var filled []string
	for _, text := range l.Cells {
		if text = strings.TrimSpace(text); text != "" {
			filled = append(filled, text)
		}
	}
	return strings.Join(filled, ", ")
}

// Filled counts the cells of a row that hold something.
func Filled(cells []string) (n int) {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			n++
		}
	}
	return n
}
