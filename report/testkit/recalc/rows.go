package recalc

import (
	"fmt"
	"strings"

	"piecebook/report/workbook"
)

// Text is the whole workbook as text, a line a cell: place, value, and formula
// where there is one. For golden files, which a person reads.
func Text(b *workbook.Book) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s · %s · %s · %s\n", b.Title, b.Shop, b.Period, b.Foot)
	for _, s := range b.Sheets {
		fmt.Fprintf(&out, "\n# %s: %s\n", s.Name, s.Title)
		for _, n := range s.Notes {
			fmt.Fprintf(&out, "  %s\n", n)
		}
		for i, c := range s.Columns {
			fmt.Fprintf(&out, "  %s%d  %s\n", workbook.Letter(i), s.HeadRow(), c.Head)
		}
		for i, r := range s.Rows() {
			fmt.Fprintf(&out, "  --%s\n", styleNames[r.Style])
			for j, c := range r.Cells {
				if line := c.String(); line != "" {
					fmt.Fprintf(&out, "  %s%d  %s\n", workbook.Letter(j), s.FirstRow()+i, line)
				}
			}
		}
	}
	return out.String()
}

var styleNames = map[workbook.Style]string{workbook.Subtotal: " subtotal", workbook.GrandTotal: " total",
	workbook.Quiet: " quiet", workbook.Group: " group",
	workbook.First: " first"}

// Replace puts another row in the place of one, as someone typing into the workbook does.
func Replace(s *workbook.Sheet, at int, row workbook.Row) {
	was := *s
	*s = workbook.Sheet{Name: was.Name, Title: was.Title, Notes: was.Notes, Columns: was.Columns,
		Landscape: was.Landscape, Freeze: was.Freeze, Filter: was.Filter}
	for i, r := range was.Rows() {
		if i == at {
			r = row
		}
		s.Row(r.Style, r.Cells...)
	}
}
