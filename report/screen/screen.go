// Package screen puts the documents of a period together into one for a screen:
// the reports that are printed apart, with what their figures are made of.
package screen

import (
	"piecebook/report"
	"piecebook/report/month"
	"piecebook/report/page"
	"piecebook/report/piece"
	"piecebook/report/trace"
	"piecebook/report/year"
)

// Year is a tax year's cost records (year.html) and what every figure is made of.
func Year(in report.YearInput) page.Document {
	d := year.Doc(in)
	trace.Open(in.Input, &d)
	return d
}

// Month is the month's report (month.html) the sheets of all its pieces and
// those in stock, and what every figure is made of.
func Month(in report.Input) page.Document {
	d := month.Doc(in)
	d.Sections = append(d.Sections, piece.Screen(in)...)
	trace.Open(in, &d)
	return d
}
