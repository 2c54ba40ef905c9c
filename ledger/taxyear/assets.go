package taxyear

import (
	"cmp"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// Schedule is what is written off of a cost in each year of a table of
// percentages: each year's part rounded half to even, the last year taking
// what is left, so that the years add up to the cost.
func Schedule(cost money.Cents, percents []*big.Rat) []money.Cents {
	out := make([]money.Cents, len(percents))
	left := cost
	for i, p := range percents {
		out[i] = PercentOf(cost, p)
		if i == len(percents)-1 {
			out[i] = left
		}
		left -= out[i]
	}
	return out
}

// PercentOf is a percent of an amount, rounded half to even.
func PercentOf(c money.Cents, percent *big.Rat) money.Cents {
	part := new(big.Rat).Mul(c.Rat(), percent)
	return money.Round(part.Quo(part, hundred))
}

// quarterOf is a day's quarter of the year, 1 to 4.
func quarterOf(d calendar.Date) int { return (int(d.Month)-1)/3 + 1 }

// allAssets is the equipment bought up to the year's end, by date.
func (s *source) allAssets() []Asset {
	var out []Asset
	for i := range s.b.Equipment {
		if e := &s.b.Equipment[i]; e.On.Year <= s.year {
			out = append(out, s.asset(e))
		}
	}
	slices.SortStableFunc(out, func(a, b Asset) int {
		return cmp.Or(a.Record.On.Compare(b.Record.On), cmp.Compare(a.Record.What, b.Record.What),
			cmp.Compare(a.Cost, b.Cost), a.Record.At.Compare(b.Record.At))
	})
	return out
}

// asset is an item by its table. What the year's end does not know yet, a sale
// of a later year, changes nothing.
func (s *source) asset(e *ledger.Equipment) Asset {
	a := Asset{Record: e, Cost: e.Cost + e.TaxPaid, Table: s.tax.Depreciation.Table(e.Life, 0)}
	sold := !e.SoldOn.IsZero() && e.SoldOn.Year <= s.year
	if a.Table == nil {
		a.Above = e.Above
		if e.On.Year < s.year {
			a.Before = a.Cost
		}
		if sold {
			a.Sale = &AssetSale{WrittenOff: a.Cost, Gain: e.SoldFor}
		}
		return a
	}
	if x := s.lateBuying(e.On.Year); x != nil && x.Applies {
		a.Table = s.tax.Depreciation.Table(e.Life, quarterOf(e.On))
	}
	a.Yearly = Schedule(a.Cost, a.Table.Percent)
	if sold {
		a.stop(&s.tax.Depreciation)
	}
	for i, part := range a.Yearly {
		switch year := e.On.Year + i; {
		case year < s.year:
			a.Before += part
		case year == s.year:
			a.Now, a.Percent = part, a.Table.Percent[i]
		default:
			a.After += part
		}
	}
	if a.SameYear() {
		a.Percent = nil
	}
	return a
}

// stop ends the write-off with the item's sale: the year of the sale counts in
// part, later ones not at all. What was bought and sold in one year is not
// written off (Reg. 1.168(d)-1(b)(3)).
func (a *Asset) stop(d *templates.Depreciation) {
	n := a.Record.SoldOn.Year - a.Record.On.Year
	for i := n; i < len(a.Yearly); i++ {
		switch part := a.soldPart(d, n); {
		case i == 0 || i > n:
			a.Yearly[i] = 0
		case part != nil:
			a.SoldPart = part
			a.Yearly[i] = PercentOf(a.Yearly[i], part)
		}
	}
	a.Sale = &AssetSale{}
	for _, part := range a.Yearly {
		a.Sale.WrittenOff += part
	}
	a.Sale.Left = a.Cost - a.Sale.WrittenOff
	a.Sale.Gain = a.Record.SoldFor - a.Sale.Left
}

// soldPart is the percent of the year's write-off that counts in the year n
// (0: the year bought) of a sale; nil: all of it. The last year of a table
// ends in the middle of the year, or of the quarter it is named for, so that a
// part of it is a part of the time up to then.
func (a *Asset) soldPart(d *templates.Depreciation, n int) *big.Rat {
	of := func(quarter int) *big.Rat {
		if a.Table.Quarter == 0 || quarter > len(d.Sold.Quarter) {
			return d.Sold.Year
		}
		return d.Sold.Quarter[quarter-1]
	}
	part := of(quarterOf(a.Record.SoldOn))
	if part == nil || len(a.Yearly) == 1 {
		return nil
	}
	if n == len(a.Yearly)-1 {
		part = new(big.Rat).Quo(new(big.Rat).Mul(part, hundred), of(quarterOf(a.Record.On)))
	}
	if part.Cmp(hundred) >= 0 {
		return nil
	}
	return part
}

// limitOn is what an item bought on a day may cost to be written off at once.
func (s *source) limitOn(on calendar.Date) money.Cents { return money.Cents(s.limit(on.String())) }

// writeOffs is the year's write-offs as postings, so that they can be asked why.
func (s *source) writeOffs() []ledger.Posting {
	var out []ledger.Posting
	for _, a := range s.assets {
		if a.Percent == nil {
			continue
		}
		n := s.year - a.Record.On.Year + 1
		how := ledger.Derivation{Method: ledger.OfTable, Words: a.Record.What, Rate: a.Percent, Unit: a.Record.Life,
			Table:    a.Table.Name,
			Quantity: big.NewRat(int64(n), 1), Whole: big.NewRat(int64(len(a.Yearly)), 1),
			Amounts: []ledger.Amount{{Name: ledger.AmountCost, Cents: a.Cost}}}
		if a.Sale != nil && a.Record.SoldOn.Year == s.year {
			how.Part = a.SoldPart
		}
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

// lateBuying compares what was bought in a year's last quarter to be written off
// over years with all of the year; nil where nothing was. Items written off at
// once, and those sold in the same year, do not count; the special first-year
// allowance does not lower what is compared.
func (s *source) lateBuying(year int) *LateBuying {
	d := &s.tax.Depreciation
	l := LateBuying{Limit: d.Late.Percent, Source: d.Late.Source}
	for e := range ledger.Each(s.b.Equipment) {
		usual := d.Table(e.Life, 0)
		if e.On.Year != year || e.SoldOn.Year == year || usual == nil {
			continue
		}
		cost := e.Cost + e.TaxPaid
		l.All += cost
		if quarterOf(e.On) == 4 {
			l.Last += cost
		}
		l.Usual += Schedule(cost, usual.Percent)[0]
		l.ByQuarter += Schedule(cost, d.Table(e.Life, quarterOf(e.On)).Percent)[0]
	}
	if l.All == 0 {
		return nil
	}
	l.Percent = new(big.Rat).Quo(new(big.Rat).Mul(l.Last.Rat(), hundred), l.All.Rat())
	l.Applies = l.Limit != nil && l.Percent.Cmp(l.Limit) > 0
	return &l
}
