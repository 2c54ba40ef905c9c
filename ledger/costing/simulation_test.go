package costing_test

import (
	"cmp"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"piecebook/ledger/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/figures"
)

var updateTable = flag.Bool("update-table", false, "write the table of simulated shops again (with -bench Estimating)")

// The simulated shops: supplies that cover what they truly cover, an owner who
// types coverages off by a factor, and uses that vary from one to the next.
const (
	simMonths     = 12
	simSupplies   = 9
	simUseSpread  = 0.12 // standard deviation of one use's true draw against its area, as a share
	simUsesSupply = 0.6  // chance that a piece uses a supply
	simLabelLow   = 0.6  // the owner's coverage over the true one, at least
	simLabelHigh  = 1.6  // and at most
)

// habit is how a simulated shop works, buys and counts.
type habit struct {
	name   string
	pieces int  // a month
	ahead  bool // buys with 0.5 to 1.5 containers left, else when it runs short
	counts int  // every so many months; 0: never
	// What the errors may be: of a piece's supplies, and of the shelf's value by
	// the records against the true one.
	most, shelf float64
}

var habits = []habit{
	{name: "never counts, buys when short", pieces: 6, most: 0.06, shelf: 2},
	{name: "never counts, buys when short", pieces: 2, most: 0.07, shelf: 2},
	{name: "never counts, buys ahead", pieces: 6, ahead: true, most: 0.12, shelf: 2},
	{name: "never counts, buys ahead", pieces: 2, ahead: true, most: 0.12, shelf: 2},
	{name: "counts every second month", pieces: 6, counts: 2, most: 0.05, shelf: 1.1},
	{name: "counts every second month", pieces: 2, counts: 2, most: 0.05, shelf: 1.1},
}

// outcome is how far the records of a habit's shops lie from the truth.
type outcome struct {
	pieces       int
	off          float64 // Σ of |charged - true| ÷ true
	books, truth float64 // Σ of the shelves' values at the end
}

func (o outcome) mean() float64  { return o.off / float64(o.pieces) }
func (o outcome) shelf() float64 { return o.books / o.truth }

// TestEstimatingError is the benchmark's table made of fewer shops. Goal: the
// limits of habits. Method: what is truly used is drawn with fixed seeds; the
// records say areas, coverages off by 0.6 to 1.6, purchases, and counts of what is
// truly left. Limits have 15 % of slack, since the shops are few. (Invented shops;
// no outside source. The limits are the contract's. Without the rule Buying again
// twenty such shops that never count were off by 13.3 to 15.1 %, their shelves 1.4
// to 7.5 times the true ones; those that count by the same as with it.)
func TestEstimatingError(t *testing.T) {
	for _, h := range habits {
		o := simulated(t, h, 8)
		t.Logf("%s, %d pieces a month: %.1f %%, shelf %.2f times", h.name, h.pieces, 100*o.mean(), o.shelf())
		assert.LessOrEqual(t, o.mean(), h.most*1.15, "%s, %d pieces a month", h.name, h.pieces)
		assert.LessOrEqual(t, o.shelf(), h.shelf, "%s, %d pieces a month", h.name, h.pieces)
	}
}

// BenchmarkEstimating holds a hundred shops of each habit to its limits; with
// -update-table it writes their table to testdata/simulated-shops.txt.
func BenchmarkEstimating(b *testing.B) {
	path := filepath.Join("testdata", "simulated-shops.txt")
	for b.Loop() {
		var text strings.Builder
		fmt.Fprintf(&text, "Mean of |charged - true| / true of a piece's supplies over twelve months, labels off by\n"+
			"0.6 to 1.6, and the shelf's value by the records over the true one; 100 shops each.\n\n%-30s %7s %8s %8s\n",
			"habit", "a month", "pieces", "shelf")
		for _, h := range habits {
			o := simulated(b, h, 100)
			fmt.Fprintf(&text, "%-30s %7d %6.1f %% %7.2fx\n", h.name, h.pieces, 100*o.mean(), o.shelf())
			assert.LessOrEqual(b, o.mean(), h.most, h.name)
			assert.LessOrEqual(b, o.shelf(), h.shelf, h.name)
		}
		b.Log("\n" + text.String())
		if *updateTable {
			require.NoError(b, os.WriteFile(path, []byte(text.String()), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(b, err)
		assert.Equal(b, string(want), text.String())
	}
}

// simulated costs a habit's shops and sums how far they are from the truth.
func simulated(t testing.TB, h habit, shops int) outcome {
	var o outcome
	for seed := range uint64(shops) {
		shop := simulate(rand.New(rand.NewPCG(seed, 1)), h)
		l := testkit.Costed(t, shop.words(), fmt.Sprintf("2025-%02d", simMonths))
		for _, p := range figures.All(l) {
			if want := shop.truth[p.Record.ID]; want > 0 {
				o.off += math.Abs(float64(p.Supplies)/100-want) / want
				o.pieces++
			}
		}
		for _, s := range l.At(month(t, fmt.Sprintf("2025-%02d", simMonths))).Shelf {
			o.books += float64(s.Cents()) / 100
		}
		o.truth += shop.worth()
	}
	return o
}

// simSupply is a supply of a simulated shop, as it truly is.
type simSupply struct {
	price, covers, left float64
	spare               float64 // how much is left when another is bought
}

// simShop is a simulated shop: its records, and what each piece truly took.
type simShop struct {
	habit
	supplies                           []simSupply
	truth                              map[string]float64
	pieces, uses, purchases, counts, s strings.Builder
}

// worth is what is truly left on the shelf.
func (x *simShop) worth() float64 {
	sum := 0.0
	for _, s := range x.supplies {
		sum += s.left * s.price
	}
	return sum
}

func (x *simShop) words() string {
	words := "pieces\npiece,kind,got_on,price,area\n" + x.pieces.String() +
		"\nsupplies\nsupply,group,container,coverage\n" + x.s.String() +
		"\npurchases\nbought_on,supply,containers,cost\n" + x.purchases.String() +
		"\nuses\nused_on,pieces,supply,coats\n" + x.uses.String()
	if x.counts.Len() > 0 {
		words += "\ncounts\ncounted_on,supply,left\n" + x.counts.String()
	}
	return words
}

// buy puts one more container on the shelf.
func (x *simShop) buy(month, day, supply int) {
	s := &x.supplies[supply]
	s.left++
	fmt.Fprintf(&x.purchases, "2025-%02d-%02d,S%d,1,%.2f\n", month, day, supply, s.price)
}

// job is a supply put on a piece on a day.
type job struct {
	day, supply int
	piece       string
	area, coats float64
}

// simulate is a shop's year.
func simulate(r *rand.Rand, h habit) *simShop {
	x := &simShop{habit: h, truth: map[string]float64{}, supplies: make([]simSupply, simSupplies)}
	for s := range x.supplies {
		it := simSupply{price: math.Round(1000+4000*r.Float64()) / 100, covers: 60 + 120*r.Float64()}
		if h.ahead {
			it.spare = 0.5 + r.Float64()
		}
		x.supplies[s] = it
		label := it.covers * (simLabelLow + (simLabelHigh-simLabelLow)*r.Float64())
		fmt.Fprintf(&x.s, "S%d,paint,1 qt,%.1f\n", s, label)
	}
	for m := 1; m <= simMonths; m++ {
		for _, j := range x.jobs(r, m) {
			x.do(r, m, j)
		}
		for s := range x.supplies {
			if h.counts > 0 && (m+s)%h.counts == 0 {
				fmt.Fprintf(&x.counts, "2025-%02d-28,S%d,%.3f\n", m, s, x.supplies[s].left)
			}
		}
	}
	return x
}

// jobs is a month's work, by day.
func (x *simShop) jobs(r *rand.Rand, month int) []job {
	var out []job
	for k := range x.habit.pieces {
		id := fmt.Sprintf("P%02d%d", month, k)
		area := math.Round(8 + 40*r.Float64())
		fmt.Fprintf(&x.pieces, "%s,stand,2025-%02d-01,1,%.0f\n", id, month, area)
		for s := range x.supplies {
			if r.Float64() <= simUsesSupply || s == 0 {
				out = append(out, job{2 + r.IntN(26), s, id, area, float64(1 + r.IntN(3))})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b job) int { return cmp.Compare(a.day, b.day) })
	return out
}

// do is one job: what it truly takes is on the shelf by then, and another
// container after it where little is left.
func (x *simShop) do(r *rand.Rand, month int, j job) {
	s := &x.supplies[j.supply]
	took := j.area * j.coats / s.covers * math.Max(0.2, 1+simUseSpread*r.NormFloat64())
	for s.left < took {
		x.buy(month, j.day, j.supply)
	}
	s.left -= took
	x.truth[j.piece] += took * s.price
	fmt.Fprintf(&x.uses, "2025-%02d-%02d,%s,S%d,%.0f\n", month, j.day, j.piece, j.supply, j.coats)
	if s.left < s.spare {
		x.buy(month, j.day, j.supply)
	}
}
