package checks

import (
	"cmp"
	"fmt"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
)

const (
	// fitsWithin is how many days the rows before and after may lie apart for a
	// day to be expected between them.
	fitsWithin = 62
	// inOrder is the least part of a sheet's neighbouring rows, in percent, that
	// must follow each other by day for the sheet to count as kept in order, of
	// at least rowsLeast.
	inOrder   = 80
	rowsLeast = 3
	// longBeforeMonths is how long before the books otherwise begin a day is
	// looked at; more than earlyRows of a table so early are meant.
	longBeforeMonths = 6
	earlyRows        = 2
)

// yearsEarlier notes days whose year is likely mistyped: earlier than in the
// rows before and after them, between which they would fit by a later year, or
// long before the books otherwise begin. Such a row counts in another tax year.
// It could move what the row holds.
func (l *look) yearsEarlier() {
	reported := map[fault.Place]bool{}
	for _, rows := range l.daysBySheet() {
		for i := range rows {
			if meant, ok := meantYear(rows, i); ok && kept(slices.Delete(slices.Clone(rows), i, i+1)) {
				r := ledger.RecordOf(rows[i].row)
				reported[r.At.At("")] = true
				l.yearNote(r, meant.InMonth(), fmt.Sprintf("This day is of %d, and the rows around it are of %d.",
					r.On.Year, meant.Year),
					fmt.Sprintf("Type it with the year %d if that is meant; otherwise leave it.", meant.Year))
			}
		}
	}
	begin := l.firstMonth()
	early := map[string][]ledger.Record{}
	for r := range l.past.Records() {
		if r.DayIn != "" && r.Table != "openings" && r.Month != 0 && r.Month < begin-longBeforeMonths &&
			!reported[r.At.At("")] &&
			l.moves(r) != 0 {
			early[r.Table] = append(early[r.Table], r)
		}
	}
	for _, rows := range early {
		if len(rows) > earlyRows {
			continue
		}
		for _, r := range rows {
			l.yearNote(r, begin, fmt.Sprintf("This day is long before the books otherwise begin, in %s.", begin.Name()),
				"Correct the year if it is a slip; otherwise leave it.")
		}
	}
}

// yearNote notes a row; month is the one it would stand in by the year that is
// likely meant.
func (l *look) yearNote(r ledger.Record, month calendar.Month, why, fix string) {
	l.noteIn(month, fault.CodeYearEarlier, r.At.At(r.DayIn), l.day(r.On), why, fix, l.moves(r))
}

// dated is a row of a sheet with its day.
type dated struct {
	row    ledger.Row
	on     calendar.Date
	number int
}

// daysBySheet is the dated rows of each sheet's columns of days, from top to
// bottom, each row once.
func (l *look) daysBySheet() map[fault.Place][]dated {
	ofPiece := map[fault.Place]bool{}
	for _, p := range l.pieces {
		ofPiece[p.At] = true
	}
	out := map[fault.Place][]dated{}
	for r := range l.past.Records() {
		// A use that a piece's own row stands for has its day in another column.
		if r.DayIn == "" || r.On.IsZero() || r.At.Row == 0 || r.Table == "uses" && ofPiece[r.At] {
			continue
		}
		sheet := fault.Place{File: r.At.File, Sheet: r.At.Sheet, Column: r.DayIn}
		out[sheet] = append(out[sheet], dated{r.Row, r.On, r.At.Row})
	}
	for sheet, rows := range out {
		slices.SortStableFunc(rows, func(a, b dated) int { return cmp.Compare(a.number, b.number) })
		out[sheet] = slices.CompactFunc(rows, func(a, b dated) bool { return a.number == b.number })
	}
	return out
}

// kept says that a sheet is kept in the order of its days, either way.
func kept(rows []dated) bool {
	up, down := 0, 0
	for i := 1; i < len(rows); i++ {
		switch c := rows[i-1].on.Compare(rows[i].on); {
		case c < 0:
			up++
		case c > 0:
			down++
		default:
			up, down = up+1, down+1
		}
	}
	return len(rows) >= rowsLeast && 100*max(up, down) >= inOrder*(len(rows)-1)
}

// meantYear is a row's day with the year of the rows around it, where its own
// is earlier and it fits between them by theirs. The last row has only one
// before it, of which it must then be within the same days.
func meantYear(rows []dated, i int) (calendar.Date, bool) {
	if i == 0 {
		return calendar.Date{}, false
	}
	before, day := rows[i-1].on, rows[i].on
	after := before.AddDays(fitsWithin)
	if i+1 < len(rows) {
		after = rows[i+1].on
	}
	first, last := before, after
	if last.Before(first) {
		first, last = last, first
	}
	if day.Year >= first.Year || last.DaysSince(first) > fitsWithin {
		return calendar.Date{}, false
	}
	for year := first.Year; year <= last.Year; year++ {
		meant, err := calendar.New(year, day.Month, day.Day)
		if err == nil && !meant.Before(first) && !meant.After(last) {
			return meant, true
		}
	}
	return calendar.Date{}, false
}

// firstMonth is the first month that two tables have records of; 0 where none has.
func (l *look) firstMonth() calendar.Month {
	two, _ := monthsOfTwo(l.past, func(r ledger.Record) bool { return r.Table != "openings" })
	if len(two) == 0 {
		return 0
	}
	return slices.Min(two)
}
