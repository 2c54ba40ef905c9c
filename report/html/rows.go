package html

import (
	"html/template"
	"strconv"
	"strings"
	"unicode/utf8"

	"piecebook/report/page"
)

// Rows are nearly all of a file, so they are written here piece by piece, and
// not by a template of their own: words of the document stand in them as an
// element's text alone (text), and every id and class is this package's own.
// Attributes go without quotation marks and elements without end tags where
// the HTML standard lets them (sections 13.1.2.3 and 13.1.2.4).

// text writes a document's words as an element's text.
func (r *renderer) text(s string) {
	if plain(s) {
		r.raw(s)
		return
	}
	r.raw(page.Visible(template.HTMLEscapeString(s)))
}

// plain says that words stand in HTML as they are.
func plain(s string) bool {
	for i := range len(s) {
		switch c := s[i]; {
		case c < ' ' || c > '~', c == '<', c == '>', c == '&', c == '"', c == '\'':
			return false
		}
	}
	return true
}

// link writes words that lead to an id; without one the words alone.
func (r *renderer) link(id, words string) {
	if id == "" {
		r.text(words)
		return
	}
	r.raw("<a href=#" + id + ">")
	r.text(words)
	r.raw("</a>")
}

// longLink is the letters of words above which they are no link themselves.
const longLink = 40

// leadsTo is the name of where a sentence leads, which is the link after it; blank of
// words that are the link themselves.
func (r *renderer) leadsTo(anchor, text string) string {
	if utf8.RuneCountInString(text) <= longLink {
		return ""
	}
	return r.names[r.to(anchor)]
}

// attribute writes an attribute of this package's own making; none where it is
// blank.
func (r *renderer) attribute(name, value string) {
	switch {
	case value == "":
	case strings.Contains(value, " "):
		r.raw(" " + name + `="` + value + `"`)
	default:
		r.raw(" " + name + "=" + value)
	}
}

// The classes of rows: a head of a group, a rule above, bold, a double rule
// under, lighter. A row of style Normal has none, by which script.js knows it.
var rowClass = map[page.RowStyle]string{page.Group: "g", page.Subtotal: "s", page.Total: "t",
	page.GrandTotal: "u", page.Quiet: "q"}

// row writes a row. Empty cells at its end are left out, but where the script
// looks for each column's.
func (r *renderer) row(t page.Table, row page.Row) {
	id, class := r.taken(row.Anchor), rowClass[row.Style]
	if own := r.opening(row.Of); own != "" {
		id = own
	}
	if r.listing && row.Of != nil && row.Style == page.Subtotal {
		class = "" // style.css knows it by its id
	}
	if row.Indent > 0 {
		class = joined(" ", class, "i"+strconv.Itoa(min(row.Indent, 3)))
	}
	r.raw("<tr")
	r.attribute("id", id)
	r.attribute("class", class)
	r.raw(">")
	spans := row.Spans(len(t.Columns))
	for i, c := range row.Cells {
		if i > 0 && i < spans || i > 0 && !t.Finder && restEmpty(row.Cells[i:]) {
			continue
		}
		r.cellTag(t, row, i, spans)
		r.cell(t, i, c, row.Style)
	}
	if row.Note != "" {
		r.raw("<tr class=n><td colspan=" + strconv.Itoa(len(t.Columns)) + ">")
		r.text(row.Note)
	}
}

// restEmpty says that cells have nothing in them.
func restEmpty(cells []page.Cell) bool {
	for _, c := range cells {
		if !c.IsEmpty() {
			return false
		}
	}
	return true
}

// cellTag writes a cell's start tag. The class of its column says what it
// holds; after one that spans several, cells are numbers unless they say so.
func (r *renderer) cellTag(t page.Table, row page.Row, i, spans int) {
	c := row.Cells[i]
	scope := ""
	if i == 0 {
		scope = r.headOf(t, row, c)
	}
	if scope != "" {
		r.raw("<th scope=" + scope)
	} else {
		r.raw("<td")
	}
	switch kind := cellClass(t, i, c); {
	case c.Kind == page.KindDrawn:
		r.attribute("class", barClass(c, t.Columns[i]))
	case i == 0 && spans > 1:
		r.raw(" colspan=" + strconv.Itoa(spans))
	case spans > 1 && kind == "n":
	case spans > 1 && kind == "":
		r.attribute("class", "l")
	case spans > 1 || i >= mostClassed || kind != class(t.Columns[i]):
		r.attribute("class", kind)
	}
	if c.Kind == page.KindMoney && t.Finder && scope == "" {
		r.raw(" data-v=" + strconv.FormatInt(c.Cents, 10))
	}
	r.raw(">")
}

// headOf is the scope of a row's first cell: words there say what the row is.
func (r *renderer) headOf(t page.Table, row page.Row, c page.Cell) string {
	switch {
	case r.listing && !t.NoHead: // heads of columns alone
		return ""
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

// cell writes what is in a cell: totals have the currency's sign, as on paper.
func (r *renderer) cell(t page.Table, i int, c page.Cell, style page.RowStyle) {
	sign := ""
	if style == page.Total || style == page.GrandTotal {
		sign = r.sign
	}
	text := page.Pageless(c.String(sign))
	switch to := r.open(c.Of); {
	case c.Said != nil:
		for _, part := range c.Said {
			r.link(r.open(part.Of), part.Text)
		}
	case to != "":
		r.link(to, text)
	default:
		if name := r.leadsTo(c.Link, text); name != "" {
			r.text(text + " ")
			text = name
		}
		r.link(r.to(c.Link), text)
	}
	if c.Kind == page.KindDrawn && barClass(c, t.Columns[i]) == "" {
		r.drawnCell(c, t.Columns[i])
	}
}
