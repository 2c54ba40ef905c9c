package missing

import (
	"cmp"
	"math/big"
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/money"
)

// toCount is how many supplies are named to count at most.
const toCount = 5

// usuallyOff is how far what was drawn by a coverage lies from what was truly
// used, on average, in percent, by what the coverage is known from. The figures
// are those of the simulated shops (testdata/coverages.golden); a test holds the
// two together.
var usuallyOff = map[ledger.Basis]int64{ledger.FromOwn: 5, ledger.FromBuying: 8, ledger.Stated: 23, ledger.Starting: 31}

// Count is a supply worth counting.
type Count struct {
	Supply  *ledger.Supply
	Known   ledger.Basis   // what its coverage is known from: own, bought, stated or starting
	Off     int64          // how far such coverages are usually off, in percent
	Since   calendar.Month // the first month since it was last counted, or was first there
	Charged money.Cents    // to pieces since then, by that coverage
	Left    *big.Rat       // containers by the records
	AtStake money.Cents    // Charged × Off, rounded half to even: what a count would usually move
}

// CountThese is the supplies whose count would move the most money, at most
// five, the most first; none that would usually move under 1.00. What was
// measured, and what is used up by the month, is taken as known.
func CountThese(l *costing.Ledger) []Count {
	if len(l.Months) == 0 {
		return nil
	}
	closing := l.Months[len(l.Months)-1].Closing
	charged := chargedInSpans(l, closing)
	var out []Count
	for s := range ledger.Each(l.Books.Supplies) {
		shelf := closing.Shelf[s.Name]
		_, known := shelf.Coverage(l.Books.Settings.Coverage, s)
		c := Count{Supply: s, Known: known, Off: usuallyOff[known], Since: shelf.Opened, Charged: charged[s.Name],
			Left: shelf.Left()}
		c.AtStake = money.Round(new(big.Rat).Mul(c.Charged.Rat(), big.NewRat(c.Off, 100)))
		if c.AtStake >= noteFrom {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b Count) int {
		return cmp.Or(cmp.Compare(b.AtStake, a.AtStake), cmp.Compare(a.Supply.Name, b.Supply.Name))
	})
	return out[:min(toCount, len(out))]
}

// chargedInSpans is what each supply's open span has put into pieces by
// estimates, what was measured left out.
func chargedInSpans(l *costing.Ledger, closing costing.State) map[string]money.Cents {
	out := map[string]money.Cents{}
	for _, m := range l.Months {
		for p := range ledger.Each(m.Postings) {
			if p.Supply == "" || m.Month < closing.Shelf[p.Supply].Opened || p.Basis == ledger.Measured {
				continue
			}
			if p.Reason == ledger.ReasonSupply || p.Reason == ledger.ReasonBoughtAgain {
				out[p.Supply] += p.Cents
			}
		}
	}
	return out
}
