package taxyear

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"time"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Schedule is what is written off of a cost in each year of a table of
// percentages: each year's part rounded half to even, the last year taking
// what is left, so that the years add up to the cost.
func Schedule(cost money.Cents, percents []*big.Rat) []money.Cents {
	out := make([]money.Cents, len(percents))
	left := cost
	for i, p := range percents {
		part := new(big.Rat).Mul(cost.Rat(), p)
		out[i] = money.Round(part.Quo(part, hundred))
		if i == len(percents)-1 {
			out[i] = left
		}
		left -= out[i]
	}
	return out
}

// allAssets is the equipment bought up to the year's end, by date.
func (s *source) allAssets() []Asset {
	var out []Asset
	for i := range s.b.Equipment {
		e := &s.b.Equipment[i]
		if e.On.Year > s.year {
			continue
		}
		out = append(out, s.asset(e))
	}
	slices.SortStableFunc(out, func(a, b Asset) int {
		return cmp.Or(a.Record.On.Compare(b.Record.On), cmp.Compare(a.Record.What, b.Record.What),
			cmp.Compare(a.Cost, b.Cost), a.Record.At.Compare(b.Record.At))
	})
	return out
}

func (s *source) asset(e *ledger.Equipment) Asset {
	a := Asset{Record: e, Cost: e.Cost + e.TaxPaid}
	percents := s.tax.Depreciation.Percent[e.Life]
	if percents == nil {
		a.Above = s.aboveLimit(e.On, a.Cost)
		if e.On.Year < s.year {
			a.Before = a.Cost
		}
		return a
	}
	a.Yearly = Schedule(a.Cost, percents)
	for i, part := range a.Yearly {
		switch year := e.On.Year + i; {
		case year < s.year:
			a.Before += part
		case year == s.year:
			a.Now, a.Percent = part, percents[i]
		default:
			a.After += part
		}
	}
	return a
}

// aboveLimit says that an item cost more than may be written off at once
// without being asked about.
func (s *source) aboveLimit(on calendar.Date, cost money.Cents) bool {
	return int64(cost) > s.limit(on.String())
}

// writeOffs is the year's write-offs as postings, so that they can be asked why.
func (s *source) writeOffs() []ledger.Posting {
	var out []ledger.Posting
	for _, a := range s.assets {
		if a.Percent == nil {
			continue
		}
		n := s.year - a.Record.On.Year + 1
		how := ledger.Derivation{Method: ledger.OfTable, Words: a.Record.What, Rate: a.Percent, Unit: string(a.Record.Life),
			Quantity: big.NewRat(int64(n), 1), Whole: big.NewRat(int64(len(a.Yearly)), 1),
			Amounts: []ledger.Amount{{Name: ledger.AmountCost, Cents: a.Cost}}}
		if n == len(a.Yearly) {
			how.Method = ledger.RestOfTable
		}
		if len(a.Yearly) == 1 {
			how.Method = ledger.FirstYear
		}
		out = append(out, ledger.Posting{Date: s.to.Last(), Month: s.to, Cents: a.Now, From: ledger.Paid,
			To:     ledger.WrittenOff,
			Reason: ledger.ReasonWrittenOff, Source: []fault.Place{a.Record.At}, How: how})
	}
	return out
}

// lateBuying compares what was bought to be written off over years in the
// year's last quarter with all of the year; nil where it is not above the limit.
func (s *source) lateBuying() *LateBuying {
	d := s.tax.Depreciation
	l := LateBuying{Source: d.LastQuarterSource}
	for _, a := range s.assets {
		if a.Record.On.Year != s.year || a.Yearly == nil {
			continue
		}
		l.All += a.Cost
		if a.Record.On.Month >= time.October {
			l.Last += a.Cost
		}
	}
	if l.All == 0 || d.LastQuarterPercent == nil {
		return nil
	}
	l.Percent = new(big.Rat).Quo(new(big.Rat).Mul(l.Last.Rat(), hundred), l.All.Rat())
	if l.Percent.Cmp(d.LastQuarterPercent) <= 0 {
		return nil
	}
	return &l
}

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
