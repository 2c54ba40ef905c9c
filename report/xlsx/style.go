package xlsx

import (
	"cmp"

	"github.com/xuri/excelize/v2"

	"piecebook/report/workbook"
)

// The look: one typeface and size, one accent, the same as the PDF pages have.
const (
	typeface   = "Liberation Sans"
	size       = 10.0
	accent     = "17375E"
	grey       = "505050"
	ruleSingle = 1 // thin
	ruleDouble = 6
)

// role is what a cell is on its sheet besides a cell of its row.
type role uint8

const (
	roleCell role = iota
	roleTitle
	roleNote
	roleHead
)

// style is everything that a cell's looks depend on.
type style struct {
	role     role
	kind     workbook.Kind
	row      workbook.Style
	decimals int8
	full     bool
	wrap     bool
	link     bool
	number   bool // holds a value, not words
	formula  bool
	column   bool // of numbers, so that the odd word in it stands to the right too
	indent   bool // words beside a number stand off from it
}

// styleOf is a cell's looks, in a column of a kind.
func styleOf(row workbook.Style, kind workbook.Kind, wrap bool, c *workbook.Cell) style {
	st := style{kind: c.Kind, row: row, decimals: c.Decimals, full: c.Full, wrap: wrap, link: c.Link != "",
		number: !c.Value.None(), column: kind != workbook.KindText, formula: c.Formula != ""}
	if row == workbook.First && c.Kind != workbook.KindMoney {
		st.row = workbook.Normal
	}
	return st
}

// style is the number of a cell's looks in the workbook.
func (w *writer) style(st style) int {
	id, made := w.styles[st]
	if !made {
		var err error
		id, err = w.file.NewStyle(st.make(w.book.Currency))
		w.styles[st], w.failed = id, cmp.Or(w.failed, err)
	}
	return id
}

// headStyle is the looks of a column's head.
func headStyle(s *workbook.Sheet, column int) style {
	return style{role: roleHead, kind: s.Columns[column].Kind, indent: besideNumber(s, column)}
}

// eachCell hands out the cells of a row that are written, with their looks. A
// ruled row is ruled in all its columns.
func eachCell(s *workbook.Sheet, row workbook.Row, take func(column int, st style, c *workbook.Cell)) {
	empty := workbook.Cell{}
	n := len(row.Cells)
	if row.Style != workbook.Normal {
		n = len(s.Columns)
	}
	for j := range n {
		c := &empty
		if j < len(row.Cells) {
			c = &row.Cells[j]
		}
		if row.Style == workbook.Normal && *c == empty {
			continue
		}
		st := styleOf(row.Style, s.Columns[j].Kind, s.Columns[j].Wrap, c)
		st.indent = c.Value.None() && besideNumber(s, j)
		take(j, st, c)
	}
}

// besideNumber says that a column is of words and the one before it is not.
func besideNumber(s *workbook.Sheet, column int) bool {
	return column > 0 && s.Columns[column].Kind == workbook.KindText && s.Columns[column-1].Kind != workbook.KindText
}

// make is a style as the library takes it. The typeface and size are always
// said: without, another typeface is taken.
func (st style) make(currency string) *excelize.Style {
	font := &excelize.Font{Family: typeface, Size: size}
	align := &excelize.Alignment{Vertical: "center"}
	out := &excelize.Style{Font: font, Alignment: align}
	switch st.role {
	case roleTitle:
		font.Size, font.Bold, font.Color = 16, true, accent
		return out
	case roleNote:
		font.Color = grey
		return out
	case roleHead:
		font.Bold, font.Color = true, accent
		align.WrapText, align.Vertical = true, "bottom"
		switch {
		case st.kind != workbook.KindText:
			align.Horizontal = "right"
		case st.indent:
			align.Horizontal, align.Indent = "left", 1
		}
		out.Border = []excelize.Border{{Type: "bottom", Style: ruleSingle, Color: accent}}
		return out
	}
	align.WrapText = st.wrap
	switch {
	case st.number, st.column && !st.indent:
		align.Horizontal = "right"
	case st.indent:
		align.Horizontal, align.Indent = "left", 1
	}
	st.ofRow(out)
	if st.link {
		font.Color, font.Underline = accent, "single"
	}
	format := st.format(currency)
	out.CustomNumFmt = &format
	return out
}

// ofRow adds what the row's style says.
func (st style) ofRow(out *excelize.Style) {
	switch st.row {
	case workbook.Subtotal:
		out.Font.Bold = true
		out.Border = []excelize.Border{{Type: "top", Style: ruleSingle, Color: "000000"}}
	case workbook.GrandTotal:
		out.Font.Bold = true
		out.Border = []excelize.Border{{Type: "top", Style: ruleSingle, Color: "000000"}, {Type: "bottom", Style: ruleDouble,
			Color: "000000"}}
	case workbook.Quiet:
		out.Font.Color = grey
	case workbook.Group:
		out.Font.Bold, out.Font.Color = true, accent
	}
}

// The formats. Brackets around negatives, and as much room after the others,
// keep the points under each other; text formats keep text from becoming a
// formula when a person edits the cell.
const (
	formatMoney     = `#,##0.00_);\(#,##0.00\);"–"??_);@_)`
	formatMoneyFull = `#,##0.00_);\(#,##0.00\);0.00_);@_)`
	formatDate      = `yyyy\-mm\-dd`
	formatMonth     = `yyyy\-mm`
	formatHours     = `#,##0.00_)`
	formatPercent   = `0.0%_);\(0.0%\)`
	formatText      = `@`
	formatGeneral   = `General`
)

// format is the number format of a cell.
func (st style) format(currency string) string {
	if !st.number {
		if st.formula {
			return formatGeneral
		}
		return formatText
	}
	switch st.kind {
	case workbook.KindMoney:
		if st.row == workbook.GrandTotal || st.row == workbook.First {
			return signed(currency, st.full)
		}
		if st.full {
			return formatMoneyFull
		}
		return formatMoney
	case workbook.KindDate:
		return formatDate
	case workbook.KindMonth:
		return formatMonth
	case workbook.KindHours:
		return formatHours
	case workbook.KindPercent:
		return formatPercent
	case workbook.KindNumber:
		return decimals(int(st.decimals))
	}
	return formatGeneral
}

// signed is money with the currency's sign at the cell's left edge.
func signed(currency string, full bool) string {
	sign := `"` + currency + ` "`
	switch currency {
	case "USD":
		sign = `"$"`
	case "EUR":
		sign = `"€"`
	case "GBP":
		sign = `"£"`
	case "":
		sign = ""
	}
	zero := `"–"??_)`
	if full {
		zero = `0.00_)`
	}
	return sign + `* #,##0.00_);` + sign + `* \(#,##0.00\);` + sign + `* ` + zero + `;@_)`
}

// decimals is a number with so many decimals, at most so many where negative.
func decimals(n int) string {
	zeros := "0000000000"
	switch {
	case n == 0:
		return `#,##0_);\(#,##0\);0_)`
	case n > 0:
		d := zeros[:min(n, len(zeros))]
		return `#,##0.` + d + `_);\(#,##0.` + d + `\)`
	}
	return formatGeneral
}
