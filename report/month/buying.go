package month

import (
	"fmt"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// quarterMonths is how many months a usual month's use is the average of.
const quarterMonths = 3

// buying is a supply of which less is left than a usual month takes.
type buying struct {
	supply string
	of     page.Ref    // where that price comes from
	price  money.Cents // what a container cost last, with tax, half-even; 0 where none was bought
}

// toBuy are the supplies of which less is left than a usual month of the last
// quarter took, the dearest container first.
func toBuy(in *report.Input) []buying {
	months := in.Last[max(0, len(in.Last)-quarterMonths):]
	if len(months) == 0 {
		return nil
	}
	taken := takenSince(in, months[0].From)
	var out []buying
	for _, l := range in.Month.Shelf {
		usual := new(big.Rat).Quo(money.OrZero(taken[l.Supply.Name]), big.NewRat(int64(len(months)), 1))
		if usual.Sign() > 0 && money.OrZero(l.Left).Cmp(usual) < 0 {
			x := buying{supply: l.Supply.Name}
			x.price, x.of = lastPrice(in, l.Supply.Name)
			out = append(out, x)
		}
	}
	slices.SortStableFunc(out, func(a, b buying) int { return money.LargestFirst(a.price, b.price) })
	return out
}

// takenSince is how many containers of each supply left the shelf since a
// month began: what was there before, and bought since, and is not there now.
func takenSince(in *report.Input, from calendar.Month) map[string]*big.Rat {
	out := map[string]*big.Rat{}
	add := func(supply string, amount *big.Rat) {
		out[supply] = new(big.Rat).Add(money.OrZero(out[supply]), money.OrZero(amount))
	}
	known := false
	for _, f := range in.Last {
		if f.To == from-1 {
			known = true
			for _, l := range f.Shelf {
				add(l.Supply.Name, l.Left)
			}
		}
	}
	for _, o := range in.Books.Openings {
		if !known {
			add(o.Supply, o.Amount)
		}
	}
	for _, p := range in.Books.Purchases {
		if p.On.InMonth() >= from && p.On.InMonth() <= in.Month.To {
			add(p.Supply, p.Amount)
		}
	}
	for _, l := range in.Month.Shelf {
		add(l.Supply.Name, new(big.Rat).Neg(money.OrZero(l.Left)))
	}
	return out
}

// lastPrice is what a container of a supply cost when it was bought last, and
// what that is worked out of.
func lastPrice(in *report.Input, supply string) (money.Cents, page.Ref) {
	var last *ledger.Purchase
	for i := range in.Books.Purchases {
		p := &in.Books.Purchases[i]
		if p.Supply == supply && p.Amount != nil && p.Amount.Sign() > 0 && p.On.InMonth() <= in.Month.To && (last == nil ||
			!p.On.Before(last.On)) {
			last = p
		}
	}
	if last == nil {
		return 0, nil
	}
	price := money.Round(new(big.Rat).Quo(last.Total().Rat(), last.Amount))
	return price, report.InWords(supply+": a container at its last price", fmt.Sprintf(
		"Bought on %s: %s ÷ %s = %s. Record: %s.", in.Day(last.On), last.Total().Grouped(),
		money.AtMost(last.Amount, 4), price.Grouped(), words.Place(last.At)), price)
}
