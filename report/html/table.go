package html

import (
	"slices"
	"strconv"
	"strings"

	"piecebook/report/page"
)

// tableView is a table as the template writes it.
type tableView struct {
	Caption, Note string
	Class         string // of its columns: n3 is numbers in the third
	Columns       int
	Wide          bool       // has no room on a phone and no link in it: the keyboard must be able to move it
	Name          string     // of one that is Wide; no two have the same
	Heads         []headCell // nil: none
	Bodies        []bodyView
}

// headCell is a column's head; Find says by what rows are filtered.
type headCell struct{ Text, Find string }

// bodyView is the rows of one group.
type bodyView struct{ Rows []rowView }

type rowView struct {
	ID, Class, Note string
	Cells           []cellView
}

// cellView is one cell. Scope makes it a row's or a group's head.
type cellView struct {
	Class, Scope, Text, To, Open, Value string
	Span                                int
	Drawing                             *drawing
}

// The classes of columns.
var kindClass = map[page.Kind]string{page.KindMoney: "n", page.KindNumber: "n", page.KindDate: "d"}

// table writes a table. Each group's rows have a body of their own, so that its
// head's scope is just them.
func (r *renderer) table(t page.Table) {
	t = t.Pageless()
	v := tableView{Caption: t.Caption, Note: t.Note, Class: columnClasses(t), Columns: len(t.Columns),
		Wide: len(t.Columns) > 3}
	r.tables++
	v.Name = joined(", ", t.Caption, "table "+strconv.Itoa(r.tables))
	for _, c := range t.Columns {
		if !t.NoHead {
			v.Heads = append(v.Heads, headCell{c.Head, findBy(t, c)})
		}
	}
	v.Bodies = []bodyView{{}}
	for _, row := range t.Rows {
		if row.Style == page.Group && len(v.Bodies[len(v.Bodies)-1].Rows) > 0 {
			v.Bodies = append(v.Bodies, bodyView{})
		}
		body := &v.Bodies[len(v.Bodies)-1]
		line := r.row(t, row)
		body.Rows = append(body.Rows, line)
		v.Wide = v.Wide && !slices.ContainsFunc(line.Cells, func(c cellView) bool { return c.To != "" || c.Open != "" })
	}
	r.put("table", v)
}

// mostClassed is how many columns style.css has classes for.
const mostClassed = 16

// columnClasses say which columns of a table hold what, so that single cells
// need not: of cells of a row that spans several, each says it itself.
func columnClasses(t page.Table) string {
	var out []string
	if t.Finder {
		out = append(out, "finder")
	}
	for i, c := range t.Columns {
		if kind := class(c); kind != "" && i < mostClassed {
			out = append(out, kind+strconv.Itoa(i+1))
		}
	}
	return strings.Join(out, " ")
}

func class(c page.Column) string {
	if c.Small {
		return "r"
	}
	return kindClass[c.Kind]
}

// findBy is how the rows of a finder are found by a column.
func findBy(t page.Table, c page.Column) string {
	switch {
	case !t.Finder || !c.Find:
		return ""
	case c.Kind == page.KindText:
		return "choice"
	}
	return "range"
}

var rowClass = map[page.RowStyle]string{page.Group: "group", page.Subtotal: "sub", page.Total: "total",
	page.GrandTotal: "total grand", page.Quiet: "quiet"}

func (r *renderer) row(t page.Table, row page.Row) rowView {
	v := rowView{ID: r.taken(row.Anchor), Class: rowClass[row.Style], Note: row.Note}
	if id := r.open(row.Of); id != "" && !r.used[id] {
		v.ID, r.used[id] = id, true
	}
	spans := row.Spans(len(t.Columns))
	for i := 0; i < len(t.Columns); i++ {
		if i > 0 && i < spans {
			continue
		}
		c := page.Empty()
		if i < len(row.Cells) {
			c = row.Cells[i]
		}
		cell := r.cell(t, i, c, row.Style)
		if kind := cellClass(t, i, c); spans > 1 && i >= spans || i >= mostClassed || kind != class(t.Columns[i]) {
			cell.Class = kind
		}
		if i == 0 {
			if spans > 1 {
				cell.Span, cell.Class = spans, ""
			}
			cell.Scope = headOf(t, row, c)
			if row.Indent > 0 {
				cell.Class += " in" + strconv.Itoa(min(row.Indent, 3))
			}
		}
		v.Cells = append(v.Cells, cell)
	}
	return v
}

// headOf is the scope of a row's first cell: words there say what the row is.
func headOf(t page.Table, row page.Row, c page.Cell) string {
	switch {
	case t.NoHead && c.Text != "" && row.Style != page.Group: // no column says what a cell is
		return "row"
	case c.Text == "" || c.Kind != page.KindText || t.Columns[0].Kind != page.KindText && !row.Style.Summing():
		return ""
	case row.Style == page.Group:
		return "rowgroup"
	}
	return "row"
}

// cellClass is what a cell holds: an amount is a number in any column.
func cellClass(t page.Table, i int, c page.Cell) string {
	if c.Kind == page.KindMoney {
		return "n"
	}
	return class(t.Columns[i])
}

// cell is one cell: totals have the currency's sign, as on paper.
func (r *renderer) cell(t page.Table, i int, c page.Cell, style page.RowStyle) cellView {
	sign := ""
	if style == page.Total || style == page.GrandTotal {
		sign = r.sign
	}
	v := cellView{Text: page.Pageless(c.String(sign)), To: r.to(c.Link), Open: r.open(c.Of)}
	if c.Kind == page.KindMoney && t.Finder {
		v.Value = strconv.FormatInt(c.Cents, 10)
	}
	if c.Kind == page.KindDrawn {
		v.Drawing = r.drawnCell(c, t.Columns[i])
	}
	return v
}
