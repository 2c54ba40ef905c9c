package report

import (
	"regexp"
	"strconv"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// shareParts are a supply share's arithmetic, taken apart for a row whose
// heads say what each part is: part of all, in a span, so many percent of a
// cost. It is the posting's own words; nothing is worked out here.
type shareParts struct {
	part    string // 31.50 of 96.00 sq ft
	span    string // March 2026; October to December 2025
	percent string // 32.81
	of      string // 18.99
	rest    string // what a calculator would not give, or what else was drawn
}

// The words costing writes a share in (shareWords there). What does not fit
// them is told whole.
var (
	shareWhole = regexp.MustCompile(`^(.+), ([0-9.]+) % of (−?[0-9.,]+) = −?[0-9.,]+(?:, (.+))?$`)
	benchWords = regexp.MustCompile(` sq (?:ft|m) coated with all supplies$`)
	shareWhat  = regexp.MustCompile(`^(.+) in ((?:[A-Z][a-z]+ (?:[0-9]{4} )?to )?[A-Z][a-z]+ [0-9]{4})(?:, (sharing .+))?$`)
)

// takenApart parses a share's arithmetic; false where it has other words.
func takenApart(x ledger.Posting, s *ledger.Supply) (shareParts, bool) {
	words := x.Arithmetic
	if s != nil {
		words = strings.TrimPrefix(words, s.Name+", "+s.Container+": ")
	}
	whole := shareWhole.FindStringSubmatch(words)
	if whole == nil {
		return shareParts{}, false
	}
	what := shareWhat.FindStringSubmatch(whole[1])
	if what == nil {
		return shareParts{}, false
	}
	part := benchWords.ReplaceAllString(what[1], " bench")
	part = strings.TrimSuffix(strings.TrimSuffix(part, " coated"), " worked on")
	part = strings.Replace(strings.TrimSuffix(part, " drawn"), " measured of ", " of ", 1)
	var rest []string
	for _, r := range []string{what[3], whole[4]} {
		if r != "" {
			rest = append(rest, r)
		}
	}
	return shareParts{unbroken(part), shortSpan(what[2]), whole[2], whole[3], strings.Join(rest, "; ")}, true
}

// shortSpan is a span's months in three letters; over a new year, under a year
// long, the last one's year says both: 'Nov to Jan 2026'.
func shortSpan(s string) string {
	s = shortMonths(s)
	m := twoYears.FindStringSubmatch(s)
	if m == nil {
		return unbroken(s)
	}
	from, _ := strconv.Atoi(m[2])
	to, _ := strconv.Atoi(m[4])
	if to-from == 1 && monthNumber(m[1]) > monthNumber(m[3]) {
		return unbroken(m[1] + " to " + m[3] + " " + m[4])
	}
	return s
}

var twoYears = regexp.MustCompile(`^([A-Z][a-z]{2}) ([0-9]{4}) to ([A-Z][a-z]{2}) ([0-9]{4})$`)

// monthNumber is 1 to 12 of a month's three letters; 0 of none.
func monthNumber(short string) int {
	return strings.Index("   JanFebMarAprMayJunJulAugSepOctNovDec", short) / 3
}

// shortMonths sets months' names in three letters.
func shortMonths(s string) string {
	for m := calendar.MonthOf(2000, 1); m <= calendar.MonthOf(2000, 12); m++ {
		name := strings.TrimSuffix(m.Name(), " 2000")
		s = strings.ReplaceAll(s, name, name[:3])
	}
	return s
}

// shortMonth is a month's name in three letters, with its year.
func shortMonth(m calendar.Month) string { return shortMonths(m.Name()) }
