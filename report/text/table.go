package text

import (
	"slices"
	"strings"

	"piecebook/report/page"
)

// gap is the space between columns.
const gap = 2

// grid is a table being set.
type grid struct {
	table  page.Table
	sign   string
	wide   int // the lines'
	widths []int
	tails  []int // of figures: columns after the whole units, so that they align
	signed int   // the row whose amounts show the currency sign; -1 none
}

func (t *writer) table(b page.Table) {
	t.blank()
	if b.Caption != "" {
		t.heading(b.Caption, "-")
	}
	g := grid{table: b, sign: t.sign, wide: t.wide}
	if g.measure() {
		t.lines = append(t.lines, g.set()...)
	} else {
		t.rowByRow(g)
	}
	if b.Note != "" {
		t.say("", b.Note)
	}
}

// text is a cell as printed.
func (g *grid) text(i, c int) string {
	row := g.table.Rows[i]
	if c >= len(row.Cells) {
		return ""
	}
	sign := ""
	if g.signed == i || row.Style == page.Total || row.Style == page.GrandTotal {
		sign = g.sign
	}
	s := clean(row.Cells[c].String(sign))
	if c == 0 {
		s = strings.Repeat("  ", row.Indent) + s
	}
	return s
}

// measure finds the columns' widths; false where there is no room.
func (g *grid) measure() bool {
	n := len(g.table.Columns)
	g.widths, g.tails = make([]int, n), make([]int, n)
	g.signed = firstAmounts(g.table.Rows)
	least := make([]int, n)
	sumLeast, sumWant := gap*max(0, n-1), gap*max(0, n-1)
	for c := range g.table.Columns {
		least[c], g.widths[c] = g.ask(c)
		sumLeast += least[c]
		sumWant += g.widths[c]
	}
	if sumLeast > g.wide {
		return false
	}
	for sumWant > g.wide {
		// The widest column that can give way does, a column at a time.
		widest := -1
		for c := range g.widths {
			if g.widths[c] > least[c] && (widest < 0 || g.widths[c] > g.widths[widest]) {
				widest = c
			}
		}
		g.widths[widest]--
		sumWant--
	}
	return true
}

// firstAmounts is the first row with an amount in it; -1 where there is none.
func firstAmounts(rows []page.Row) int {
	return slices.IndexFunc(rows, func(r page.Row) bool {
		return slices.ContainsFunc(r.Cells, func(c page.Cell) bool { return c.Kind == page.KindMoney })
	})
}

// ask is the least a column can do with and what it wants.
func (g *grid) ask(c int) (least, want int) {
	col := g.table.Columns[c]
	if !g.table.NoHead {
		for word := range strings.FieldsSeq(col.Head) {
			least = max(least, columns(word))
		}
		want = min(columns(col.Head), max(least, 16))
	}
	integer := 0
	for i, row := range g.table.Rows {
		if row.Style == page.Group || c >= len(row.Cells) || c == 0 && row.Spans(len(g.widths)) > 1 {
			continue
		}
		text := g.text(i, c)
		if isFigure(row.Cells[c]) {
			before, after := page.Parts(text, row.Cells[c].Kind)
			integer, g.tails[c] = max(integer, columns(before)), max(g.tails[c], columns(after))
			continue
		}
		want = max(want, columns(text))
		if col.Kind == page.KindDate {
			least = max(least, columns(text))
			continue
		}
		for word := range strings.FieldsSeq(text) {
			least = max(least, min(columns(word), 14))
		}
		least = max(least, min(columns(text), 8))
	}
	least = max(least, integer+g.tails[c])
	return least, max(least, want)
}

func isFigure(c page.Cell) bool { return c.Kind == page.KindMoney || c.Kind == page.KindNumber }

// set is the table's lines.
func (g *grid) set() []string {
	var out []string
	if !g.table.NoHead {
		cells := make([][]string, len(g.widths))
		for c, col := range g.table.Columns {
			for _, line := range wrap(col.Head, g.widths[c]) {
				if g.rightward(c) {
					line = padLeft(line, g.widths[c]-g.hang(c))
				}
				cells[c] = append(cells[c], line)
			}
		}
		out = append(out, g.join(cells, true)...)
		out = append(out, strings.Repeat("-", g.total()))
	}
	for i, row := range g.table.Rows {
		out = append(out, g.row(i, row)...)
	}
	return out
}

// hang is the room a column of money keeps for a bracket.
func (g *grid) hang(c int) int {
	if g.table.Columns[c].Kind == page.KindMoney && g.tails[c] == 4 {
		return 1
	}
	return 0
}

func (g *grid) rightward(c int) bool {
	k := g.table.Columns[c].Kind
	return k == page.KindMoney || k == page.KindNumber || g.table.Columns[c].Align == page.AlignRight
}

func (g *grid) total() int {
	sum := gap * max(0, len(g.widths)-1)
	for _, w := range g.widths {
		sum += w
	}
	return sum
}

// row is one row's lines, with the rules of a total.
func (g *grid) row(i int, row page.Row) []string {
	var out []string
	if row.Style == page.Group {
		return append(out, wrap(strings.Repeat("  ", row.Indent)+row.Cells[0].Text, g.wide)...)
	}
	if row.Style.Summing() {
		out = append(out, g.ruled(row, "-"))
	}
	cells := make([][]string, len(g.widths))
	for c := range min(len(row.Cells), len(g.widths)) {
		cells[c] = g.cell(i, row, c)
	}
	out = append(out, g.joinSpanned(cells, row.Spans(len(g.widths)))...)
	if row.Style == page.GrandTotal {
		out = append(out, g.ruled(row, "="))
	}
	if row.Note != "" {
		indent := strings.Repeat(" ", 2*(row.Indent+1))
		for _, line := range wrap(row.Note, g.wide-len(indent)) {
			out = append(out, indent+line)
		}
	}
	return out
}

func (g *grid) cell(i int, row page.Row, c int) []string {
	text := g.text(i, c)
	if isFigure(row.Cells[c]) && !row.Cells[c].IsEmpty() {
		_, after := page.Parts(text, row.Cells[c].Kind)
		return []string{padLeft(text+strings.Repeat(" ", g.tails[c]-columns(after)), g.widths[c])}
	}
	indent := ""
	if c == 0 {
		indent = strings.Repeat("  ", row.Indent)
	}
	wide := g.widths[c]
	if n := row.Spans(len(g.widths)); c == 0 && n > 1 {
		wide = gap * (n - 1)
		for _, w := range g.widths[:n] {
			wide += w
		}
	}
	lines := wrap(text, wide-len(indent))
	for j := range lines {
		lines[j] = indent + lines[j]
		if g.rightward(c) {
			lines[j] = padLeft(lines[j], g.widths[c]-g.hang(c))
		}
	}
	return lines
}

// ruled is a rule under or over a row's figures.
func (g *grid) ruled(row page.Row, with string) string {
	cells := make([][]string, len(g.widths))
	for c := range min(len(row.Cells), len(g.widths)) {
		if isFigure(row.Cells[c]) && !row.Cells[c].IsEmpty() {
			cells[c] = []string{strings.Repeat(with, g.widths[c])}
		}
	}
	return g.join(cells, false)[0]
}

// join sets cells beside each other; low puts short ones at the bottom.
func (g *grid) join(cells [][]string, low bool) []string {
	deep := 1
	for _, lines := range cells {
		deep = max(deep, len(lines))
	}
	out := make([]string, deep)
	for i := range out {
		for c, lines := range cells {
			at := i
			if low {
				at = i - (deep - len(lines))
			}
			line := ""
			if at >= 0 && at < len(lines) {
				line = lines[at]
			}
			if c > 0 {
				out[i] += strings.Repeat(" ", gap)
			}
			out[i] += padRight(line, g.widths[c])
		}
	}
	return out
}

// joinSpanned is join for a row whose first cell runs over the next, which are
// empty.
func (g *grid) joinSpanned(cells [][]string, spans int) []string {
	if spans == 1 {
		return g.join(cells, false)
	}
	wider := *g
	wider.widths = slices.Clone(g.widths[spans-1:])
	wider.widths[0] = gap * (spans - 1)
	for _, w := range g.widths[:spans] {
		wider.widths[0] += w
	}
	return wider.join(append([][]string{cells[0]}, cells[spans:]...), false)
}

// rowByRow tells a table that is too wide: each row's cells with their heads.
func (t *writer) rowByRow(g grid) {
	widest := 0
	for _, c := range g.table.Columns {
		widest = max(widest, min(24, columns(c.Head)))
	}
	for i, row := range g.table.Rows {
		if row.Style == page.Group {
			t.blank()
		}
		for c := range min(len(row.Cells), len(g.table.Columns)) {
			text := strings.TrimSpace(g.text(i, c))
			switch {
			case text == "":
			case c == 0:
				t.say("", text)
			default:
				t.hung("  "+padRight(g.table.Columns[c].Head, widest)+"  ", text)
			}
		}
		if row.Note != "" {
			t.say("  ", row.Note)
		}
	}
}
