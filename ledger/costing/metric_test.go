package costing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
)

// A metric shop: centimetres and square metres, kilometres, starting figures
// converted exactly (NIST Handbook 44, Appendix C: 1 sq ft is 0.09290304 sq m,
// 1 US quart 946.352946 ml, a mile 1.609344 km).
func TestMetricShop(t *testing.T) {
	l := testkit.Costed(t, `
settings
units = "metric"
dates = "dmy"
decimal_comma = true
[mileage]
"2026-02-01" = 0.50

pieces
piece;kind;got_on;price
A;side table;05.01.2026;40,00
B;nightstand;05.01.2026;40,00

surfaces
piece;part;shape;width;height;count
A;top;rectangle;100;50;1
A;side;rectangle;50,5;40;2

supplies
supply;group;container
Primer;primer;1 l

purchases
bought_on;supply;containers;cost
06.01.2026;Primer;1;21,40

uses
used_on;pieces;supply
10.01.2026;A; Primer

trips
on;km;purpose;pieces
10.01.2026;100;pick up;A
10.02.2026;100;pick up;A
`, "2026-02")
	assert.Equal(t, "0.90", money.Fixed(piece(t, l, "A", "2026-01").Record.Area, 2), "0.5 + 2 × 0.202 = "+
		"0.904 sq m, to 0.01")
	assert.Equal(t, "1.11", money.Fixed(piece(t, l, "B", "2026-01").Record.Area, 2), "12 sq ft = 1.11483648 sq m, to 0.01")
	// 2.3 sq ft a fl oz × (1000 ml ÷ 29.5735295625) × 0.09290304 = 7.22527... sq m a litre.
	assert.Equal(t, "7.2253", money.AtMost(l.Books.Supplies[0].Starting, 4))
	// 0.90 ÷ 7.22527 of 21.40 = 2.6657
	assert.Equal(t, "2.67", shelf(t, l, "Primer", "2026-01").Used.String())
	assert.Equal(t, "45.05", piece(t, l, "A", "2026-01").Trips.String(), "100 km = 62.1371 miles at 0.725")
	assert.Equal(t, "95.05", piece(t, l, "A", "2026-02").Trips.String(), "the shop's own rate is per km")
	testkit.Tied(t, l)
}
