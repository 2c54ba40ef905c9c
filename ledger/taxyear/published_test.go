package taxyear_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/money"
	"piecebook/ledger/testkit/bookgen"
)

// goods is books of one kind of goods at 1.00 each, all of it counted at the
// year's end: how a published roll-forward stands in our records.
func goods(opening, bought, back, closing, sales, refunds int) string {
	words := fmt.Sprintf(`
pieces
piece,kind,how,got_on,area
A,dresser,free,2026-01-02,10

supplies
supply,group,container,coverage
Goods,paint,1 each,1

openings
on,supply,amount,cost,deducted
2026-01-01,Goods,%[1]d,%[1]d,no

uses
used_on,pieces,supply
2026-06-01,A,Goods

counts
counted_on,supply,left
2026-12-31,Goods,%[2]d

sales
sold_on,pieces,channel,price,type
2026-12-01,A,booth,%[3]d,sale
`, opening, closing, sales)
	if refunds > 0 {
		words += fmt.Sprintf("2026-12-05,A,booth,%d,refund\n", refunds)
	}
	words += fmt.Sprintf("\npurchases\nbought_on,supply,containers,cost\n2026-03-01,Goods,%[1]d,%[1]d\n", bought)
	if back > 0 {
		words += fmt.Sprintf("2026-04-01,Goods,-%[1]d,-%[1]d\n", back)
	}
	return words
}

// Published roll-forwards of cost of goods sold. Discounts come off the
// purchase and freight is part of it (Reg. 1.471-3(b)); returns are taken back.
func TestPublishedRollForwards(t *testing.T) {
	for _, c := range []struct {
		source                                         string
		opening, bought, back, closing, sales, refunds int
		want                                           map[string]string
	}{
		{"IRS Pub. 334, sample return (archive labelled 2001): lines 1, 2, 35 printed; 36, 41, 42 from memory; 3 " +
			"and 5 worked out",
			42_843, 240_252, 0, 43_746, 397_742, 1_442,
			map[string]string{"1": "397742.00", "2": "1442.00", "3": "396300.00", "35": "42843.00", "38": "240252.00",
				"40": "283095.00", "41": "43746.00", "42": "239349.00", "4": "239349.00", "5": "156951.00"}},
		{"EH p. 250, Exhibit 38: 24,000 + (167,000 - 8,000 - 3,000 + 10,000) - 31,000",
			24_000, 167_000 - 3_000 + 10_000, 8_000, 31_000, 1, 0, map[string]string{"35": "24000.00", "38": "166000.00",
				"40": "190000.00", "42": "159000.00"}},
		{"answer page, case 1: 1,400 + (6,230 - 470 - 200 + 150) - 1,890", 1_400, 6_230 - 200 + 150, 470, 1_890, 1, 0,
			map[string]string{"40": "7110.00", "42": "5220.00"}},
		{"SMA Fig. 1.9: 350,000 + 260,000 - 320,000, sales 450,000", 350_000, 260_000, 0, 320_000, 450_000, 0,
			map[string]string{"42": "290000.00", "5": "160000.00"}},
		{"OS2 4.3: 400 + 1,000 - 500", 400, 1_000, 0, 500, 1, 0, map[string]string{"42": "900.00"}},
	} {
		y := year(t, bookgen.InWords(goods(c.opening, c.bought, c.back, c.closing, c.sales, c.refunds)), 2026)
		for line, want := range c.want {
			assert.Equal(t, want, y.Amount(line).String(), "line %s, %s", line, c.source)
		}
	}
}

// A textbook exercise with withdrawals (online homework page, author not
// shown): 67,000 + (610,000 - 1,780) - 77,200. Its own answer is not visible;
// 598,020 is worked out.
func TestPublishedWithdrawals(t *testing.T) {
	y := year(t, bookgen.InWords(`
pieces
piece,kind,got_on,price,area
OLD,desk,2025-11-01,67000,10
KEPT,chair,2026-02-01,1780,10
LEFT,chest,2026-03-01,77200,10
SOLD,dresser,2026-03-02,531020,10

sales
sold_on,pieces,channel,price
2026-05-01,OLD,booth,1
2026-06-01,SOLD,booth,1

removals
removed_on,piece,why
2026-06-30,KEPT,kept
`), 2026)
	assert.Equal(t, map[string]string{"35": "67000.00", "36": "608220.00", "40": "675220.00", "41": "77200.00",
		"42": "598020.00"}, amounts(y, "35", "36", "40", "41", "42"))
}

// Treas. Reg. 1.61-6(a), example 2 (as quoted in Medlin v. Commissioner,
// 2003): bought together for 25,000, fair values 15,000 and 10,000. Each part
// has its share of the cost at its own sale. Reg. 1.338-7: 270 over 100 and
// 200 gives 90 and 180.
func TestPublishedLots(t *testing.T) {
	y := year(t, bookgen.InWords(`
lots
lot,got_on,price
L1,2026-01-05,25000
L2,2026-01-05,270

pieces
piece,kind,lot,worth,area
STATION,chest,L1,15000,10
LOT,desk,L1,10000,10
ONE,chair,L2,100,10
TWO,chair,L2,200,10

sales
sold_on,pieces,channel,price
2026-05-01,STATION,booth,20000
2026-06-01,ONE,booth,100
`), 2026)
	assert.Equal(t, "15090.00", y.Amount("42").String(), "15,000 and 90")
	assert.Equal(t, "10180.00", y.Amount("41").String(), "10,000 and 180")
}

// The standard rate changed within 2022: 58.5 cents to 30 June, 62.5 from 1
// July (two secondary pages on the IRS rates).
func TestMileageOverTheChangeOf2022(t *testing.T) {
	y := year(t, bookgen.InWords(`
pieces
piece,kind,how,got_on,area
A,chair,free,2022-01-05,10

trips
on,miles,purpose,tolls,pieces
2022-06-30,100,pick up,,A
2022-07-01,100,deliver,3.00,A
2022-12-31,0.4,post,,
2023-01-01,100,next year,,
`), 2022)
	assert.Equal(t, "121.25", y.Mileage.Amount.String(), "58.50 + 62.50 + 0.25")
	assert.Equal(t, "3.00", y.Mileage.Tolls.String())
	assert.Equal(t, "124.25", y.Amount("9").String())
	assert.Equal(t, "200.4", money.AtMost(y.Mileage.Miles, 4))
	require.Len(t, y.Mileage.Rates, 2)
}

// A metric shop drives kilometres: the built-in rates, per mile, are divided
// by 1.609344, the kilometres of a mile exactly (NIST Handbook 44, Appendix C).
func TestMileageInKilometres(t *testing.T) {
	y := year(t, bookgen.InWords(`
settings
units = "metric"

pieces
piece,kind,how,got_on,area
A,chair,free,2026-01-05,1

trips
on,km,purpose,pieces
2026-02-01,160.9344,pick up,A
`), 2026)
	assert.Equal(t, "72.50", y.Mileage.Amount.String(), "100 miles at 72.5 cents")
	assert.Equal(t, "160.9344", money.AtMost(y.Mileage.Miles, 4))
}
