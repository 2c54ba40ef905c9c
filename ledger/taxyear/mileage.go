package taxyear

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
)

// mileage is the year's log, by date.
func (s *source) mileage() Mileage {
	m := Mileage{Miles: new(big.Rat), Total: s.b.Settings.YearlyTotals[fmt.Sprint(s.year)]}
	for i := range s.b.Trips {
		t := &s.b.Trips[i]
		if !s.inYear(t.On) {
			continue
		}
		d := Drive{Record: t, Rate: ledger.RateOn(s.b.Settings.Mileage, t.On)}
		if d.Rate != nil {
			d.Amount = t.Driven(d.Rate)
			if !slices.ContainsFunc(m.Rates, func(r ledger.MileageRate) bool { return r.From == d.Rate.From }) {
				m.Rates = append(m.Rates, *d.Rate)
			}
		}
		m.Trips = append(m.Trips, d)
		m.Miles.Add(m.Miles, t.Miles)
		m.Amount += d.Amount
		m.Tolls += t.Tolls
	}
	slices.SortStableFunc(m.Trips, func(a, b Drive) int {
		return cmp.Or(a.Record.On.Compare(b.Record.On), a.Record.At.Compare(b.Record.At))
	})
	slices.SortFunc(m.Rates, func(a, b ledger.MileageRate) int { return a.From.Compare(b.From) })
	return m
}
