package kinds

import (
	"cmp"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// Coverage is what a container of a counted supply really does, in what the
// supply is shared by: sq ft (sq m) coated, hours or pieces.
type Coverage struct {
	Supply     *ledger.Supply
	Own        *big.Rat // pooled over its spans: Worked ÷ Containers
	Worked     *big.Rat // Σ weights of the uses that were not measured
	Containers *big.Rat // that they took
	Spans      int      // how many counts it rests on
	From, To   calendar.Month
	Newest     *money.Cents // what a container cost the last time it was bought; nil where it never was
}

// Stated is what the Supplies row says, else the group's starting figure
// (usual), or nil.
func (c Coverage) Stated() (figure *big.Rat, usual bool) {
	if c.Supply.Coverage != nil {
		return c.Supply.Coverage, false
	}
	return c.Supply.Starting, c.Supply.Starting != nil
}

// CoverageOf is every supply that counts have shown the coverage of, by
// supply, as known at the end of the ledger's last month.
func CoverageOf(l *costing.Ledger) []Coverage {
	if len(l.Months) == 0 {
		return nil
	}
	closing := l.Months[len(l.Months)-1].Closing
	var out []Coverage
	for s := range ledger.Each(l.Books.Supplies) {
		shelf := closing.Shelf[s.Name]
		own := shelf.OwnCoverage()
		if own == nil || s.UseAll {
			continue
		}
		c := Coverage{Supply: s, Own: own, Worked: shelf.PoolWeight, Containers: shelf.PoolRest, Newest: Newest(l.Books,
			s.Name, closing.Month)}
		c.spans(l)
		out = append(out, c)
	}
	slices.SortFunc(out, func(a, b Coverage) int { return cmp.Compare(a.Supply.Name, b.Supply.Name) })
	return out
}

// spans finds the counted spans that the pool was gathered from.
func (c *Coverage) spans(l *costing.Ledger) {
	before := l.Before.Closing.Shelf[c.Supply.Name]
	for _, m := range l.Months {
		now := m.Closing.Shelf[c.Supply.Name]
		if grown(before.PoolRest, now.PoolRest) {
			if c.Spans == 0 {
				c.From = m.Month
				if before.Opened != 0 && before.Opened < m.Month {
					c.From = before.Opened
				}
			}
			c.Spans++
			c.To = m.Month
		}
		before = now
	}
}

func grown(before, now *big.Rat) bool {
	switch {
	case now == nil:
		return false
	case before == nil:
		return now.Sign() > 0
	}
	return now.Cmp(before) > 0
}

// Newest is what a container of a supply cost in its latest purchase up to a
// month, tax included; of several on one day, the dearest. Nil where it was
// never bought for money.
func Newest(b *ledger.Books, supply string, end calendar.Month) *money.Cents {
	var found *money.Cents
	var on calendar.Date
	for _, p := range b.Purchases {
		if p.Supply != supply || p.On.InMonth() > end || p.Amount.Sign() <= 0 || p.Total() <= 0 {
			continue
		}
		each := money.Round(new(big.Rat).Quo(p.Total().Rat(), p.Amount))
		if found == nil || p.On.After(on) || p.On == on && each > *found {
			found, on = &each, p.On
		}
	}
	return found
}
