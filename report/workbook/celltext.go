package workbook

import (
	"strings"
	"time"
)

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
