package kinds

import (
	"fmt"
	"strings"
	"time"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// Scope is which part of the books' time is looked at. The zero value is all
// of it.
type Scope struct {
	Year int // 0: every year
	// First and Last are months of each year; 0: the whole year. A season that
	// runs over New Year belongs to the year it ends in.
	First, Last time.Month
	Season      string // as asked for: spring, 3-5
}

// seasons are by the northern calendar; months can be typed instead.
var seasons = map[string][2]time.Month{"spring": {time.March, time.May}, "summer": {time.June, time.August},
	"autumn": {time.September, time.November}, "fall": {time.September, time.November},
	"winter": {time.December, time.February}}

// ParseSeason reads spring, summer, autumn, fall or winter, or months as 3-5,
// mar-may or 11; false for anything else.
func ParseSeason(text string) (Scope, bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	if s, ok := seasons[text]; ok {
		return Scope{First: s[0], Last: s[1], Season: text}, true
	}
	from, to, ranged := strings.Cut(text, "-")
	if !ranged {
		to = from
	}
	first, okFirst := parseMonth(from)
	last, okLast := parseMonth(to)
	return Scope{First: first, Last: last, Season: text}, okFirst && okLast
}

func parseMonth(text string) (time.Month, bool) {
	text = strings.TrimSpace(text)
	for m := time.January; m <= time.December; m++ {
		name := strings.ToLower(m.String())
		if text == fmt.Sprint(int(m)) || text == fmt.Sprintf("%02d", int(m)) || text == name || text == name[:3] {
			return m, true
		}
	}
	return 0, false
}

// Has says that a day lies in the scope. No day does not.
func (s Scope) Has(d calendar.Date) bool {
	if d.IsZero() {
		return false
	}
	year, in := d.Year, true
	switch {
	case s.First == 0:
	case s.First <= s.Last:
		in = d.Month >= s.First && d.Month <= s.Last
	default:
		in = d.Month >= s.First || d.Month <= s.Last
		if d.Month >= s.First {
			year++
		}
	}
	return in && (s.Year == 0 || year == s.Year)
}

// End is the month up to which the books are looked at: the scope's last, but
// not after the books' own last.
func (s Scope) End(last calendar.Month) calendar.Month {
	if s.Year == 0 {
		return last
	}
	month := time.December
	if s.Last != 0 {
		month = s.Last
	}
	return min(last, calendar.MonthOf(s.Year, month))
}

// Through is the month up to which kinds and offers look: the books' last
// month, and after it every month without a gap that has sales, though it has
// nothing else.
func Through(b *ledger.Books, last calendar.Month) calendar.Month {
	sold := map[calendar.Month]bool{}
	for _, s := range b.Sales {
		sold[s.On.InMonth()] = true
	}
	for sold[last+1] {
		last++
	}
	return last
}

// String is the scope in words: all time, 2026, spring (March to May).
func (s Scope) String() string {
	if s.First != 0 {
		first, last := s.First.String(), s.Last.String()
		if s.Year != 0 && s.First > s.Last {
			first, last = fmt.Sprintf("%s %d", first, s.Year-1), fmt.Sprintf("%s %d", last, s.Year)
		}
		words := first
		if s.Last != s.First {
			words += " to " + last
		}
		if s.Year != 0 && s.First <= s.Last {
			words = fmt.Sprintf("%s %d", words, s.Year)
		}
		if _, named := seasons[s.Season]; named {
			words = fmt.Sprintf("%s (%s)", s.Season, words)
		}
		if s.Year == 0 {
			words += " of every year"
		}
		return words
	}
	if s.Year == 0 {
		return "all time"
	}
	return fmt.Sprint(s.Year)
}
