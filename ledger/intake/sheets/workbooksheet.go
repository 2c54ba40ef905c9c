package sheets

import (
	"encoding/xml"
	"strconv"
	"strings"

	"piecebook/ledger/fault"
)

// mark is what a cell is beyond its text.
type mark struct {
	style uint16
	kind  markKind
}

// markKind is a set of the following.
type markKind uint8

const (
	markText     markKind = 1 << iota // saved as text, not as a number
	markFormula                       // a formula
	markValue                         // has a value
	markTick                          // yes or no, as a tick box is saved
	markSum                           // a formula that sums rows above
	markStruck                        // its text is crossed out, all of it
	markOwnLooks                      // its text has parts with looks of their own, not all crossed out
)

// sheetPart reads a sheet from the tokens of its part.
type sheetPart struct {
	book  *workbook
	sheet *Sheet
	part  string
	width int        // of the first rows that are not blank
	long  fault.List // cells that are too long

	line      Line
	rowHidden bool
	filled    bool // some cell of the row is filled or a formula
	inData    bool // among the rows
	inCell    bool
	column    int
	kind      string // how the cell's value is saved
	cell      mark
	formula   bool // the cell has the mark of a formula, be it empty
	inFormula bool
	ofFormula []byte // its words, as far as they are kept
	inline    bool   // the cell has a text of its own
	sound     bool   // how that text sounds
	runs      struckRuns
	own       []byte // that text
	value     []byte
	into      *[]byte // where text goes; nil: nowhere
}

// token takes the next token.
func (p *sheetPart) token(t xml.Token) error {
	switch e := t.(type) {
	case xml.StartElement:
		return p.start(e)
	case xml.EndElement:
		return p.end(e.Name.Local)
	case xml.CharData:
		if p.inFormula && len(e) > 0 {
			p.cell.kind |= markFormula
			p.ofFormula = append(p.ofFormula, e[:min(len(e), max(0, formulaMost-len(p.ofFormula)))]...)
		} else if p.into != nil && len(e) > 0 {
			p.cell.kind |= markValue
			if p.into == &p.own {
				p.own = p.runs.joined(p.own, e)
			} else {
				*p.into = append(*p.into, e...)
			}
		}
	}
	return nil
}

func (p *sheetPart) start(e xml.StartElement) error {
	switch name := e.Name.Local; {
	case name == "sheetData":
		p.inData = true
	case name == "col" && !p.inData:
		p.hiddenColumns(e)
	case name == "mergeCell" && !p.inData:
		if a, ok := readArea(attribute(e, "ref")); ok && len(p.sheet.Merged) < mergedMax {
			p.sheet.Merged = append(p.sheet.Merged, a)
		}
	case !p.inData:
	case name == "row":
		return p.startRow(e)
	case name == "c":
		return p.startCell(e)
	case !p.inCell:
	case name == "f":
		p.inFormula, p.formula = true, true
		if kind := attribute(e, "t"); kind == "shared" || kind == "array" || kind == "dataTable" {
			p.cell.kind |= markFormula
		}
	case name == "v":
		p.into = &p.value
	case name == "is":
		p.inline, p.runs = true, struckRuns{}
	case name == "rPh":
		p.sound = true
	case name == "t" && !p.sound:
		p.into = &p.own
	case p.inline:
		p.runs.start(e)
	}
	return nil
}

func (p *sheetPart) end(name string) error {
	switch name {
	case "sheetData":
		p.inData = false
	case "row":
		return p.endRow()
	case "c":
		p.inCell = false
		return p.endCell()
	case "v", "t":
		p.into = nil
	case "rPh":
		p.sound = false
	case "f":
		p.inFormula = false
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

// hiddenColumns keeps which columns are hidden. Those of an outline group are
// not: its + shows that they are there, and opens them.
func (p *sheetPart) hiddenColumns(e xml.StartElement) {
	if level := attribute(e, "outlineLevel"); level != "" && level != "0" {
		return
	}
	from, err := strconv.Atoi(attribute(e, "min"))
	to, err2 := strconv.Atoi(attribute(e, "max"))
	if isOn(attribute(e, "hidden")) && err == nil && err2 == nil && len(p.sheet.HiddenCols) < mergedMax {
		p.sheet.HiddenCols = append(p.sheet.HiddenCols, [2]int{from - 1, to - 1})
	}
}

// startRow holds rows to their order, since they are numbered by it.
func (p *sheetPart) startRow(e xml.StartElement) error {
	number := p.line.Number + 1
	if r := attribute(e, "r"); r != "" {
		n, err := strconv.Atoi(r)
		if err != nil {
			return errDamaged
		}
		number = n
	}
	if number <= p.line.Number || number > gridRows {
		return errDamaged
	}
	p.line = Line{Number: number}
	p.column, p.rowHidden, p.filled = -1, isOn(attribute(e, "hidden")), false
	return nil
}

func (p *sheetPart) startCell(e xml.StartElement) error {
	column := p.column + 1
	p.cell, p.kind, p.inCell, p.formula, p.inline = mark{}, "", true, false, false
	p.own, p.value, p.ofFormula = p.own[:0], p.value[:0], p.ofFormula[:0]
	for _, a := range e.Attr {
		switch a.Name.Local {
		case "r":
			c, row, ok := readCellName(a.Value)
			if !ok || row != p.line.Number {
				return errDamaged
			}
			column = c
		case "s":
			if n, err := strconv.ParseUint(a.Value, 10, 16); err == nil {
				p.cell.style = uint16(n)
			}
		case "t":
			p.kind = a.Value
			if p.kind == "s" || p.kind == "inlineStr" || p.kind == "str" || p.kind == "b" {
				p.cell.kind |= markText
			}
			if p.kind == "b" {
				p.cell.kind |= markTick
			}
		}
	}
	if column <= p.column || column >= gridColumns {
		return errDamaged
	}
	p.column = column
	return nil
}

// endCell keeps a cell that is filled or a formula.
func (p *sheetPart) endCell() error {
	if p.cell.kind&(markValue|markFormula) == 0 {
		return nil
	}
	if p.column >= sheetColsMax {
		return errTooBig
	}
	p.filled = true
	if len(p.ofFormula) > 0 && sumsAbove(string(p.ofFormula), p.line.Number) {
		p.cell.kind |= markSum
	}
	text, err := p.text()
	if err != nil || text == "" && !p.formula {
		return err
	}
	if overlong(text) {
		at := p.sheet.Place()
		at.Row, at.Column = p.line.Number, ColumnLetters(p.column)
		p.long.Add(tooLong(at, text))
		p.line.Broken, text = true, ""
	}
	if p.line.Cells == nil { // most rows are as wide as the first
		room := max(p.width, p.column+1)
		p.line.Cells, p.line.marks = make([]string, 0, room), make([]mark, 0, room)
	}
	for len(p.line.Cells) < p.column {
		p.line.Cells, p.line.marks = append(p.line.Cells, ""), append(p.line.marks, mark{})
	}
	p.line.Cells, p.line.marks = append(p.line.Cells, text), append(p.line.marks, p.cell)
	return nil
}

// text is the cell's text: its own, one of the list of texts, or its value. A
// tick box and the like is a word, not the number that it is saved as
// (ECMA-376 part 1, 18.18.11, ST_CellType b).
func (p *sheetPart) text() (string, error) {
	switch {
	case p.kind == "b" && len(p.value) > 0:
		if isOn(string(p.value)) {
			return "TRUE", nil
		}
		return "FALSE", nil
	case p.kind == "inlineStr" && p.inline:
		p.cell.kind |= p.runs.mark()
		return unescaped(p.own), nil
	case p.kind == "s" && len(p.value) > 0:
		n, err := strconv.Atoi(strings.TrimSpace(string(p.value)))
		if err != nil || n < 0 || n >= len(p.book.texts) {
			return "", errDamaged
		}
		p.cell.kind |= p.book.struckTexts[n]
		return p.book.texts[n], nil
	}
	return string(p.value), nil
}

// endRow keeps a row that holds something, or a formula below the column names
// that never got its value: that must be reported, not skipped.
func (p *sheetPart) endRow() error {
	if !p.filled {
		return nil
	}
	if p.rowHidden {
		p.sheet.HiddenRows = append(p.sheet.HiddenRows, p.line.Number)
	}
	if p.book.cells.Add(int64(len(p.line.Cells))) > sheetCellsMax {
		return errTooBig
	}
	if Blank(p.line.Cells) && !p.line.Broken && !p.unsavedRow() {
		return nil
	}
	if len(p.sheet.Lines) < TitleRowsMax {
		p.width = max(p.width, len(p.line.Cells))
	}
	p.sheet.Lines = append(p.sheet.Lines, p.line)
	if len(p.sheet.Lines) > sheetRowsMax {
		return errTooBig
	}
	return nil
}

// unsavedRow says that a row has such a formula.
func (p *sheetPart) unsavedRow() bool {
	for i := range p.line.marks[:min(p.width, len(p.line.marks))] {
		if p.sheet.Cell(p.line, i).IsUnsaved() {
			return true
		}
	}
	return false
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
func readArea(ref string) (a Area, ok bool) {
	from, to, _ := strings.Cut(ref, ":")
	var ok1, ok2 bool
	a.Left, a.Top, ok1 = readCellName(from)
	a.Right, a.Bottom, ok2 = readCellName(to)
	return a, ok1 && ok2
}
