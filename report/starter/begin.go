package starter

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"piecebook/templates"
)

// steps are what to do, in order.
var steps = []string{
	"Give each piece a number or name of its own on the sheet Pieces, one line each: P001, P002 and so on.",
	"Little time? Pieces alone is a first book: fill in its price, sold on, sold price and hours, one row a piece.",
	"Supplies has usual cans and sheets in gray. Delete the word example: before those you use, and change them to yours.",
	"Schedules has three usual ways to finish: painted, clear, waxed over stain. Change them to yours the same way.",
	"Type a piece's way under Schedule on Pieces, and what you buy on Purchases. That is enough to cost its supplies.",
	"When a piece went another way, write what you put on it on Uses; then only Uses count. Hours and Sales have the rest.",
	"Save, close, and run piecebook check. It tells what it cannot read, cell by cell, with what to type.",
	"Run piecebook month for the month's pack: what each piece cost, what it earned, what is left on the shelf.",
}

// stages head the tables by when they are needed.
var stages = []string{"Begin with these four", "As you work and sell", "When you need it"}

// signs are what the sheets' signs mean.
var signs = []struct{ sign, meaning string }{
	{"*", "A column whose name has a star is always filled in."},
	{"(*)", "A star in brackets: filled in where the note on the name says so."},
	{"note", "Every column name has a note: rest the pointer on it. It says what to type, and gives an example."},
	{"gray", "Gray lines whose first cell begins with the word example: are not read. Delete the word to use one, or leave them."},
	{"list", "Cells with a little arrow offer what you typed on other sheets. Several pieces go into one cell, separated by ; as in P001; P002."},
	{"dates", "Type dates as your spreadsheet takes them; they are shown as 2026-03-09."},
	{"+", "Each sheet shows the columns a first pack needs. The + over the last of them opens the others."},
	{"paper", "Printed empty, a sheet is one page to write on. Pieces, Purchases and Uses together are a book kept on paper."},
	{"more", "Columns and sheets that you do not need may stay empty. Keep the names of sheets and columns; or tell your own in settings.toml."},
}

// begin writes the first sheet, row by row.
type begin struct {
	*maker
	row int
}

// beginSheet says where to begin and what each sheet is for.
func (m *maker) beginSheet(tables []templates.Table) {
	const sheet = templates.BeginSheet
	for name, w := range map[string]float64{"A": 22, "B": 46, "C": 56} {
		m.try(m.book.SetColWidth(sheet, name, name, w))
	}
	b := &begin{m, 1}
	b.wide(templates.BeginOpening, m.running("title", deep, 18, true), 30)
	b.wide("Costs of refinished furniture, piece by piece, from what you write down here.", m.running("under title",
		greyInk, 11, false), 22)
	b.heading("Where to begin", "", "")
	number := m.words("step number", deep, 12, true, "")
	for i, text := range steps {
		b.line(fmt.Sprint(i+1), number, text, "", 18)
	}
	b.row++
	for i, t := range tables {
		if i == 0 || stage(t) != stage(tables[i-1]) {
			if i > 0 {
				b.row++
			}
			b.heading(stages[stage(t)], "What it holds", "In the pack")
		}
		b.table(t)
	}
	b.row++
	b.heading("Signs", "", "")
	for _, s := range signs {
		b.line(s.sign, number, s.meaning, "", 18)
	}
	view := false
	m.try(m.book.SetSheetView(sheet, 0, &excelize.ViewOptions{ShowGridLines: &view}))
	m.page(sheet, guide)
	upright, one := "portrait", 1
	m.try(m.book.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &upright, FitToHeight: &one}))
	m.try(m.book.SetSheetDimension(sheet, fmt.Sprintf("A1:C%d", b.row-1)))
}

// wide writes one line over the whole width; nothing is merged, the text runs on.
func (b *begin) wide(text string, style int, height float64) {
	b.put("A", text, style)
	b.done(height)
}

// heading is a band over the three columns.
func (b *begin) heading(first, second, third string) {
	style := b.words("band", white, 11, true, deep)
	b.put("A", first, style)
	b.put("B", second, style)
	b.put("C", third, style)
	b.done(20)
}

// line is a sign and words that run over two columns, or one in each.
func (b *begin) line(sign string, style int, second, third string, height float64) {
	plain := b.running("line", ink, size, false)
	b.put("A", sign, style)
	b.put("B", second, plain)
	if third != "" {
		b.put("C", third, plain)
	}
	b.done(height)
}

// table is a table's line: its name, which leads there, what it holds and what
// the pack lacks without it.
func (b *begin) table(t templates.Table) {
	link := b.of("link", excelize.Style{Font: &excelize.Font{Family: face, Size: size, Bold: true, Color: deep,
		Underline: "single"}, Alignment: &excelize.Alignment{Vertical: "center"}})
	words := b.words("table words", ink, size, false, "")
	cell := fmt.Sprintf("A%d", b.row)
	b.put("A", t.Title, link)
	b.try(b.book.SetCellHyperLink(templates.BeginSheet, cell, quoted(t.Title)+"!A1", "Location"))
	b.put("B", t.Description, words)
	b.put("C", t.Absence, words)
	height := 16.0
	if len(t.Description) > 60 || len(t.Absence) > 70 {
		height = 28
	}
	b.done(height)
}

func (b *begin) put(name, text string, style int) {
	cell := fmt.Sprintf("%s%d", name, b.row)
	if text != "" {
		b.try(b.book.SetCellStr(templates.BeginSheet, cell, text))
	}
	b.try(b.book.SetCellStyle(templates.BeginSheet, cell, cell, style))
}

// done ends a row.
func (b *begin) done(height float64) {
	b.try(b.book.SetRowHeight(templates.BeginSheet, b.row, height))
	b.row++
}
