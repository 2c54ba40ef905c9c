package html

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"piecebook/report/page"
)

// The classes of columns.
var kindClass = map[page.Kind]string{page.KindMoney: "n", page.KindNumber: "n", page.KindDate: "d"}

// table writes a table. Each group's rows have a body of their own, so that its
// head's scope is just them.
func (r *renderer) table(t page.Table) {
	t = t.Pageless()
	r.tables++
	// What a figure opens to is in a box that scrolls already. The keyboard must
	// be able to move one that has no room on a phone and no link in it.
	boxed := !r.listing
	switch {
	case boxed && len(t.Columns) > 3 && !r.leads(t):
		r.put("region", joined(", ", t.Caption, "table "+strconv.Itoa(r.tables))) // no two have the same name
	case boxed:
		r.raw("<div class=x>\n")
	}
	r.raw("<table")
	r.attribute("class", columnClasses(t))
	if t.Caption == "" && boxed && r.above != "" {
		// Who goes from table to table by ear hears what it is.
		r.raw(` aria-label="`)
		r.text(r.above)
		if r.under++; r.under > 1 {
			r.raw(", " + strconv.Itoa(r.under)) // no two have the same name
		}
		r.raw(`"`)
	}
	r.raw(">")
	if t.Caption != "" {
		r.raw("<caption>")
		r.text(t.Caption)
		r.raw("</caption>")
	}
	if !t.NoHead {
		r.tableHead(t)
	}
	r.raw("<tbody>")
	for i, row := range t.Rows {
		if row.Style == page.Group && i > 0 {
			r.raw("<tbody>")
		}
		r.row(t, row)
	}
	r.raw("</table>\n")
	if boxed {
		r.raw("</div>\n")
	}
	if t.Note != "" {
		r.put("paragraph", paragraphView{Class: "note"}.saying(r, t.Note, t.NoteFigures))
	}
}

// longHead is the letters of a head above which it gets room for two words a line.
const longHead = 14

// tableHead writes the columns' heads.
func (r *renderer) tableHead(t page.Table) {
	r.raw("<thead><tr>")
	for _, c := range t.Columns {
		if c.Head == "" {
			r.raw("<td>")
			continue
		}
		r.raw("<th scope=col")
		r.attribute("id", r.opening(c.Of))
		if utf8.RuneCountInString(c.Head) > longHead {
			r.attribute("class", "h")
		}
		r.attribute("data-find", findBy(t, c))
		r.raw(">")
		r.text(c.Head)
	}
}

// leads says that a cell of a table is a link.
func (r *renderer) leads(t page.Table) bool {
	return slices.ContainsFunc(t.Rows, func(row page.Row) bool {
		return slices.ContainsFunc(row.Cells, func(c page.Cell) bool { return r.to(c.Link) != "" || r.open(c.Of) != "" })
	})
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
