package slow

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/checks"
	"piecebook/ledger/costing"
	"piecebook/ledger/fault"
	"piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
)

// slowBooks is how many books the slow way goes through: a quarter of the laws'.
func slowBooks() int { return max(1, testkit.Seeds()/4) }

// Goal: every supply's month comes out as the contract's text says, estimates,
// buying again, take-backs and counts. Method: generated books costed by the
// product and by the slow way; what each piece got in each month, what was lost,
// what is left and what it cost, and how it was known must be equal.
func TestShelfAsTheContractSays(t *testing.T) {
	testkit.EveryBook(t, slowBooks(), func(t *testing.T, _ uint64, _ map[string][]byte, l *costing.Ledger) {
		for i := range l.Books.Supplies {
			require.True(t, sameShelf(t, l, &l.Books.Supplies[i]))
		}
	})
}

// Goal: the same of shops that buy often and seldom count; a take-back of more
// than there is is refused where the slow way finds it, and nowhere else.
func TestBuyingAgainAsTheContractSays(t *testing.T) {
	var moved, refused atomic.Int64
	t.Run("shops", func(t *testing.T) {
		for seed := uint64(1); seed <= uint64(slowBooks()); seed++ {
			t.Run(fmt.Sprintf("seed=%d", seed), func(t *testing.T) {
				t.Parallel()
				b := testkit.Read(t, bookgen.Shopping(seed))
				l := costing.Run(b, checks.LastMonth(b)+2)
				for i := range b.Supplies {
					if !sameShelf(t, l, &b.Supplies[i]) {
						refused.Add(1)
					}
				}
				testkit.Tied(t, l)
				for _, p := range l.Postings() {
					if p.Reason == ledger.ReasonBoughtAgain {
						moved.Add(1)
					}
				}
			})
		}
	})
	t.Logf("%d corrections by buying again, %d supplies refused", moved.Load(), refused.Load())
	require.Greater(t, moved.Load(), int64(20*slowBooks()))
	require.Positive(t, refused.Load())
}

// refusals are the months in which a supply's take-backs are refused.
func refusals(l *costing.Ledger, supply string) map[calendar.Month]bool {
	out := map[calendar.Month]bool{}
	for _, x := range l.Problems.Errors() {
		for _, p := range l.Books.Purchases {
			if x.Code == fault.TakenBackMore && p.At.At("containers") == x.Place && p.Supply == supply {
				out[p.On.InMonth()] = true
			}
		}
	}
	return out
}

// sameShelf holds one supply of a ledger to the slow way, up to the first month
// in which more was taken back than there is; false where there is one.
func sameShelf(t *testing.T, l *costing.Ledger, s *ledger.Supply) bool {
	t.Helper()
	slow, refused := newSlowShelf(l.Books, s, l.Months[0].Month), refusals(l, s.Name)
	for _, r := range l.Months {
		want := slow.run(r.Month)
		require.Equal(t, slow.shortage, refused[r.Month], "%s in %s: more taken back than there is", s.Name, r.Month)
		if slow.shortage {
			return false
		}
		got := slowMonth{into: map[string]int64{}}
		for _, p := range r.Postings {
			switch {
			case p.Supply != s.Name || p.From != ledger.Shelf:
			case p.To == ledger.Pieces:
				got.into[p.Piece] += int64(p.Cents)
			case p.To == ledger.ShelfLosses:
				got.lost += int64(p.Cents)
			}
		}
		at := fmt.Sprintf("%s in %s", s.Name, r.Month)
		for id := range want.into {
			require.Equal(t, want.into[id], got.into[id], "%s, %s", at, id)
		}
		for id, cents := range got.into {
			require.Equal(t, want.into[id], cents, "%s, %s", at, id)
		}
		shelf := r.Closing.Shelf[s.Name]
		require.Equal(t, want.lost, got.lost, "%s: lost", at)
		require.Equal(t, want.closing, int64(shelf.Cents()), "%s: closing", at)
		require.Zero(t, want.left.Cmp(shelf.Left()), "%s: left", at)
		require.Equal(t, want.basis, cmp.Or(r.Basis[s.Name], ledger.NoBasis), at)
	}
	return true
}

func newSlowShelf(b *ledger.Books, s *ledger.Supply, first calendar.Month) *slowShelf {
	w := &slowShelf{uses: map[calendar.Month][]slowUse{}, b: b, s: s, opened: first, had: rat(0), weights: rat(0),
		rests: rat(0), charged: map[string]int64{}}
	var there []ledger.Purchase
	for _, o := range b.Openings {
		if o.Supply != s.Name {
			continue
		}
		p := ledger.Purchase{On: o.On, Amount: o.Amount, Cost: o.Cost}
		if o.Deducted {
			p.Cost = 0
		}
		there = append(there, p)
	}
	for _, p := range slowOrder(there) {
		w.start = append(w.start, slowLayer{p.Amount, rat(0), int64(p.Cost), 0})
		w.had = plus(w.had, p.Amount)
	}
	w.layers = slices.Clone(w.start)
	return w
}

// slowOrder sorts by date, then cheaper per unit, then smaller.
func slowOrder(list []ledger.Purchase) []ledger.Purchase {
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(x, y ledger.Purchase) int {
		size := func(p ledger.Purchase) *big.Rat { return new(big.Rat).Abs(p.Amount) }
		each := func(p ledger.Purchase) *big.Rat {
			return divide(new(big.Rat).Abs(rat(int64(p.Cost+p.TaxPaid))), size(p))
		}
		return cmp.Or(x.On.Compare(y.On), each(x).Cmp(each(y)), size(x).Cmp(size(y)))
	})
	return out
}

// lines are the supply's purchases (or take-backs) of a range of months.
func (w *slowShelf) lines(from, to calendar.Month, back bool) []ledger.Purchase {
	var out []ledger.Purchase
	for _, p := range w.b.Purchases {
		if m := p.On.InMonth(); p.Supply == w.s.Name && m >= from && m <= to && (p.Amount.Sign() < 0) == back {
			out = append(out, p)
		}
	}
	return slowOrder(out)
}

// run is one month.
func (w *slowShelf) run(m calendar.Month) slowMonth {
	w.out = slowMonth{into: map[string]int64{}, left: rat(0), basis: ledger.NoBasis}
	for _, p := range w.lines(m, m, false) {
		l := slowLayer{p.Amount, rat(0), int64(p.Total()), 0}
		w.start, w.layers = append(w.start, l), append(w.layers, l)
	}
	var counts []ledger.Count
	for _, c := range w.b.Counts {
		closes := c.On.InMonth()
		if c.On.Day <= 5 {
			closes--
		}
		if c.Supply == w.s.Name && closes == m {
			counts = append(counts, c)
		}
	}
	slices.SortStableFunc(counts, func(x, y ledger.Count) int { return x.On.Compare(y.On) })
	if len(counts) > 0 {
		w.counted(m, counts)
	} else {
		w.estimated(m)
	}
	for _, l := range w.layers {
		w.out.closing += l.cost - l.gone
	}
	w.out.left = remains(w.layers)
	return w.out
}

// part is what one take-back took of one layer.
type part struct {
	at     int
	amount *big.Rat
	cents  int64
}

// giveBack takes the month's take-backs off the newest layers; loss is their cost
// less the refunds.
func (w *slowShelf) giveBack(m calendar.Month, layers []slowLayer) (taken []part, loss int64, short bool) {
	for _, p := range w.lines(m, m, true) {
		amount := new(big.Rat).Neg(p.Amount)
		loss += int64(p.Total())
		for i := len(layers) - 1; i >= 0; i-- {
			l := &layers[i]
			there := minus(l.amount, l.drawn)
			take := least(amount, there)
			if take.Sign() <= 0 {
				continue
			}
			cents := halfEven(divide(times(rat(l.cost-l.gone), take), there))
			l.amount, l.cost = minus(l.amount, take), l.cost-cents
			taken = append(taken, part{i, take, cents})
			loss += cents
			amount = minus(amount, take)
		}
		short = short || amount.Sign() > 0
	}
	return taken, loss, short
}

// off takes the same parts off other layers.
func off(layers []slowLayer, taken []part) {
	for _, p := range taken {
		layers[p.at].amount = minus(layers[p.at].amount, p.amount)
		layers[p.at].cost -= p.cents
	}
}

// counted closes the span.
func (w *slowShelf) counted(m calendar.Month, counts []ledger.Count) {
	_, loss, short := w.giveBack(m, w.start)
	w.shortage, w.out.lost, w.out.basis = short, loss, ledger.Counted
	last := counts[len(counts)-1]
	left, discarded := last.Left, rat(0)
	for _, c := range counts {
		if c.Discarded != nil {
			discarded = plus(discarded, c.Discarded)
		}
	}
	for _, p := range w.b.Purchases {
		if p.Supply != w.s.Name {
			continue
		}
		inMonth := !p.On.After(m.Last())
		switch seen := !p.On.After(last.On); {
		case inMonth && !seen:
			left = plus(left, p.Amount)
		case !inMonth && seen:
			left = minus(left, p.Amount)
		}
	}
	if left.Sign() < 0 {
		left = rat(0)
	}
	var lines []slowUse
	measured, weight := rat(0), rat(0)
	for k := w.opened; k <= m; k++ {
		lines = append(lines, w.usesIn(k)...)
	}
	for _, l := range lines {
		if l.measured {
			measured = plus(measured, l.weight)
		} else {
			weight = plus(weight, l.weight)
		}
	}
	drawn := minus(remains(w.start), left)
	fresh := map[string]int64{}
	if drawn.Sign() < 0 {
		w.surplus(new(big.Rat).Neg(drawn))
	} else {
		rest := minus(minus(drawn, measured), discarded)
		lost := discarded
		if rest.Sign() > 0 && weight.Sign() == 0 {
			lost = plus(discarded, rest)
		}
		cost := drawFrom(w.start, drawn)
		into, kept, loss := sharedCost(cost, lines, rest, lost)
		for i, l := range kept {
			fresh[l.piece] += into[i]
		}
		w.out.lost += loss
		if rest.Sign() > 0 && weight.Sign() > 0 {
			w.weights, w.rests = plus(w.weights, weight), plus(w.rests, rest)
		}
	}
	w.recharge(fresh)
	w.layers, w.charged = slices.Clone(w.start), map[string]int64{}
	w.opened, w.had = m+1, remains(w.start)
}

// surplus puts back on the newest drawn layers what a count finds too much.
func (w *slowShelf) surplus(amount *big.Rat) {
	for i := len(w.start) - 1; i >= 0; i-- {
		l := &w.start[i]
		put := least(amount, l.drawn)
		if put.Sign() <= 0 {
			continue
		}
		amount = minus(amount, put)
		l.drawn = minus(l.drawn, put)
		now := halfEven(divide(times(rat(l.cost), l.drawn), l.amount))
		w.out.lost -= l.gone - now
		l.gone = now
	}
	if amount.Sign() > 0 {
		w.start = append(w.start, slowLayer{amount, rat(0), 0, 0})
	}
}

// recharge posts what the span's pieces bear by now less what they were charged.
func (w *slowShelf) recharge(fresh map[string]int64) {
	for id, cents := range fresh {
		w.out.into[id] += cents
	}
	for id, cents := range w.charged {
		w.out.into[id] -= cents
	}
}
