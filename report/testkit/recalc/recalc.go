// Package recalc works a workbook's formulas out again, exactly, and holds the
// results that stand beside them to that. It knows the few functions that our
// formulas use; anything else is an error, as is a sum's condition that a
// spreadsheet program could take for another (a wildcard, a text that looks
// like a number). Tests use it; nothing else.
package recalc

import (
	"fmt"
	"math/big"
	"strings"

	"piecebook/report/workbook"
)

// value is what a cell or an expression is: a number, words, or nothing.
type value struct {
	number *big.Rat
	text   string
	yes    *bool
}

func (v value) empty() bool { return v.number == nil && v.text == "" && v.yes == nil }

// key is a value for finding equal ones; spreadsheets compare words without
// regard to case.
func (v value) key() string {
	if v.number != nil {
		return "n" + v.number.RatString()
	}
	return "t" + strings.ToLower(v.text)
}

// engine works cells out as they are asked for.
type engine struct {
	sheets map[string]*workbook.Sheet
	rows   map[*workbook.Sheet][]workbook.Row
	done   map[string]value
	busy   map[string]bool
	index  map[string]map[string][]int // by column, then value: offsets
}

func newEngine(b *workbook.Book) *engine {
	e := &engine{sheets: map[string]*workbook.Sheet{}, rows: map[*workbook.Sheet][]workbook.Row{},
		done: map[string]value{}, busy: map[string]bool{},
		index: map[string]map[string][]int{}}
	for _, s := range b.Sheets {
		e.sheets[s.Name] = s
		for i := range s.Len() {
			e.rows[s] = append(e.rows[s], s.At(i))
		}
	}
	return e
}

// Check is every formula whose result is not what stands beside it, one line
// each; none where all is well. It also gives how many formulas there are.
func Check(b *workbook.Book) (wrong []string, formulas int) {
	e := newEngine(b)
	for _, s := range b.Sheets {
		for i, r := range s.Rows() {
			for j, c := range r.Cells {
				if c.Formula == "" {
					continue
				}
				formulas++
				at := fmt.Sprintf("%s!%s%d", s.Name, workbook.Letter(j), s.FirstRow()+i)
				got, err := e.cell(s, j, s.FirstRow()+i)
				switch stands := (value{number: c.Value.Rat(), text: c.Text}); {
				case err != nil:
					wrong = append(wrong, fmt.Sprintf("%s =%s: %v", at, c.Formula, err))
				case got.key() != stands.key():
					wrong = append(wrong, fmt.Sprintf("%s =%s: works out as %s, but %s stands there", at, c.Formula, got, stands))
				}
			}
		}
	}
	return wrong, formulas
}

func (v value) String() string {
	if v.number != nil {
		return strings.TrimRight(strings.TrimRight(v.number.FloatString(12), "0"), ".")
	}
	return fmt.Sprintf("%q", v.text)
}

// cell is what a cell is: its value, or what its formula comes to.
func (e *engine) cell(s *workbook.Sheet, col, row int) (value, error) {
	if row == s.HeadRow() && col < len(s.Columns) {
		return value{text: s.Columns[col].Head}, nil
	}
	i := row - s.FirstRow()
	if i < 0 || i >= len(e.rows[s]) || col >= len(e.rows[s][i].Cells) {
		return value{}, nil
	}
	c := e.rows[s][i].Cells[col]
	if c.Formula == "" {
		return value{number: c.Value.Rat(), text: c.Text}, nil
	}
	at := fmt.Sprintf("%s!%d,%d", s.Name, col, row)
	if v, ok := e.done[at]; ok {
		return v, nil
	}
	if e.busy[at] {
		return value{}, fmt.Errorf("%s goes round in a circle", at)
	}
	e.busy[at] = true
	defer delete(e.busy, at)
	v, err := e.work(s, c.Formula)
	if err != nil {
		return value{}, err
	}
	if v.yes != nil {
		return value{}, fmt.Errorf("yes or no is no result of ours")
	}
	if v.empty() {
		v.number = new(big.Rat) // a reference to an empty cell is 0
	}
	e.done[at] = v
	return v, nil
}

// span is a range of one column.
type span struct {
	sheet       *workbook.Sheet
	col         int
	first, last int
}

func (r span) String() string {
	return fmt.Sprintf("%s!%d:%d-%d", r.sheet.Name, r.col, r.first, r.last)
}

// values are a range's cells.
func (e *engine) values(r span) ([]value, error) {
	out := make([]value, 0, r.last-r.first+1)
	for row := r.first; row <= r.last; row++ {
		v, err := e.cell(r.sheet, r.col, row)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

// Worked is what a cell comes to when the book's formulas are worked out: a
// number in digits, or words in quotation marks.
func Worked(b *workbook.Book, sheet, head string, row int) (string, error) {
	e := newEngine(b)
	s := e.sheets[sheet]
	if s == nil {
		return "", fmt.Errorf("there is no sheet %q", sheet)
	}
	for j, c := range s.Columns {
		if c.Head == head {
			v, err := e.cell(s, j, row)
			return v.String(), err
		}
	}
	return "", fmt.Errorf("there is no column %q in sheet %s", head, sheet)
}
