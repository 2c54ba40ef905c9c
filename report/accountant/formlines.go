package accountant

import (
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/taxyear"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

// fillLines writes the form's lines, above a line the amounts it takes where
// there are several.
func (b *yearBook) fillLines() {
	s := b.lines
	s.Landscape = true
	if b.y.Table.Check != "" {
		s.Note(b.y.Table.Check)
	}
	s.Note("A line that takes amounts of the books is the sum of the sheet Postings' column 'On the form' where 'Form " +
		"no.' is its number; opening and closing stock are the sum of the column 'In the form's stock' before and up " +
		"to the last day.")
	s.Note(b.y.Table.Outside)
	b.placeLines()
	for i, l := range b.y.Lines {
		style := wb.Normal
		switch {
		case l.Line == b.y.Table.Holds.Profit || l.Line == b.y.Table.Holds.Cost:
			style = wb.GrandTotal
		case len(l.Takes) == 0:
			style = wb.Subtotal
		}
		number, formula := wb.Cell{}, b.adds(l, b.lineRow)
		if n := len(l.Takes); n == 1 {
			number, formula = wb.Whole(b.formNo[[2]int{i, 0}]), b.taken(l, 0, b.lineRow[l.Line])
		} else if n > 1 {
			formula = b.takenRows(i, l)
		}
		s.Row(style, number, wb.Text(l.Part), wb.Text(l.Line), wb.Text(l.Label), wb.Cell{},
			amount(l.Cents).By(formula).InFull(), wb.Text(strings.Join(l.Asked, " ")), wb.Text(l.Cited()))
	}
}

// placeLines says which rows the lines and what they take stand in.
func (b *yearBook) placeLines() {
	b.lineRow, b.partRow = map[string]int{}, map[[2]int]int{}
	row := b.lines.FirstRow()
	for i, l := range b.y.Lines {
		for j := range l.Takes {
			b.partRow[[2]int{i, j}] = row
			if len(l.Takes) > 1 {
				row++
			}
		}
		b.lineRow[l.Line] = row
		row++
	}
}

// takenRows writes the rows of what a line takes, and gives their sum.
func (b *yearBook) takenRows(i int, l taxyear.Line) string {
	s := b.lines
	for j, p := range l.Parts {
		s.Row(wb.Quiet, wb.Whole(b.formNo[[2]int{i, j}]), wb.Text(l.Part), wb.Cell{},
			wb.Text(words.Capital(p.Plain())), amount(p.Cents).By(b.taken(l, j, s.NextRow())))
	}
	return "SUM(" + s.HereRange("Of which", b.partRow[[2]int{i, 0}], b.partRow[[2]int{i, len(l.Takes) - 1}]) + ")"
}

// taken is what a line takes of an amount, over the postings: of stock what
// stood there before the year, or at its end.
func (b *yearBook) taken(l taxyear.Line, part, row int) string {
	sign, when := "", ""
	switch l.Parts[part].Amount {
	case figures.LineOpeningStock:
		when = `"<"&` + b.firstDay()
	case figures.LineClosingStock:
		when = `"<="&` + b.lastDay()
	default:
		return b.sumIfs("On the form", "Form no.", b.lines.Here("No.", row))
	}
	if l.Parts[part].Less {
		sign = "-"
	}
	return sign + b.sumIfs("In the form's stock", "Month", when)
}

// adds is the formula of a line that adds up others; 0 of none.
func (b *yearBook) adds(l taxyear.Line, row map[string]int) string {
	var out strings.Builder
	for _, t := range l.Adds {
		r, there := row[t.Name]
		if !there {
			continue
		}
		switch {
		case t.Less:
			out.WriteString("-")
		case out.Len() > 0:
			out.WriteString("+")
		}
		out.WriteString(b.lines.Here("Amount", r))
	}
	if out.Len() == 0 {
		return "0"
	}
	return out.String()
}
