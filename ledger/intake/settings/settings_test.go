package settings_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	ownsettings "piecebook/ledger/intake/settings"
	"piecebook/ledger/money"
	"piecebook/ledger/testkit"
	"piecebook/ledger/testkit/smallbooks"
	"piecebook/templates"
)

// Without settings.toml every choice has the default of RECORDS.md.
func TestSettingsDefaults(t *testing.T) {
	s := smallbooks.Read(t, nil).Books.Settings
	require.Equal(t, []string{"", "USD", "us", "letter", "hours", "own", "with the piece", "materials"},
		[]string{s.Shop, s.Currency, s.Units, s.Paper, s.OverheadBy, s.Coverage, s.TaxSupplies, s.TaxStock})
	require.Equal(t, []money.Cents{2500, 7500}, []money.Cents{s.TargetHourly, s.ReceiptsOver})
	require.False(t, s.DayFirst || s.DecimalComma)
}

func TestSettingsTaken(t *testing.T) {
	res := smallbooks.Read(t, smallbooks.Settings(`shop = "Oak & Wax"
currency = "eur"
dates = "dmy"
paper = "A4"
target_hourly = 31.5
receipts_over = 100
overhead_by = "pieces"
coverage = "stated"
tax_supplies = "when used"
tax_stock = "inventory"
[vehicle]
in_service = 2024-05-01
"2026" = 14200.5
[home]
shop_area = 240
home_area = 1600.5
separate = true
`))
	smallbooks.NoErrors(t, res)
	s := res.Books.Settings
	require.Equal(t, []string{"Oak & Wax", "EUR", "a4", "pieces", "stated", "when used", "inventory"},
		[]string{s.Shop, s.Currency, s.Paper, s.OverheadBy, s.Coverage, s.TaxSupplies, s.TaxStock})
	require.Equal(t, []money.Cents{3150, 10000}, []money.Cents{s.TargetHourly, s.ReceiptsOver})
	require.Equal(t, "2024-05-01", s.InService.String())
	require.Equal(t, "28401/2", s.YearlyTotals["2026"].String())
	require.Equal(t, "240 3201/2 true", fmt.Sprint(s.Home.Shop.RatString(), " ", s.Home.Whole.RatString(), " ",
		s.Home.Separate))
}

// rateOn is the rate in force on a day.
func rateOn(s ledger.Settings, day string) *big.Rat {
	on, _ := calendar.Parse(day)
	var rate *big.Rat
	for _, r := range s.Mileage {
		if !r.From.After(on) {
			rate = r.PerMile
		}
	}
	return rate
}

// The rates: the project's notes on tax, section 4; a mile is 1.609344 km.
func TestMileageRates(t *testing.T) {
	s := smallbooks.Read(t, nil).Books.Settings
	for day, rate := range map[string]string{"2015-06-01": "0.575", "2016-01-01": "0.54", "2018-12-31": "0.545",
		"2022-06-30": "0.585",
		"2022-07-01": "0.625", "2023-05-05": "0.655", "2025-12-31": "0.7", "2026-01-01": "0.725"} {
		want, _ := new(big.Rat).SetString(rate)
		require.Zero(t, want.Cmp(rateOn(s, day)), day)
	}
	metric := smallbooks.Read(t, smallbooks.Settings("units = \"metric\"\n[mileage]\n\"2026-01-01\" = "+
		"0.3\n\"2026-06-01\" = \"0.35\"\n"))
	smallbooks.NoErrors(t, metric)
	perMile := new(big.Rat).Mul(rateOn(metric.Books.Settings, "2025-03-03"), big.NewRat(1609344, 1000000))
	require.Zero(t, perMile.Cmp(big.NewRat(7, 10)), "the built-in rate, exactly")
	require.Zero(t, rateOn(metric.Books.Settings, "2026-02-02").Cmp(big.NewRat(3, 10)), "the own one, as it stands")
	require.Zero(t, rateOn(metric.Books.Settings, "2026-07-01").Cmp(big.NewRat(35, 100)))
}

// Goal: the rates and limits of another country are another file. Method: the file
// of the invented country, whose money the shop has.
func TestAnotherCountrysRates(t *testing.T) {
	usual, err := templates.Load()
	require.NoError(t, err)
	xx, err := templates.ReadRates(testkit.InventedCountry, "rates-xx.toml")
	require.NoError(t, err)
	set := *usual
	set.Rates = append(slices.Clone(usual.Rates), xx)
	var problems fault.List
	of := func(text string) ledger.Settings {
		s, _ := ownsettings.Read([]byte(text), &set, &problems)
		return s
	}
	metric, miles := of("currency = \"XTS\"\nunits = \"metric\"\n"), of("currency = \"XTS\"\n")
	require.Empty(t, problems.All())
	require.Zero(t, rateOn(metric, "2026-02-02").Cmp(big.NewRat(3, 10)), "the file's, a km")
	require.Zero(t, rateOn(miles, "2026-02-02").Cmp(big.NewRat(4828032, 10000000)), "1.609344 km are a mile")
	require.Zero(t, rateOn(of(""), "2026-02-02").Cmp(big.NewRat(725, 1000)))
	require.Equal(t, int64(10000), set.RatesFor("XTS").AtOnceCents("2026-02-02"))
}

// Rates follow the units wherever units stands in the file.
func TestUnitsBelowMileage(t *testing.T) {
	res := smallbooks.Read(t, smallbooks.Settings("mileage = {\"2027-01-01\" = 0.5}\nunits = \"metric\"\n"))
	smallbooks.NoErrors(t, res)
	require.NotZero(t, rateOn(res.Books.Settings, "2025-03-03").Cmp(big.NewRat(7, 10)))
}

// Whatever stands where a table of settings should is reported, never a panic.
func TestSettingsOfTheWrongShape(t *testing.T) {
	for _, text := range []string{"mileage = 1", "vehicle = []", "sheets = \"x\"", "columns = 3", "[columns]\nsales = 1",
		"[[mileage]]\na = 1",
		"target_hourly = nan", "target_hourly = -1", "receipts_over = [1]", "shop = 3", "[shop]", "[vehicle]\nmiles = 3",
		"[vehicle]\n2026 = -1", "units", "home = 3", "[home]\nshop_area = 0", "[home]\nshop_area = 300\nhome_area = 200",
		"[home]\nseparate = 1", "[home]\nshop = 200"} {
		require.True(t, smallbooks.Read(t, smallbooks.Settings(text)).Problems.HasErrors(), text)
	}
}

// A column of [columns.TABLE] that is named by its title or another of its names, or
// but for a slip in one, is answered with its name.
func TestColumnNamedByItsTitle(t *testing.T) {
	for typed, want := range map[string]string{"sold for": "sold_price", "Sold  For": "sold_price", "got onn": "got_on",
		"selling pricee": "sold_price"} {
		list := smallbooks.Read(t, smallbooks.Settings("[columns.pieces]\nx = \""+typed+"\"")).Problems.All()
		i := slices.IndexFunc(list, func(p fault.Problem) bool { return p.Code == fault.CodeSettingUnknown })
		require.GreaterOrEqual(t, i, 0, typed)
		require.Contains(t, list[i].Fix, "\"x\" = \""+want+"\"", typed)
	}
}
