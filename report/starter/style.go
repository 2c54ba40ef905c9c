package starter

import (
	"cmp"
	"fmt"

	"github.com/xuri/excelize/v2"

	"piecebook/templates"
)

// The look. Text on each fill has a contrast of at least 4.5:1; what a colour
// says is always said in signs or words too.
const (
	face      = "Arial" // there, or one as wide, wherever there are spreadsheets
	size      = 10
	ink       = "1E2A2C"
	greyInk   = "696969" // 5.5:1 on white
	deep      = "24505A"
	middle    = "B5CFD1"
	light     = "E6EEEE"
	white     = "FFFFFF"
	essential = "24505A" // tabs
	later     = "B8B8B8"
	guide     = "C0752A"
)

// Number formats of prepared cells.
const (
	formatGeneral = 0
	formatMoney   = 4  // #,##0.00
	formatText    = 49 // @
	formatDate    = "yyyy-mm-dd"
)

// numberFormat is how a column's cells are prepared: text where a spreadsheet
// would otherwise turn 0012, 1E5, 12-5 or 1/2 into something else, hours too,
// since 2:30 would be shown as half past two at night. Numbers are left general
// on purpose: 1/2 becomes a date there that says so, which reading knows, while
// a fixed format would hide it.
func numberFormat(c templates.Cell) (number int, custom string) {
	switch c {
	case templates.Date:
		return formatGeneral, formatDate
	case templates.Money, templates.SignedMoney:
		return formatMoney, ""
	case templates.Number, templates.SignedNumber, templates.Whole, templates.Percent, templates.Year:
		return formatGeneral, ""
	}
	return formatText, ""
}

// rightAligned says that a column's values are numbers and line up on the right.
func rightAligned(c templates.Cell) bool {
	number, custom := numberFormat(c)
	return number != formatText && custom == ""
}

// styles makes each style once.
type styles struct {
	book *excelize.File
	made map[string]int
	err  error
}

// of gives the style of a name, making it where it is new.
func (s *styles) of(name string, style excelize.Style) int {
	if id, there := s.made[name]; there || s.err != nil {
		return id
	}
	id, err := s.book.NewStyle(&style)
	s.err = err
	s.made[name] = id
	return id
}

// font is the house's face in a colour; every style names it whole, since one
// left out falls back to another face.
func font(colour string, points float64, bold, italic bool) *excelize.Font {
	return &excelize.Font{Family: face, Size: points, Color: colour, Bold: bold, Italic: italic}
}

func fill(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}

// need is how much a column is needed.
type need int

const (
	free need = iota
	sometimes
	always
)

// needOf is how much a column is needed, and the sign its header carries.
func needOf(f templates.Field) (need, string) {
	switch {
	case f.Constraints.Required:
		return always, " *"
	case f.NeededWhen != "":
		return sometimes, " (*)"
	}
	return free, ""
}

// header is the style of a column's name.
func (s *styles) header(n need, right bool) int {
	look := map[need]struct{ back, ink string }{always: {deep, white}, sometimes: {middle, ink}, free: {light, ink}}[n]
	side, indent := "left", 1 // off the figures of the column before
	if right {
		side, indent = "right", 0
	}
	return s.of("header "+look.back+side, excelize.Style{Font: font(look.ink, size, n != free, false),
		Fill: fill(look.back), Alignment: &excelize.Alignment{Horizontal: side, Indent: indent, Vertical: "center",
			WrapText: true}, Border: []excelize.Border{{Type: "bottom", Color: deep, Style: 2},
			{Type: "right", Color: white, Style: 1}}, NumFmt: formatText})
}

// cell is the style of a prepared cell; of an example line it is grey.
func (s *styles) cell(c templates.Cell, example bool) int {
	number, custom := numberFormat(c)
	style := excelize.Style{Font: font(ink, size, false, false), NumFmt: number,
		Alignment: &excelize.Alignment{Horizontal: "left", Indent: 1}}
	name := "cell"
	if example {
		style.Font = font(greyInk, size, false, true)
		name = "example"
	}
	if custom != "" {
		style.CustomNumFmt = &custom
		name += custom
	}
	if rightAligned(c) {
		style.Alignment = &excelize.Alignment{Horizontal: "right"}
		name += "right"
	}
	return s.of(name+string(rune('0'+number)), style)
}

// ruled is the style of a prepared cell with a line to write on.
func (s *styles) ruled(c templates.Cell) int {
	style, err := s.book.GetStyle(s.cell(c, false))
	if err != nil || s.err != nil {
		s.err = cmp.Or(s.err, err)
		return 0
	}
	number, custom := numberFormat(c)
	style.Border = []excelize.Border{{Type: "bottom", Color: middle, Style: 1}, {Type: "right", Color: middle, Style: 1}}
	return s.of(fmt.Sprint("ruled", custom, number, rightAligned(c)), *style)
}

// running is a style of the guide sheets for words that run on over the next
// columns.
func (s *styles) running(name, colour string, points float64, bold bool) int {
	return s.of(name, excelize.Style{Font: font(colour, points, bold, false),
		Alignment: &excelize.Alignment{Vertical: "center"}})
}

// words is a style of the guide sheets for words that keep to their column.
func (s *styles) words(name, colour string, points float64, bold bool, back string) int {
	style := excelize.Style{Font: font(colour, points, bold, false), Alignment: &excelize.Alignment{Vertical: "center",
		WrapText: true}}
	if back != "" {
		style.Fill = fill(back)
	}
	return s.of(name, style)
}
