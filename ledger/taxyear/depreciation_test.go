package taxyear_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/templates"
)

// percents are the rows of IRS Pub. 946, Appendix A, by life and quarter (0:
// Table A-1, half-year; 1 to 4: Tables, mid-quarter). A-1: two copies
// agree.: years 1 to 5 from a textbook's table, quarter 4 whole from
// a data file, later years of quarters 1 to 3 from memory.
var percents = map[string][][]string{
	"5": {{"20.00", "32.00", "19.20", "11.52", "11.52", "5.76"},
		{"35.00", "26.00", "15.60", "11.01", "11.01", "1.38"}, {"25.00", "30.00", "18.00", "11.37", "11.37", "4.26"},
		{"15.00", "34.00", "20.40", "12.24", "11.30", "7.06"}, {"5.00", "38.00", "22.80", "13.68", "10.94", "9.58"}},
	"7": {{"14.29", "24.49", "17.49", "12.49", "8.93", "8.92", "8.93", "4.46"},
		{"25.00", "21.43", "15.31", "10.93", "8.75", "8.74", "8.75", "1.09"},
		{"17.85", "23.47", "16.76", "11.97", "8.87", "8.87", "8.87", "3.34"},
		{"10.71", "25.51", "18.22", "13.02", "9.30", "8.85", "8.86", "5.53"},
		{"3.57", "27.55", "19.68", "14.06", "10.04", "8.73", "8.73", "7.64"}},
}

func usTax(t *testing.T) *templates.Tax {
	t.Helper()
	tax, err := templates.TaxFor("USD")
	require.NoError(t, err)
	return tax
}

func ratOf(t *testing.T, text string) *big.Rat {
	t.Helper()
	x, ok := new(big.Rat).SetString(text)
	require.True(t, ok, text)
	return x
}

// The tables are the published ones, and each row adds up to 100.
func TestTablesAreThePublishedOnes(t *testing.T) {
	d := usTax(t).Depreciation
	for life, rows := range percents {
		for quarter, row := range rows {
			table := d.Table(life, quarter)
			require.NotNil(t, table)
			require.Equal(t, fmt.Sprintf("Table A-%d", quarter+1), table.Name)
			sum := new(big.Rat)
			require.Len(t, table.Percent, len(row))
			for i, p := range table.Percent {
				assert.Equal(t, row[i], p.FloatString(2), "%s, %s-year, year %d", table.Name, life, i+1)
				sum.Add(sum, p)
			}
			assert.Equal(t, "100.00", sum.FloatString(2), "%s, %s-year", table.Name, life)
		}
	}
	assert.Nil(t, d.Table("at once", 1))
}

// Goal: the percentages that nobody saw in print are those of the rule that the
// publication gives for its tables. Method: 200 % declining balance from the
// middle of the quarter, straight line from where that gives more; each within
// a hundredth of the table's.
func TestTablesByQuarterFollowTheRule(t *testing.T) {
	one := big.NewRat(1, 1)
	for life, years := range map[string]int64{"5": 5, "7": 7} {
		for quarter := int64(1); quarter <= 4; quarter++ {
			left, used := big.NewRat(100, 1), new(big.Rat)
			part := big.NewRat(27-6*quarter, 24) // from the middle of the quarter: 21/24, 15/24, 9/24, 3/24
			for i, text := range percents[life][quarter] {
				rest := new(big.Rat).Sub(big.NewRat(years, 1), used)
				if i > 0 {
					part = one
				}
				if rest.Cmp(part) < 0 {
					part = rest
				}
				declining := new(big.Rat).Mul(left, big.NewRat(2, years))
				straight := new(big.Rat).Quo(left, rest)
				if straight.Cmp(declining) > 0 {
					declining = straight
				}
				of := new(big.Rat).Mul(declining, part)
				off := new(big.Rat).Sub(of, ratOf(t, text))
				near := big.NewRat(1, 100)
				if i == len(percents[life][quarter])-1 {
					near = big.NewRat(2, 100) // the last year takes what the others were rounded by
				}
				assert.LessOrEqual(t, off.Abs(off).Cmp(near), 0, "%s-year, quarter %d, year %d: %s, not %s",
					life, quarter, i+1, of.FloatString(4), text)
				left.Sub(left, of)
				used = new(big.Rat).Add(used, part)
			}
			assert.Zero(t, used.Cmp(big.NewRat(years, 1)))
		}
	}
}

// equipment is books of equipment lines alone.
func equipment(rows string) string {
	return "\nequipment\nbought_on,what,cost,tax_paid,life,sold_on,sold_for\n" + rows
}

// bought is a year's depreciation by line 13 and by its item.
func depreciations(t *testing.T, rows string, years ...int) []string {
	t.Helper()
	var out []string
	l, set := costed(t, bookgen.InWords(equipment(rows)), years[len(years)-1])
	for _, of := range years {
		y := worked(t, l, set, of)
		assert.Equal(t, y.Depreciation, y.Amount("13"))
		for _, a := range y.Assets {
			left := money.Cents(0)
			if a.Sale != nil {
				left = a.Sale.Left
			}
			assert.Equal(t, a.Cost, a.Before+a.Now+a.After+left)
		}
		out = append(out, y.Depreciation.String())
	}
	return out
}

func through(from, to int) (out []int) {
	for ; from <= to; from++ {
		out = append(out, from)
	}
	return out
}

// Goal: 2,400 of 5- and 7-year property bought in each quarter of 2022 is
// written off through all years by the published percentages: by the half-year
// table where it does not stand alone, by that of its quarter where the last
// quarter has too much. Method: the whole program on books of these tools; the
// amounts are the percentages of 2,400, which is exact to the cent.
func TestEveryQuarterThroughAllYears(t *testing.T) {
	days := []string{"2022-01-03", "2022-04-01", "2022-09-30", "2022-10-01"}
	for life, rows := range percents {
		for quarter := 1; quarter <= 4; quarter++ {
			item := days[quarter-1] + ",saw,2400,," + life + ",,\n"
			// More bought in the last quarter, and sold long after; and more in the first.
			late := "2022-12-31,heater,99999,,first year,,\n"
			early := "2022-01-01,heater,99999,,first year,,\n"
			for by, more := range map[int]string{quarter: late, 0: early} {
				var want []string
				for i, p := range rows[by] {
					c := money.Round(new(big.Rat).Mul(ratOf(t, p), big.NewRat(2400, 1)))
					if i == 0 {
						c += 9_999_900
					}
					want = append(want, c.String())
				}
				want = append(want, "0.00")
				assert.Equal(t, want, depreciations(t, item+more, through(2022, 2022+len(rows[by]))...),
					"%s-year, quarter %d, table %d", life, quarter, by)
			}
		}
	}
}

// Goal: the tables by quarter hold above 40 %, not at it (IRC 168(d)(3)).
// Method: 10,000.00 bought in a year, of it 3,999.00, 4,000.00 and 4,001.00 in
// October; 39.99, 40.00 and 40.01 %.
func TestFortyPercent(t *testing.T) {
	for _, c := range []struct {
		early, late, percent string
		applies              bool
		want                 string // 5-year: 20 % of 10,000, or 35 % of what came in January and 5 % of the rest
	}{
		{"6001.00", "3999.00", "39.99", false, "2000.00"},
		{"6000.00", "4000.00", "40.00", false, "2000.00"},
		{"5999.00", "4001.00", "40.01", true, "2299.70"},
	} {
		y := year(t, bookgen.InWords(equipment("2026-01-05,lathe,"+c.early+",,5,,\n2026-10-01,planer,"+c.late+",,5,,\n")),
			2026)
		require.NotNil(t, y.LateBuying)
		assert.Equal(t, c.percent, y.LateBuying.Percent.FloatString(2))
		assert.Equal(t, c.applies, y.LateBuying.Applies, c.percent)
		assert.Equal(t, c.want, y.Depreciation.String(), c.percent)
	}
}

// What was bought and sold in one year counts neither in the 40 % nor as a
// write-off (Reg. 1.168(d)-1(b)(3)); what is written off at once does not
// count in the 40 %; the first-year allowance does not lower it (from memory).
func TestWhatCountsInTheFortyPercent(t *testing.T) {
	early := "2026-02-01,lathe,1000,,5,,\n"
	for rows, applies := range map[string]bool{
		early + "2026-11-01,planer,900,,5,2026-12-20,800\n":                              false,
		early + "2026-11-01,vacuum,2400,,at once,,\n":                                    false,
		early + "2026-11-01,booth,5000,,first year,,\n":                                  true,
		"2026-02-01,booth,5000,,first year,,\n" + early + "2026-11-01,planer,900,,5,,\n": false,
	} {
		y := year(t, bookgen.InWords(equipment(rows)), 2026)
		assert.Equal(t, applies, y.LateBuying.Applies, rows)
	}
}

// A year of the half-year table and one of the tables by quarter stand side by
// side: each item keeps the table of the year it was bought in.
func TestHalfYearAndMidQuarterSideBySide(t *testing.T) {
	rows := "2022-03-01,saw,1000,,7,,\n2023-11-01,lathe,1000,,7,,\n"
	// 14.29 | 24.49 + 3.57 | 17.49 + 27.55 | 12.49 + 19.68 | 8.93 + 14.06 percent of 1,000
	assert.Equal(t, []string{"142.90", "280.60", "450.40", "321.70", "229.90"}, depreciations(t, rows,
		through(2022, 2026)...))
}

// Goal: a tool sold in its second year has half of that year's write-off, none
// later, and a gain or loss of the price less what was not written off.
// Method: 1,000 of 7-year property by the half-year table, bought March 2024,
// sold in 2025: 142.90 + half of 244.90 (122.45) = 265.35, 734.65 is left.
func TestToolSoldInItsSecondYear(t *testing.T) {
	for price, gain := range map[string]string{"900": "165.35", "700": "-34.65"} {
		rows := "2024-03-01,saw,1000,,7,2025-08-01," + price + "\n"
		assert.Equal(t, []string{"142.90", "122.45", "0.00", "0.00"}, depreciations(t, rows, through(2024, 2027)...))
		y := year(t, bookgen.InWords(equipment(rows)), 2025)
		require.NotNil(t, y.Assets[0].Sale)
		assert.Equal(t, "734.65", y.Assets[0].Sale.Left.String())
		assert.Equal(t, gain, y.Assets[0].Sale.Gain.String())
		assert.Zero(t, y.Amount("6"), "the gain is a record beside the lines, in none of them")
		before := year(t, bookgen.InWords(equipment(rows)), 2024)
		assert.Nil(t, before.Assets[0].Sale, "2024 does not know of it")
		assert.Equal(t, "857.10", before.Assets[0].After.String())
	}
}

// By the tables by quarter, the year of a sale counts to the middle of its
// quarter: 12.5, 37.5, 62.5 or 87.5 % (IRC 168(d)(4)(C)). 1,000 of 5-year
// property bought in November 2024: 50.00, then a part of 380.00. In the
// table's last year, which ends in the middle of the fourth quarter, a sale in
// May has 37.5 of 87.5 parts of what is left, 95.80.
func TestToolSoldByQuarter(t *testing.T) {
	for day, want := range map[string]string{"2025-02-10": "47.50", "2025-06-30": "142.50", "2025-07-01": "237.50",
		"2025-12-31": "332.50"} {
		assert.Equal(t, []string{"50.00", want, "0.00"},
			depreciations(t, "2024-11-05,lathe,1000,,5,"+day+",400\n", 2024, 2025, 2026), day)
	}
	got := depreciations(t, "2021-11-05,lathe,1000,,5,2026-05-01,400\n", through(2021, 2027)...)
	assert.Equal(t, []string{"50.00", "380.00", "228.00", "136.80", "109.40", "41.06", "0.00"}, got)
	// The half-year table's last year ends in its middle, where it counts as sold.
	got = depreciations(t, "2021-02-05,lathe,1000,,5,2026-01-02,400\n", through(2021, 2027)...)
	assert.Equal(t, "57.60", got[5])
}

// Bought and sold in one year: nothing is written off, and all of the cost
// stands against the price.
func TestToolSoldInTheYearItWasBought(t *testing.T) {
	y := year(t, bookgen.InWords(equipment("2026-02-24,spray booth,3200.00,264.00,first year,2026-11-20,1900\n")), 2026)
	assert.Zero(t, y.Depreciation)
	assert.Equal(t, "-1564.00", y.Assets[0].Sale.Gain.String())
	assert.Nil(t, y.LateBuying)
	assert.False(t, y.FormForEquipment)
}

// Life `first year`: the whole cost is the year's special first-year allowance
// (IRC 168(k) as changed by Pub. L. 119-21 sec. 70301), on line 13. In the
// months it is no cost: only equipment at once is (COSTING.md). Sold later, all
// of the price is a gain.
func TestFirstYearAllowance(t *testing.T) {
	rows := "2026-02-24,spray booth,3200.00,264.00,first year,2027-11-20,1900\n"
	y := year(t, bookgen.InWords(equipment(rows)), 2026)
	assert.Equal(t, money.Cents(346400), y.Depreciation)
	assert.Equal(t, map[string]string{"13": "3464.00", "48": "0.00"}, amounts(y, "13", "48"))
	assert.Zero(t, y.Figures.Statement.Equipment)
	assert.True(t, y.FormForEquipment)
	y = year(t, bookgen.InWords(equipment(rows)), 2027)
	assert.Equal(t, "1900.00", y.Assets[0].Sale.Gain.String())
}

// The years of a write-off always add up to the cost, whatever the cents.
func TestSchedulesAddUp(t *testing.T) {
	for _, table := range usTax(t).Depreciation.Tables {
		for cost := money.Cents(0); cost < 500; cost++ {
			var sum money.Cents
			for i, c := range taxyear.Schedule(cost*37+1, table.Percent) {
				sum += c
				exact := new(big.Rat).Mul((cost*37 + 1).Rat(), new(big.Rat).Quo(table.Percent[i], big.NewRat(100, 1)))
				off := exact.Sub(exact, c.Rat())
				require.Less(t, off.Abs(off).Cmp(big.NewRat(4, 1)), 1, "a year is within the rounding of the others")
			}
			require.Equal(t, cost*37+1, sum)
		}
	}
}
