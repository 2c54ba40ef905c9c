package tables

import (
	"slices"
	"strings"
	"unicode"

	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
)

// rowNames says of a row's cells how many of them name columns of one table, the
// one with most, and whether all that some table needs are among them.
type rowNames func(cells []string) (known int, complete bool)

// splitSheet finds the tables on a sheet. The result is the sheet itself where it has
// one, or none; otherwise each has its name and heading (sheets.Sheet.Part).
func splitSheet(s *sheets.Sheet, isName func(string) bool, names rowNames) []*sheets.Sheet {
	g := grid{sheet: s, isName: isName, names: names}
	all := area{0, len(s.Lines), 0, 0}
	for _, l := range s.Lines {
		all.right = max(all.right, len(l.Cells))
	}
	areas := g.split(all, 0)
	if len(areas) < 2 {
		return []*sheets.Sheet{s}
	}
	out := make([]*sheets.Sheet, len(areas))
	taken := map[string]bool{}
	for i, a := range areas {
		head := g.header(a)
		heading := g.heading(a, head)
		if taken[values.Compact(heading)] {
			heading = "" // two of one heading go by their first cells
		}
		taken[values.Compact(heading)] = true
		out[i] = s.Part(heading, g.firstCell(a, head), a.from, a.to, a.left, a.right)
		g.markSums(out[i], a)
	}
	return out
}

// markSums marks the rows of a part that are called totals on its left.
func (g *grid) markSums(part *sheets.Sheet, a area) {
	whole := map[int]sheets.Line{}
	for _, l := range g.sheet.Lines[a.from:a.to] {
		whole[l.Number] = l
	}
	for i := range part.Lines {
		l := &part.Lines[i]
		left := whole[l.Number].Cells
		l.SumBeside = slices.ContainsFunc(left[:min(a.left, len(left))], columns.IsTotal) && onlyNumbers(part, *l)
	}
}

// onlyNumbers says that a row holds numbers, and no words and no day.
func onlyNumbers(s *sheets.Sheet, l sheets.Line) bool {
	for i := range l.Cells {
		c := s.Cell(l, i)
		if c.Text != "" && (!startsNumber(c.Text) || c.IsDate() || c.IsText() && values.IsDate(c)) {
			return false
		}
	}
	return true
}

// area is a part of a sheet: its lines and columns, up to but without to and right.
type area struct{ from, to, left, right int }

type grid struct {
	sheet  *sheets.Sheet
	isName func(string) bool
	names  rowNames
}

// deepest is how often a sheet is divided in turn.
const deepest = 6

func (g *grid) split(a area, depth int) []area {
	if depth < deepest {
		for _, divide := range []func(area) []area{g.beside, g.below} {
			if parts := divide(a); len(parts) > 1 {
				var out []area
				for _, p := range parts {
					out = append(out, g.split(p, depth+1)...)
				}
				return out
			}
		}
	}
	return []area{a}
}

// cells are a line's cells within an area.
func (g *grid) cells(a area, line int) []string {
	c := g.sheet.Lines[line].Cells
	return c[min(a.left, len(c)):min(a.right, len(c))]
}

// header is the first line of an area that names columns; -1 where none of the
// first ones does.
func (g *grid) header(a area) int {
	for i := a.from; i < min(a.to, a.from+sheets.TitleRowsMax); i++ {
		if g.namesColumns(g.cells(a, i)) {
			return i
		}
	}
	return -1
}

// namesColumns says that a row is column names: two at least and half of its
// cells are, and none begins like a number.
func (g *grid) namesColumns(cells []string) bool {
	filled, known := 0, 0
	for _, c := range cells { // first what is quick, since every row is looked at
		if c = strings.TrimSpace(c); c != "" {
			filled++
		}
		if startsNumber(c) {
			return false
		}
	}
	for _, c := range cells {
		if strings.TrimSpace(c) != "" && g.isName(c) {
			known++
		}
	}
	if known < 2 || 2*known < filled {
		return false
	}
	n, _ := g.names(cells)
	return n >= 2 && 2*n >= filled
}

// startsNumber says that a text begins like a number or an amount.
func startsNumber(text string) bool {
	text = strings.TrimLeft(text, "$€£¥₹-(")
	return text != "" && unicode.IsDigit(rune(text[0]))
}

// beside divides an area at blank columns after which column names begin
// again, or stand that are a table by themselves.
func (g *grid) beside(a area) []area {
	head := g.header(a)
	if head < 0 {
		return nil
	}
	blocks := g.blocks(area{head, a.to, a.left, a.right})
	if len(blocks) < 2 {
		return nil
	}
	parts := []area{{a.from, a.to, a.left, blocks[0].right}}
	for _, b := range blocks[1:] {
		last := &parts[len(parts)-1]
		own := area{a.from, a.to, b.left, b.right}
		if g.beginsAgain(*last, own) {
			parts = append(parts, own)
		}
		parts[len(parts)-1].right = b.right
	}
	// What stands left of the first names belongs to the first table.
	return parts
}

// blocks are the runs of columns between wholly blank ones.
func (g *grid) blocks(a area) []area {
	filled := make([]bool, a.right)
	for i := a.from; i < a.to; i++ {
		for j, c := range g.cells(a, i) {
			filled[a.left+j] = filled[a.left+j] || strings.TrimSpace(c) != ""
		}
	}
	var out []area
	for c := a.left; c < a.right; c++ {
		switch {
		case !filled[c]:
		case c > a.left && filled[c-1] && len(out) > 0:
			out[len(out)-1].right = c + 1
		default:
			out = append(out, area{a.from, a.to, c, c + 1})
		}
	}
	return out
}

// beginsAgain says that the names right of a blank column are a table's of its
// own: all that a table needs, or some of those on the left once more.
func (g *grid) beginsAgain(left, right area) bool {
	head := g.header(right)
	if head < 0 {
		return false
	}
	own := g.cells(right, head)
	if _, complete := g.names(own); complete {
		return true
	}
	at := g.header(left)
	return at >= 0 && shared(g.cells(left, at), own) > 0
}

// shared counts the names that two rows have in common.
func shared(a, b []string) (n int) {
	have := map[string]bool{}
	for _, c := range a {
		have[values.Compact(c)] = true
	}
	for _, c := range b {
		if key := values.Compact(c); key != "" && have[key] {
			n++
		}
	}
	return n
}

// below divides an area where column names other than those above stand below
// blank rows or a heading.
func (g *grid) below(a area) []area {
	head := g.header(a)
	if head < 0 {
		return nil
	}
	var parts []area
	from := a.from
	for i := head + 1; i < a.to; i++ {
		cells := g.cells(a, i)
		if !g.namesColumns(cells) {
			continue
		}
		start := i
		heading := i-1 > head && sheets.Filled(g.cells(a, i-1)) == 1
		if heading {
			start = i - 1
		}
		gap := g.sheet.Lines[start].Number > g.sheet.Lines[start-1].Number+1
		same := g.sameNames(a, head, i)
		moved := same && !g.inOrder(a, head, i)
		if !moved && (!gap && !heading || same && !(heading && g.isTitle(a, i-1))) {
			continue
		}
		parts = append(parts, area{from, start, a.left, a.right})
		from, head = start, i
	}
	if len(parts) == 0 {
		return nil
	}
	return append(parts, area{from, a.to, a.left, a.right})
}

// sameNames says that two rows name the same columns.
func (g *grid) sameNames(a area, i, j int) bool {
	first, second := g.cells(a, i), g.cells(a, j)
	n := sheets.Filled(second)
	return shared(first, second) == n && sheets.Filled(first) == n
}

// inOrder says that two rows that name the same columns name them in the same order.
func (g *grid) inOrder(a area, i, j int) bool {
	return slices.EqualFunc(g.cells(a, i), g.cells(a, j), func(x, y string) bool {
		return values.Compact(x) == values.Compact(y)
	})
}

// isTitle says that a heading is more than a month or a year, which part the
// rows of one table.
func (g *grid) isTitle(a area, line int) bool {
	for _, c := range g.cells(a, line) {
		if c = strings.TrimSpace(c); c != "" {
			return !values.IsPeriod(c)
		}
	}
	return false
}

// heading is the text that stands alone above the column names of an area.
func (g *grid) heading(a area, head int) string {
	for i := head - 1; i >= a.from; i-- {
		for _, c := range g.cells(a, i) {
			if c = strings.TrimSpace(c); c != "" && !startsNumber(c) {
				return c
			}
		}
	}
	return ""
}

// firstCell is the first cell of an area's column names: F1.
func (g *grid) firstCell(a area, head int) string {
	head = max(head, a.from)
	for i, c := range g.cells(a, head) {
		if strings.TrimSpace(c) != "" {
			return sheets.CellName(a.left+i, g.sheet.Lines[head].Number)
		}
	}
	return sheets.CellName(a.left, g.sheet.Lines[head].Number)
}
