package calendar_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
)

// Leap years by the Gregorian rule: 2000 and 2024 have a 29 February, 1900 and
// 2026 have none.
func TestDays(t *testing.T) {
	for year, leap := range map[int]bool{2000: true, 2024: true, 1900: false, 2026: false} {
		_, err := calendar.New(year, time.February, 29)
		assert.Equal(t, leap, err == nil, year)
	}
	d, err := calendar.Parse("2026-03-01")
	require.NoError(t, err)
	assert.Equal(t, "2026-02-28", d.AddDays(-1).String())
	assert.Equal(t, 365, d.DaysSince(calendar.Date{Year: 2025, Month: time.March, Day: 1}))
	assert.True(t, calendar.Date{}.Before(d))
	assert.Equal(t, "", calendar.Date{}.String())
}

func TestMonths(t *testing.T) {
	m := calendar.MonthOf(2025, time.December)
	assert.Equal(t, "2026-01", (m + 1).String())
	assert.Equal(t, "2025-12-31", m.Last().String())
	assert.Equal(t, "December 2025", m.Name())
	_, err := calendar.ParseMonth("2025-13")
	assert.Error(t, err)
}

func TestTextRoundTrip(t *testing.T) {
	type both struct {
		D calendar.Date
		M calendar.Month
	}
	in := both{calendar.Date{Year: 2026, Month: time.February, Day: 28}, calendar.MonthOf(2026, time.February)}
	text, err := json.Marshal(in)
	require.NoError(t, err)
	assert.JSONEq(t, `{"D":"2026-02-28","M":"2026-02"}`, string(text))
	var out both
	require.NoError(t, json.Unmarshal(text, &out))
	assert.Equal(t, in, out)
}
