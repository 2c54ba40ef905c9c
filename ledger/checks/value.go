package checks

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

// What a line could move, in cents, for telling the largest notes first. These
// are estimates of size, not costing: none of them reaches a figure.

// dearest is the most that one container of each supply was bought for, tax
// included; openings count at their cost.
func dearest(b *ledger.Books) map[string]money.Cents {
	out := map[string]money.Cents{}
	see := func(supply string, cost money.Cents, amount *big.Rat) {
		if amount != nil && amount.Sign() > 0 {
			out[supply] = max(out[supply], money.Round(new(big.Rat).Quo(cost.Rat(), amount)))
		}
	}
	for _, p := range b.Purchases {
		see(p.Supply, p.Total(), p.Amount)
	}
	for _, o := range b.Openings {
		see(o.Supply, o.Cost, o.Amount)
	}
	return out
}

// containerCents is a container at the supply's dearest; where it was never
// bought, at the dearest of its group, else of any supply.
func (l *look) containerCents(supply string) money.Cents {
	if c, bought := l.units[supply]; bought {
		return c
	}
	group := func(name string) string {
		if s := l.supply[name]; s != nil {
			return s.Group
		}
		return ""
	}
	var ofGroup, ofAny money.Cents
	for name, c := range l.units {
		ofAny = max(ofAny, c)
		if group(name) == group(supply) {
			ofGroup = max(ofGroup, c)
		}
	}
	if ofGroup > 0 {
		return ofGroup
	}
	return ofAny
}

// useCents is the containers a use took, at the supply's dearest: as measured,
// else its coated area by the stated or starting coverage, else one container.
func (l *look) useCents(u *ledger.Use) money.Cents {
	containers := u.Amount
	if containers == nil {
		containers = l.estimate(u)
	}
	return times(l.containerCents(u.Supply), containers)
}

// estimate is the containers an unmeasured use took, by coverage, else one.
func (l *look) estimate(u *ledger.Use) *big.Rat {
	one := big.NewRat(1, 1)
	coated := l.coated(u)
	s := l.supply[u.Supply]
	if s == nil || s.ShareBy != ledger.ByArea || coated == nil {
		return one
	}
	coverage := s.Coverage
	if coverage == nil {
		coverage = s.Starting
	}
	if coverage == nil || coverage.Sign() <= 0 {
		return one
	}
	return new(big.Rat).Quo(coated, coverage)
}

// coated is a use's area times its coats, or nil where an area is unknown.
func (l *look) coated(u *ledger.Use) *big.Rat {
	area := u.Area
	if area == nil {
		area = new(big.Rat)
		for _, id := range u.Pieces {
			p := l.pieces[id]
			if p == nil || p.Area == nil {
				return nil
			}
			area.Add(area, p.Area)
		}
	}
	if u.Coats == nil {
		return area
	}
	return new(big.Rat).Mul(area, u.Coats)
}

// countCents is what was counted and discarded, at the supply's dearest.
func (l *look) countCents(c *ledger.Count) money.Cents {
	sum := new(big.Rat).Add(money.OrZero(c.Left), money.OrZero(c.Discarded))
	return times(l.containerCents(c.Supply), sum)
}

// hoursCents is the hours at the hourly target: hours are no cost, but profit
// is judged by them.
func (l *look) hoursCents(h *ledger.Hours) money.Cents {
	return times(l.books.Settings.TargetHourly, h.Hours)
}

// tripCents is the miles at the rate of the day, and the tolls.
func (l *look) tripCents(t *ledger.Trip) money.Cents {
	rate := ledger.RateOn(l.books.Settings.Mileage, t.On)
	if rate == nil || t.Miles == nil {
		return t.Tolls
	}
	units := new(big.Rat).Mul(rate.PerMile, t.Miles)
	return t.Tolls + money.Round(units.Mul(units, big.NewRat(100, 1)))
}

// times is money by a number, rounded half-even; no number is nothing.
func times(c money.Cents, n *big.Rat) money.Cents {
	if n == nil {
		return 0
	}
	return money.Round(new(big.Rat).Mul(c.Rat(), n))
}

// part is one of n equal parts, rounded half-even.
func part(c money.Cents, n int) money.Cents {
	return times(c, big.NewRat(1, int64(max(1, n))))
}
