package intake

import (
	"cmp"
	"encoding/xml"
	"slices"
	"strconv"
	"strings"
)

// sheetFacts is what a walk through a sheet finds beside the cells' texts.
type sheetFacts struct {
	name       string
	part       string
	id         string // of the link to the part
	hidden     bool
	hiddenRows []int          // filled ones
	hiddenCols [][2]int       // from and to, from 0
	merged     []area         // the first mergedMax of them
	marks      map[int][]mark // by row, in the order of columns
	formulas   bool           // some cell is a formula
}

// mergedMax is how many merged areas of a sheet are remembered.
const mergedMax = 1_000

// area is a block of cells, both corners in it; columns from 0, rows from 1.
type area struct{ left, top, right, bottom int }

// mark is what a filled cell is beyond its text.
type mark struct {
	column, style uint16
	kind          markKind
}

// markKind is a set of the following.
type markKind uint8

const (
	markText    markKind = 1 << iota // saved as text, not as a number
	markFormula                      // a formula
	markValue                        // has a value
)

// at is the mark of a cell (column from 0); the zero mark where it is blank.
func (f *sheetFacts) at(column, row int) mark {
	marks := f.marks[row]
	i, found := slices.BinarySearchFunc(marks, column, func(m mark, c int) int { return cmp.Compare(int(m.column), c) })
	if !found {
		return mark{}
	}
	return marks[i]
}

// The least and most that a sheet of the standard can have.
const (
	gridColumns = 16_384
	gridRows    = 1_048_576
)

// sheetWalk notes a sheet's facts from its tokens.
type sheetWalk struct {
	in        *inspection
	facts     *sheetFacts
	row       int
	rowHidden bool
	column    int
	cell      mark
	inData    bool
	inCell    bool
	inValue   bool // within the value of a cell or its own text
	inFormula bool
	toList    bool // the cell is a number into the list of texts
}

// token takes the next token.
func (w *sheetWalk) token(t xml.Token) error {
	switch e := t.(type) {
	case xml.StartElement:
		return w.start(e)
	case xml.EndElement:
		return w.end(e.Name.Local)
	case xml.CharData:
		return w.chars(e)
	}
	return nil
}

func (w *sheetWalk) start(e xml.StartElement) error {
	name := e.Name.Local
	switch {
	case name == "sheetData":
		w.inData = true
	case name == "col" && !w.inData:
		w.hiddenColumns(e)
	case name == "mergeCell" && !w.inData:
		if a, ok := readArea(attribute(e, "ref")); ok && len(w.facts.merged) < mergedMax {
			w.facts.merged = append(w.facts.merged, a)
		}
	case !w.inData:
	case name == "row":
		return w.startRow(e)
	case name == "c":
		return w.startCell(e)
	case name == "f" && w.inCell:
		w.inFormula = true
		if kind := attribute(e, "t"); kind == "shared" || kind == "array" || kind == "dataTable" {
			w.cell.kind |= markFormula
		}
	case name == "v" || name == "t":
		w.inValue = w.inCell
	}
	return nil
}

// attribute is an attribute's value, empty where it is not there.
func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// isOn says that a yes-no attribute is yes.
func isOn(value string) bool { return value == "1" || value == "true" || value == "on" }

func (w *sheetWalk) hiddenColumns(e xml.StartElement) {
	from, err := strconv.Atoi(attribute(e, "min"))
	to, err2 := strconv.Atoi(attribute(e, "max"))
	if isOn(attribute(e, "hidden")) && err == nil && err2 == nil && len(w.facts.hiddenCols) < mergedMax {
		w.facts.hiddenCols = append(w.facts.hiddenCols, [2]int{from - 1, to - 1})
	}
}

// startRow holds rows to their order: one that stands before an earlier one
// would be lost by the library.
func (w *sheetWalk) startRow(e xml.StartElement) error {
	number := w.row + 1
	if r := attribute(e, "r"); r != "" {
		n, err := strconv.Atoi(r)
		if err != nil {
			return errMissing
		}
		number = n
	}
	if number <= w.row || number > gridRows {
		return errMissing
	}
	w.row, w.column, w.rowHidden = number, -1, isOn(attribute(e, "hidden"))
	return nil
}

func (w *sheetWalk) startCell(e xml.StartElement) error {
	column := w.column + 1
	w.cell, w.inCell, w.toList = mark{}, true, false
	for _, a := range e.Attr {
		switch a.Name.Local {
		case "r":
			c, row, ok := readCellName(a.Value)
			if !ok || row != w.row {
				return errMissing
			}
			column = c
		case "s":
			if n, err := strconv.ParseUint(a.Value, 10, 16); err == nil {
				w.cell.style = uint16(n)
			}
		case "t":
			w.toList = a.Value == "s"
			if w.toList || a.Value == "inlineStr" || a.Value == "str" {
				w.cell.kind |= markText
			}
		}
	}
	if column <= w.column || column >= gridColumns {
		return errMissing
	}
	w.column = column
	w.cell.column = uint16(column)
	return nil
}

func (w *sheetWalk) end(name string) error {
	switch name {
	case "sheetData":
		w.inData = false
	case "c":
		w.inCell = false
		return w.endCell()
	case "v", "t", "is":
		w.inValue = false
	case "f":
		w.inFormula = false
	}
	return nil
}

// endCell keeps the mark of a cell that is filled or a formula.
func (w *sheetWalk) endCell() error {
	f := w.facts
	if w.cell.kind&(markValue|markFormula) == 0 {
		return nil
	}
	w.in.cells++
	f.formulas = f.formulas || w.cell.kind&markFormula != 0
	if w.rowHidden && (len(f.hiddenRows) == 0 || f.hiddenRows[len(f.hiddenRows)-1] != w.row) {
		f.hiddenRows = append(f.hiddenRows, w.row)
	}
	f.marks[w.row] = append(f.marks[w.row], w.cell)
	if w.in.cells > sheetCellsMax || len(f.marks) > sheetRowsMax || w.column >= sheetColsMax {
		return errTooBig
	}
	return nil
}

// chars takes text. A number into the list of texts must be in it.
func (w *sheetWalk) chars(text []byte) error {
	switch {
	case len(text) == 0:
	case w.inFormula:
		w.cell.kind |= markFormula
	case w.inValue:
		w.cell.kind |= markValue
		if !w.toList {
			return nil
		}
		n, err := strconv.Atoi(strings.TrimSpace(string(text)))
		if err != nil || n < 0 {
			return errMissing
		}
		w.in.needed = max(w.in.needed, n+1)
	}
	return nil
}

// readCellName reads B4 as column 1, row 4.
func readCellName(name string) (column, row int, ok bool) {
	letters := strings.TrimRight(name, "0123456789")
	row, err := strconv.Atoi(name[len(letters):])
	if err != nil || letters == "" || len(letters) > 3 {
		return 0, 0, false
	}
	for _, c := range strings.ToUpper(letters) {
		if c < 'A' || c > 'Z' {
			return 0, 0, false
		}
		column = column*26 + int(c-'A') + 1
	}
	return column - 1, row, true
}

// readArea reads B2:C5.
func readArea(ref string) (a area, ok bool) {
	from, to, _ := strings.Cut(ref, ":")
	var ok1, ok2 bool
	a.left, a.top, ok1 = readCellName(from)
	a.right, a.bottom, ok2 = readCellName(to)
	return a, ok1 && ok2
}
