package kinds

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// ShopCosts is what the shop costs beside its pieces for an hour of work: the
// overheads of the twelve months up to the ledger's last, fewer where the
// ledger has fewer, over the hours worked on pieces in them, clients' too.
type ShopCosts struct {
	From, To  calendar.Month
	Overheads money.Cents
	Hours     *big.Rat
	AnHour    money.Cents // half to even; 0.00 where Known is false
	Known     bool        // hours were worked on some piece
}

// usualMonths is how many months the usual shop costs look back.
const usualMonths = 12

// CostsOf is the usual shop costs of an hour at the end of the ledger's last month.
func CostsOf(l *costing.Ledger) ShopCosts {
	c := ShopCosts{Hours: new(big.Rat)}
	if len(l.Months) == 0 {
		return c
	}
	months := l.Months[max(0, len(l.Months)-usualMonths):]
	c.From, c.To = months[0].Month, months[len(months)-1].Month
	for _, m := range months {
		for _, p := range m.Postings {
			if p.To == ledger.Allotted {
				c.Overheads += p.Cents
			}
		}
	}
	for _, h := range l.Books.Hours {
		if on := h.On.InMonth(); on >= c.From && on <= c.To && len(h.Pieces) > 0 {
			c.Hours.Add(c.Hours, h.Hours)
		}
	}
	if rate := per(c.Overheads, c.Hours); rate != nil {
		c.AnHour, c.Known = *rate, true
	}
	return c
}
