package xlsx

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"piecebook/report/workbook"
)

// Paper sizes as the format numbers them (ECMA-376 part 1, 18.3.1.63 pageSetup).
const (
	paperLetter = 1
	paperA4     = 9
)

// page sets a sheet up for print: one page wide, its heads on each, page x of
// y in the foot. The margins, in inches, are wide enough for a sheet made for
// Letter to print on A4 and the other way about.
func (w *writer) page(s *workbook.Sheet) error {
	if s.Filter && s.Len() > 0 {
		// First: the library forgets what else was set of the sheet here.
		if err := w.file.AutoFilter(s.Name, fmt.Sprintf("A%d:%s%d", s.HeadRow(), workbook.Letter(len(s.Columns)-1),
			s.LastRow()), nil); err != nil {
			return err
		}
	}
	size, orientation, wide, high := paperLetter, "portrait", pagesWide(w.rows[s].wide), 0
	if w.book.A4 {
		size = paperA4
	}
	if s.Landscape {
		orientation = "landscape"
	}
	fit := true
	if err := w.file.SetPageLayout(s.Name, &excelize.PageLayoutOptions{Size: &size, Orientation: &orientation,
		FitToWidth: &wide, FitToHeight: &high}); err != nil {
		return err
	}
	if err := w.file.SetSheetProps(s.Name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	side, top, edge := 0.6, 0.85, 0.4
	if err := w.file.SetPageMargins(s.Name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &top,
		Bottom: &top, Header: &edge, Footer: &edge}); err != nil {
		return err
	}
	if err := w.file.SetHeaderFooter(s.Name, &excelize.HeaderFooterOptions{OddHeader: w.runningHead(),
		OddFooter: w.runningFoot()}); err != nil {
		return err
	}
	lines := false
	if err := w.file.SetSheetView(s.Name, 0, &excelize.ViewOptions{ShowGridLines: &lines}); err != nil {
		return err
	}
	if err := w.file.SetSheetDimension(s.Name, area(s)); err != nil {
		return err
	}
	return w.names(s)
}

// runningHead and runningFoot stand on every printed page. 8 is their size in
// points; an ampersand is the format's own mark, so one of words is doubled.
func (w *writer) runningHead() string {
	right := w.book.Period
	if w.book.Banner != "" {
		right = w.book.Banner + " · " + right
	}
	return "&L&8" + inFoot(w.book.Shop) + "&C&8" + inFoot(w.book.Title) + "&R&8" + inFoot(right)
}

func (w *writer) runningFoot() string {
	return "&L&8" + inFoot(w.book.Foot) + "&C&8&A&R&8Page &P of &N"
}

// inFoot is words within a running head or foot, which hold 255 characters in
// all; a digit first would be read as part of the size.
func inFoot(words string) string {
	letters := []rune(clean(words))
	if len(letters) > 60 {
		letters = append(letters[:59], '…')
	}
	words = strings.ReplaceAll(string(letters), "&", "&&")
	if words != "" && words[0] >= '0' && words[0] <= '9' {
		words = " " + words
	}
	return words
}

// area is all of a sheet, A1 to its last cell.
func area(s *workbook.Sheet) string {
	return fmt.Sprintf("A1:%s%d", workbook.Letter(max(0, len(s.Columns)-1)), s.LastRow())
}

// names sets what is printed and which row heads every page.
func (w *writer) names(s *workbook.Sheet) error {
	quoted := "'" + s.Name + "'!"
	first, last, _ := strings.Cut(area(s), ":")
	abs := func(cell string) string {
		letters := strings.TrimRight(cell, "0123456789")
		return "$" + letters + "$" + cell[len(letters):]
	}
	if err := w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: quoted + abs(first) + ":" +
		abs(last), Scope: s.Name}); err != nil {
		return err
	}
	head := fmt.Sprintf("%s$%d:$%d", quoted, s.HeadRow(), s.HeadRow())
	return w.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: head, Scope: s.Name})
}

// widestPage is how many characters a printed page's width holds before they
// are too small to read.
const widestPage = 240.0

// pagesWide is over how many pages' width a sheet is printed.
func pagesWide(widths []float64) int {
	sum := 0.0
	for _, width := range widths {
		sum += width
	}
	return int(math.Ceil(sum / widestPage))
}

// The widest a column gets by itself, and the narrowest, in characters.
const (
	widest    = 48.0
	narrowest = 6.0
)

// widths are the columns' widths: as given, or as their cells want.
func widths(s *workbook.Sheet) []float64 {
	out := make([]float64, len(s.Columns))
	for i, c := range s.Columns {
		out[i] = longestWord(c.Head) + 1
	}
	for n, r := range s.Rows() {
		if n == workbook.FirstRows {
			break
		}
		for i := range r.Cells {
			// Where a row names others, or is a total, its words run over empty cells.
			over := r.Style != workbook.Normal && i+1 < len(s.Columns) && (i+1 >= len(r.Cells) ||
				r.Cells[i+1] == (workbook.Cell{}))
			if s.Columns[i].Width == 0 && !(over && r.Cells[i].Value.None()) {
				out[i] = max(out[i], shown(&r.Cells[i]))
			}
		}
	}
	for i, c := range s.Columns {
		if out[i] = min(widest, max(narrowest, out[i]+2)); c.Width > 0 {
			out[i] = c.Width
		}
	}
	return out
}

// shown is about how many characters a cell shows.
func shown(c *workbook.Cell) float64 {
	switch {
	case c.Value.None():
		return float64(utf8.RuneCountInString(c.Text))
	case c.Kind == workbook.KindDate:
		return 10
	case c.Kind == workbook.KindMonth:
		return 7
	}
	digits := c.Value.WholeDigits()
	n := float64(digits) + float64(digits)/3
	switch c.Kind {
	case workbook.KindMoney:
		return n + 4
	case workbook.KindNumber:
		return n + math.Abs(float64(c.Decimals))
	}
	return n + 3
}

func longestWord(head string) float64 {
	n := 0
	for word := range strings.FieldsSeq(head) {
		n = max(n, utf8.RuneCountInString(word))
	}
	return float64(n)
}

// headHeight is room for the tallest head, in points.
func headHeight(s *workbook.Sheet, wide []float64) float64 {
	lines := 1.0
	for i, width := range wide {
		lines = max(lines, wrapped(s.Columns[i].Head, width-1))
	}
	return 4 + 13*min(lines, 5)
}

// The height of a row of one line, and of each further line, in points.
const (
	rowHeight  = 15.0
	linePitch  = 12.5
	mostLines  = 20
	underHead  = 6.0  // of air, so that the first row does not hang on the rule
	letterWide = 0.75 // of words, against the digits that widths are counted in
)

// height is a row's: not every program finds by itself how many lines its
// words take.
func height(s *workbook.Sheet, i int, r workbook.Row, wide []float64) float64 {
	lines := 1.0
	for j := range r.Cells {
		if c := &r.Cells[j]; s.Columns[j].Wrap && c.Value.None() {
			lines = max(lines, wrapped(c.Text, (wide[j]-1.5)/letterWide))
		}
	}
	if i == 0 {
		return rowHeight + underHead + linePitch*(min(lines, mostLines)-1)
	}
	return rowHeight + linePitch*(min(lines, mostLines)-1)
}

// wrapped is how many lines words take in a width of characters.
func wrapped(words string, width float64) float64 {
	lines, used := 1.0, 0.0
	for word := range strings.FieldsSeq(words) {
		n := float64(utf8.RuneCountInString(word))
		switch {
		case used == 0:
			used = n
		case used+1+n <= width:
			used += 1 + n
		default:
			lines, used = lines+1, n
		}
	}
	return lines
}

// longestText is what a cell holds; the library would cut more off without a word.
const longestText = 32767

// plain says that words are printable ASCII and not long: nothing to clean.
func plain(words string) bool {
	for i := range len(words) {
		if words[i] < ' ' || words[i] > '~' {
			return false
		}
	}
	return len(words) <= longestText/2
}

// clean is words as a cell keeps them: without the control characters that the
// format cannot hold, and no longer than it can.
func clean(words string) string {
	if plain(words) {
		return words
	}
	words = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(words, "\uFFFD"))
	if letters := []rune(words); len(letters) > longestText/2 {
		words = string(letters[:longestText/2-1]) + "…"
	}
	return words
}
