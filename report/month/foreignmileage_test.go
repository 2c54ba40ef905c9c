package month

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/report/testkit"
)

// TestForeignMileageIsNamed: a shop with money of another country that has no rate of
// its own is told whose rate its trips are at; a shop with its own is told nothing.
func TestForeignMileageIsNamed(t *testing.T) {
	in := testkit.SmallShop(t)
	assert.Empty(t, foreignMileage(&in))
	books := *in.Books
	books.Trips = []ledger.Trip{{On: testkit.On(3), Miles: big.NewRat(10, 1)}}
	rate := ledger.MileageRate{From: calendar.Date{Year: 2026, Month: 1, Day: 1}, PerMile: big.NewRat(45, 100),
		Source: "a notice", Foreign: "USD"}
	books.Settings.Currency, books.Settings.Units = "EUR", "metric"
	books.Settings.Mileage = []ledger.MileageRate{rate}
	in.Books = &books
	assert.Equal(t, " Trips are at 0.45 EUR a km, which is another country's rate (USD; a notice): a rate of the shop's "+
		"own goes under [mileage] in settings.toml.", foreignMileage(&in))
	books.Settings.Mileage = append(books.Settings.Mileage, ledger.MileageRate{From: testkit.On(1),
		PerMile: big.NewRat(30, 100), Own: true})
	assert.Empty(t, foreignMileage(&in))
}
