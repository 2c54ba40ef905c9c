package templates

import (
	"fmt"
	"io/fs"
	"math/big"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// Rates are what a country sets by date, in its own money.
type Rates struct {
	Currency  string
	Mileage   []MileageRate    // by date
	Equipment []EquipmentLimit // by date
}

// MileageRate is a standard mileage rate in units of money a mile, from a day on.
type MileageRate struct {
	From    string // 2026-01-01
	PerMile *big.Rat
	Source  string
}

// EquipmentLimit is the most one item may cost, with tax, to be written off
// at once, in cents, from a day of purchase on.
type EquipmentLimit struct {
	From  string // 2016-01-01
	Cents int64
}

// AtOnceCents is the limit in force on a day (2026-03-09), in cents; 0 before the first.
func (r *Rates) AtOnceCents(day string) int64 {
	var cents int64
	for _, l := range r.Equipment {
		if l.From <= day {
			cents = l.Cents
		}
	}
	return cents
}

// RatesFor are those of the country whose money a shop's currency (USD) is. One
// that no country here has gets those of the default one.
func (s *Set) RatesFor(currency string) *Rates {
	for _, r := range s.Rates {
		if r.Currency == currency {
			return r
		}
	}
	return s.Rates[0]
}

// loadRates reads the default country's file, then the others by name.
func (s *Set) loadRates() error {
	names, err := fs.Glob(files, "data/rates-*.toml")
	if err != nil {
		return err
	}
	usual := "data/rates-" + strings.ToLower(defaultCountry) + ".toml"
	names = slices.DeleteFunc(names, func(name string) bool { return name == usual })
	for _, name := range append([]string{usual}, names...) {
		r, err := ReadRates(files, name)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		s.Rates = append(s.Rates, r)
	}
	return nil
}

// kmPerMile is how many kilometers a mile is (NIST Special Publication 811,
// appendix B.8, exact).
var kmPerMile = big.NewRat(1609344, 1000000)

// ReadRates reads one country's file, a rates-XX.toml.
func ReadRates(data fs.FS, name string) (*Rates, error) {
	var raw struct {
		Currency string `toml:"currency"`
		Mileage  []struct {
			From   string   `toml:"from"`
			Mile   *big.Rat `toml:"cents_per_mile"`
			Km     *big.Rat `toml:"cents_per_km"`
			Source string   `toml:"source"`
		} `toml:"mileage"`
		Limit []struct {
			From   string   `toml:"from"`
			Amount *big.Rat `toml:"amount"`
		} `toml:"limit"`
	}
	if _, err := toml.DecodeFS(data, name, &raw); err != nil {
		return nil, err
	}
	out, hundred := &Rates{Currency: raw.Currency}, big.NewRat(100, 1)
	for _, m := range raw.Mileage {
		cents := m.Mile
		if m.Km != nil {
			cents = m.Km.Mul(m.Km, kmPerMile)
		}
		if cents == nil {
			return nil, fmt.Errorf("%s: no rate", m.From)
		}
		out.Mileage = append(out.Mileage, MileageRate{m.From, cents.Quo(cents, hundred), m.Source})
	}
	for _, l := range raw.Limit {
		if l.Amount == nil || !l.Amount.Mul(l.Amount, hundred).IsInt() {
			return nil, fmt.Errorf("%s: not whole cents", l.From)
		}
		out.Equipment = append(out.Equipment, EquipmentLimit{l.From, l.Amount.Num().Int64()})
	}
	slices.SortFunc(out.Mileage, func(a, b MileageRate) int { return strings.Compare(a.From, b.From) })
	slices.SortFunc(out.Equipment, func(a, b EquipmentLimit) int { return strings.Compare(a.From, b.From) })
	return out, nil
}
