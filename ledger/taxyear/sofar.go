package taxyear

import (
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Whole says that the records reach the year's last month.
func (y *Year) Whole() bool { return y.Last.Of() == 12 && y.Last != 0 }

// End is the year's end in words; of a year whose records stop before
// December, the end of their last month.
func (y *Year) End() string { return endOf(y.Last) }

func endOf(last calendar.Month) string {
	switch {
	case last == 0:
		return "the end of the records"
	case last.Of() == 12:
		return "the year's end"
	}
	return "the end of " + last.Name()
}

// AtOnceLimit is the limit per item for writing off at once on the year's last
// day.
func (y *Year) AtOnceLimit() money.Cents { return y.source.limitOn(y.source.to.Last()) }

// label fills in what a line's words leave open: {end}, and {limit}, the limit
// per item for writing off at once on the year's last day.
func (s *source) label(l templates.TaxLine) string {
	return strings.NewReplacer("{end}", endOf(s.lastRecord()), "{limit}", s.limitOn(s.to.Last()).Grouped()).
		Replace(l.Label)
}
