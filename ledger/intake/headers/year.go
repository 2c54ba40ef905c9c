package headers

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/templates"
)

// Period is what is said beside a sheet's days about when they are: the year of
// those written without one, where it is from, and the month of the sheet.
type Period struct {
	Year  int    // 0: nothing says it, or two things say different ones
	From  string // the sheet's name, the title, the file's name, settings.toml
	Month int    // that the sheet is of; 0: none, or unknown
	// Several says that the names and the title say different years.
	Several bool
	Heading bool // said by a heading among the rows, of which From is the text
	// Turned are rows whose days without a year come after those of another year
	// most likely, by the field of the day.
	Turned map[string]map[int]bool
}

// periodOf finds the year of a sheet's days: that of its name, its title or its
// file's name, where all that name one agree; else that of settings.toml.
func (r *Reader) periodOf(s *sheets.Sheet, titles []string) (p Period) {
	base := path.Base(s.File)
	sheet, file := s.Name, strings.TrimSuffix(base, path.Ext(base))
	if s.Of != nil {
		sheet = s.Of.Name
		titles = append(titles, s.Heading)
	}
	var said []int
	for _, from := range []struct{ text, what string }{{sheet, "the sheet's name"},
		{strings.Join(titles, ", "), "the title"}, {file, "the file's name"}} {
		if p.Month == 0 {
			p.Month = values.MonthIn(from.text)
		}
		years := values.YearsIn(from.text)
		said = append(said, years...)
		if len(years) == 1 && p.Year == 0 {
			p.Year, p.From = years[0], fmt.Sprintf("%s, %q", from.what, sheets.Shortened(from.text))
		}
	}
	slices.Sort(said)
	if len(slices.Compact(said)) > 1 {
		p.Year, p.Several = 0, true
	}
	if p.Year == 0 && r.settings.Year != 0 {
		p.Year, p.From = r.settings.Year, "year in settings.toml"
	}
	return p
}

// headed is the period that a heading says, for the rows from one on.
type headed struct {
	row int
	Period
}

// takeHeading keeps the year and month of a heading among the rows, if it is one of a
// month or a year. One of a month alone is of the year of the heading before it, unless it
// goes back in the year: then its year is not known.
func (b *Block) takeHeading(l sheets.Line) {
	text := strings.TrimSpace(l.Shown())
	if !values.IsPeriod(text) {
		return
	}
	years, month := values.YearsIn(text), values.MonthIn(text)
	h := headed{l.Number, Period{Month: month, Heading: true, From: fmt.Sprintf("%q", sheets.Shortened(text))}}
	switch {
	case len(years) == 1:
		h.Year = years[0]
	case len(b.headings) == 0:
		return
	default:
		last := b.headings[len(b.headings)-1]
		if h.Year, h.From = last.Year, last.From; last.Month != 0 && month <= last.Month || last.Year == 0 {
			h.Year, h.Several = 0, true
		}
	}
	b.headings = append(b.headings, h)
}

// PeriodAt is the period of the days of a row: what the nearest heading above it says,
// else what is said of the sheet.
func (b *Block) PeriodAt(row int) Period {
	for i := len(b.headings) - 1; i >= 0; i-- {
		if b.headings[i].row < row {
			return b.headings[i].Period
		}
	}
	return b.Period
}

// Months that a list of days runs from into another year, and those it runs into.
const lateInYear, earlyInYear = 10, 3

// findTurns finds, in each column of days, where days without a year run on from
// the end of a year into the next one, or in a list with the last day first back
// into the one before: all else is in order, and there is one such step.
func (r *Reader) findTurns(b *Block) {
	if b.Period.Year == 0 {
		return
	}
	b.Period.Turned = map[string]map[int]bool{}
	for name, c := range b.Columns {
		if c.Field.Cell != templates.Date {
			continue
		}
		ups, downs, turns, last := 0, 0, 0, 0
		up := map[int]bool{}
		for _, l := range b.Records {
			if b.PeriodAt(l.Number).Heading {
				continue // which year it is of is said
			}
			month := r.monthOf(b.sheet.Cell(l, c.Index), b.Period.Year)
			switch {
			case month == 0:
				continue
			case last >= lateInYear && month <= earlyInYear || last != 0 && last <= earlyInYear && month >= lateInYear:
				turns++
				if last < month {
					downs += 2 // a step up within one year needs another sign of going down
				}
			case month > last && last != 0:
				ups++
			case month < last:
				downs++
			}
			if turns > 0 {
				up[l.Number] = true
			}
			last = month
		}
		if turns == 1 && (downs == 0 || ups == 0 && downs > 2) {
			b.Period.Turned[name] = up
		}
	}
}

// monthOf is the month of a day without a year; 0 of other cells.
func (r *Reader) monthOf(c sheets.Cell, year int) int {
	if !values.HasNoYear(c) {
		return 0
	}
	d, _, refusal := values.DayOfYear(c, r.settings.DayFirst, year)
	if refusal != nil {
		return 0
	}
	return int(d.Month)
}
