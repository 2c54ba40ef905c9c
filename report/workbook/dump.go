package workbook

import (
	"fmt"
	"strings"
	"time"
)

// String is the whole book as text, a line a cell: place, value, and formula
// where there is one. For golden files, which a person reads.
func (b *Book) String() string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s · %s · %s · %s\n", b.Title, b.Shop, b.Period, b.Foot)
	for _, s := range b.Sheets {
		fmt.Fprintf(&out, "\n# %s: %s\n", s.Name, s.Title)
		for _, n := range s.Notes {
			fmt.Fprintf(&out, "  %s\n", n)
		}
		for i, c := range s.Columns {
			fmt.Fprintf(&out, "  %s%d  %s\n", Letter(i), s.HeadRow(), c.Head)
		}
		for i, r := range s.Rows() {
			fmt.Fprintf(&out, "  --%s\n", styleNames[r.Style])
			for j, c := range r.Cells {
				if line := c.String(); line != "" {
					fmt.Fprintf(&out, "  %s%d  %s\n", Letter(j), s.FirstRow()+i, line)
				}
			}
		}
	}
	return out.String()
}

var styleNames = map[Style]string{Subtotal: " subtotal", GrandTotal: " total", Quiet: " quiet", Group: " group",
	First: " first"}

// String is a cell's value, with its formula where it has one.
func (c Cell) String() string {
	v := c.Text
	if !c.Value.None() {
		v = c.plain()
	}
	if c.Formula != "" {
		v += "  =" + c.Formula
	}
	if c.Link != "" {
		v += "  -> " + c.Link
	}
	return v
}

// plain is a value in digits.
func (c Cell) plain() string {
	x := c.Value.Rat()
	switch c.Kind {
	case KindMoney:
		return x.FloatString(2)
	case KindDate, KindMonth:
		day := epoch.Add(time.Duration(x.Num().Int64()) * 24 * time.Hour)
		if c.Kind == KindMonth {
			return day.Format("2006-01")
		}
		return day.Format("2006-01-02")
	}
	if x.IsInt() {
		return x.Num().String()
	}
	return strings.TrimRight(x.FloatString(8), "0")
}
