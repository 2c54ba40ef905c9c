package words_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/calendar"
	"piecebook/report/words"
)

// TestShortSpan: what each form of a span becomes; over more than a year both
// years are shown.
func TestShortSpan(t *testing.T) {
	month := func(year int, m time.Month) calendar.Month { return calendar.MonthOf(year, m) }
	for _, c := range []struct {
		first, last calendar.Month
		short, long string
	}{
		{month(2026, 3), month(2026, 3), "Mar 2026", "March 2026"},
		{month(2025, 10), month(2025, 12), "Oct to Dec 2025", "October to December 2025"},
		{month(2025, 11), month(2026, 1), "Nov to Jan 2026", "November 2025 to January 2026"},
		{month(2025, 1), month(2026, 1), "Jan 2025 to Jan 2026", "January 2025 to January 2026"},
		{month(2024, 12), month(2026, 1), "Dec 2024 to Jan 2026", "December 2024 to January 2026"},
		{month(2025, 5), month(2026, 6), "May 2025 to Jun 2026", "May 2025 to June 2026"},
	} {
		assert.Equal(t, c.short, strings.ReplaceAll(words.ShortSpan(c.first, c.last), "\u00a0", " "))
		assert.Equal(t, c.long, words.Months(c.first, c.last))
	}
}
