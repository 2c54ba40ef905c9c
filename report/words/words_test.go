package words_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/report/words"
)

// TestMonths: what each form of a span becomes; over more than a year both
// years are shown.
func TestMonths(t *testing.T) {
	month := func(year int, m time.Month) calendar.Month { return calendar.MonthOf(year, m) }
	for _, c := range []struct {
		first, last calendar.Month
		long        string
	}{
		{month(2026, 3), month(2026, 3), "March 2026"},
		{month(2025, 10), month(2025, 12), "October to December 2025"},
		{month(2025, 11), month(2026, 1), "November 2025 to January 2026"},
		{month(2025, 1), month(2026, 1), "January 2025 to January 2026"},
		{month(2024, 12), month(2026, 1), "December 2024 to January 2026"},
		{month(2025, 5), month(2026, 6), "May 2025 to June 2026"},
	} {
		assert.Equal(t, c.long, words.Months(c.first, c.last))
	}
}

// The first letter of a sentence turns, of any alphabet; a blank text stays blank,
// and a byte that is no letter stays what it is.
func TestThousands(t *testing.T) {
	for number, want := range map[string]string{"999": "999", "1807.1": "1,807.1", "−1234567.25": "−1,234,567.25",
		"21/32": "21/32"} {
		assert.Equal(t, want, words.Thousands(number))
	}
}

func TestFirstLetters(t *testing.T) {
	for text, want := range map[string][2]string{"": {"", ""}, "sanding": {"Sanding", "sanding"},
		"Öl": {"Öl", "öl"}, "7 coats": {"7 coats", "7 coats"}, "\xff": {"\xff", "\xff"}} {
		assert.Equal(t, want, [2]string{words.Capital(text), words.Uncapital(text)}, text)
	}
}

// A description that names the kind itself stands without it.
func TestPiece(t *testing.T) {
	for _, c := range []struct{ kind, description, want string }{
		{"dresser", "", "dresser"}, {"dresser", "oak tallboy", "dresser, oak tallboy"},
		{"dresser", "Oak Dresser, one foot gone", "Oak Dresser, one foot gone"},
		{"side table", "round side table", "round side table"},
		{"chest", "chestnut bench", "chest, chestnut bench"},
	} {
		assert.Equal(t, c.want, words.Piece(&ledger.Piece{Kind: c.kind, Description: c.description}))
	}
}

// What a note asks for begins with what it is about.
func TestToDoBeginsWithWhatItIsAbout(t *testing.T) {
	n := fault.Problem{Why: "Twice.", About: "P1: hours stand twice", Fix: "Clear them here."}
	assert.Equal(t, "P1: hours stand twice. Clear them here.", words.ToDo(n))
	n.About = ""
	assert.Equal(t, "Clear them here.", words.ToDo(n))
	n.Fix = ""
	assert.Equal(t, "Twice.", words.ToDo(n))
}
