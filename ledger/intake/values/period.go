package values

import (
	"regexp"
	"strconv"
	"strings"
)

// periodWords are a month, a quarter or a year, and nothing besides.
var periodWords = regexp.MustCompile(`(?i)^[-=* ]*(?:(?:` + MonthWords +
	`)\.?,?(?: ?['’]?(?:20)?\d\d)?|(?:19|20)\d\d|(?:q[1-4]|[1-4](?:st|nd|rd|th) quarter)(?: (?:20)?\d\d)?)[-=*: ]*$`)

// IsPeriod says that a text is a month, a quarter or a year, as a heading.
func IsPeriod(text string) bool {
	bare := strings.TrimLeft(text, "-=* ")
	if len(text) > 40 || len(bare) < 2 {
		return false
	}
	switch c := bare[0] | 0x20; { // what is quick first, since every row is asked
	case bare[0] >= '0' && bare[0] <= '9', c == 'q', len(bare) >= 3 && strings.Contains(monthsShort,
		strings.ToLower(bare[:3])):
		return periodWords.MatchString(text)
	}
	return false
}

// Years within a text, and spans of them.
var (
	yearWithin = regexp.MustCompile(`(?:^|\D)((?:19|20)\d\d)(?:\D|$)`)
	yearSpan   = regexp.MustCompile(`(?:^|\D)(20\d\d) ?[-–/] ?(?:20)?(\d\d)(?:\D|$)`)
	shortYear  = regexp.MustCompile(`['’](\d\d)(?:\D|$)`)
	monthIn    = regexp.MustCompile(`(?i)(?:^|[^a-z])(` + MonthWords + `)(?:[^a-z]|$)`)
)

// YearsIn are the years that a name or title speaks of, each once: 2025 of
// `Sales 2025`, 2025 and 2026 of `Winter 2025-26`.
func YearsIn(text string) []int {
	var years []int
	add := func(digits string) {
		y, _ := strconv.Atoi(digits)
		if y < 100 {
			y += 2000
		}
		for _, have := range years {
			if have == y {
				return
			}
		}
		years = append(years, y)
	}
	if m := yearSpan.FindStringSubmatch(text); m != nil && m[2] > "12" {
		add(m[1])
		add(m[2])
	}
	// A blank between two years serves both.
	for _, m := range yearWithin.FindAllStringSubmatch(strings.ReplaceAll(text, " ", "  "), -1) {
		add(m[1])
	}
	for _, m := range shortYear.FindAllStringSubmatch(text, -1) {
		add(m[1])
	}
	return years
}

// MonthIn is the one month that a name or title speaks of; 0 where none, or several.
func MonthIn(text string) int {
	found := 0
	for _, m := range monthIn.FindAllStringSubmatch(strings.ReplaceAll(text, " ", "  "), -1) {
		n, _ := strconv.Atoi(monthNumber(m[1]))
		if found != 0 && n != found {
			return 0
		}
		found = n
	}
	return found
}
