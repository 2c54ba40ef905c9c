package offer_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
	"piecebook/ledger/offer"
	"piecebook/ledger/statistics"
	"piecebook/templates"
)

var update = flag.Bool("update", false, "write the golden file again")

// bins hold chances said against how often it came true, by fifths.
type bins [5]struct{ n, said, came float64 }

func (b *bins) add(chance float64, came bool) {
	x := &b[min(4, int(chance*5))]
	x.n, x.said = x.n+1, x.said+chance
	if came {
		x.came++
	}
}

// off is the most that said and came differ by in a bin of so many.
func (b bins) off(least float64) (most float64) {
	for _, x := range b {
		if x.n >= least {
			most = max(most, math.Abs(x.said-x.came)/x.n)
		}
	}
	return most
}

func (b bins) String() string {
	out := ""
	for _, x := range b {
		out += fmt.Sprintf("  %.2f:%.2f of %-5.0f", x.said/max(1, x.n), x.came/max(1, x.n), x.n)
	}
	return strings.TrimSpace(out)
}

// offers counts what came of offers.
type offers struct {
	pieces, within        float64
	bought, boughtWithin  float64
	over, hours           float64 // Σ worth - paid and Σ hours of what was bought at the top offer
	cautious, cautiousOut float64 // three chances in four above nothing, and how many were worth it
	chance                bins    // of what the seller asked
}

func (c *offers) add(o offer.Offer, p simPiece, costs float64) {
	worth := p.worth(costs)
	in := worth*100 >= o.Top.Low && worth*100 <= o.Top.High
	count := func(n *float64, is bool) {
		if is {
			*n++
		}
	}
	c.pieces++
	count(&c.within, in)
	count(&c.cautious, o.Top.Cautious > 0)
	count(&c.cautiousOut, o.Top.Cautious > 0 && worth*100 >= o.Top.Cautious)
	c.chance.add(o.Asked.Chance, worth >= float64(o.Asked.Price)/100)
	if o.WalkAway() {
		return
	}
	c.bought++
	count(&c.boughtWithin, in)
	c.over += worth - o.Top.At/100
	if !p.failed {
		c.hours += p.hours
	}
}

func (c offers) reached() float64 { return target + c.over/c.hours }
func (c offers) range90() float64 { return 100 * c.within / c.pieces }
func (c offers) three() float64   { return 100 * c.cautiousOut / c.cautious }

// estimates counts what came of kinds.
type estimates struct {
	kinds, within         float64
	raw, drawn, trendless float64 // Σ squared errors
	target, best          bins
}

func (c *estimates) add(s *simShop, r kinds.Report) {
	best, top := "", math.Inf(-1)
	truth := map[string]float64{}
	var judged [][]kinds.Life
	var groups [][]float64
	for i, k := range s.kinds {
		truth[k.name] = s.truth(i)
	}
	for _, k := range r.Kinds {
		judged, groups = append(judged, k.Judged), append(groups, readingsOf(k))
		if k.Estimate.Sales > 0 && truth[k.Name] > top {
			best, top = k.Name, truth[k.Name]
		}
	}
	plain, ok := statistics.Model{Groups: groups, Scatter: kinds.SizesOf(judged).Scatter}.Draw()
	for i, k := range r.Kinds {
		e, is := k.Estimate, truth[k.Name]
		if !ok || !e.Known || e.Sales == 0 {
			continue
		}
		c.kinds++
		if is*100 >= e.Low && is*100 <= e.High {
			c.within++
		}
		c.raw += math.Pow(is-float64(*k.PerHour)/100, 2)
		c.drawn += math.Pow(is-e.Expected/100, 2)
		c.trendless += math.Pow(is-plain.Mean(i).Centre()/100, 2)
		c.target.add(e.Beats, is-s.usual >= target)
		c.best.add(e.Best, k.Name == best)
	}
}

// readingsOf are a kind's readings of profit an hour. No sale of the
// simulator has several pieces.
func readingsOf(k kinds.Kind) []float64 {
	var profit, hours []float64
	for _, x := range k.Judged {
		h, _ := x.Hours.Float64()
		profit, hours = append(profit, float64(x.Result)), append(hours, h)
	}
	r, _ := statistics.RatioOf(profit, hours)
	return r.Readings
}

func (c estimates) range90() float64 { return 100 * c.within / c.kinds }

// came is what came of one market and number of sales.
type came struct {
	plain, known offers
	kinds        estimates
}

// simulate runs so many shops, from fixed seeds, and later pieces of the first
// ones: so many of each of those.
func simulate(t testing.TB, m market, each float64, shops, offering, later int) came {
	set, err := templates.Load()
	require.NoError(t, err)
	var out came
	for seed := range shops {
		s := newShop(m, uint64(seed)<<8|uint64(each))
		l := s.costed(t, set, each)
		out.kinds.add(s, kinds.Of(l, kinds.Scope{}))
		if seed >= offering {
			continue
		}
		h := offer.HistoryOf(l)
		for range later {
			p := s.piece(s.rng.IntN(len(s.kinds)), s.rng.Float64()/3)
			asked := money.Cents(math.Round(100 * p.paid * (0.3 + 1.5*s.rng.Float64())))
			for i, into := range []*offers{&out.plain, &out.known} {
				ask := s.ask(p, i == 1)
				ask.Asked = &asked
				if o := h.Offer(ask); o.Top.Known {
					into.add(o, p, s.usual)
				}
			}
		}
	}
	return out
}

// limit is a figure and between what it must lie.
type limit struct {
	what          string
	is, low, high float64
}

func (l limit) met() bool { return l.is >= l.low && l.is <= l.high }

// limits are what must be shown of a market.
func (c came) limits(m market) []limit {
	piece, kind := 87.0, 87.0
	high := 93.0
	switch {
	case m.skewed:
		piece, kind, high = 84, 84, 100
	case m.drift > 0:
		piece, kind, high = 80, 80, 100
	}
	out := []limit{
		{"reached an hour, kind alone", c.plain.reached(), target - 0.75, target + 2},
		{"reached an hour, more known", c.known.reached(), target - 0.75, target + 2},
		{"three chances in four, kind alone", c.plain.three(), 70, 82},
		{"three chances in four, more known", c.known.three(), 70, 82},
		{"90 % range of a piece, kind alone", c.plain.range90(), piece, high},
		{"90 % range of a piece, more known", c.known.range90(), piece, high},
		{"90 % range of a kind", c.kinds.range90(), kind, high},
		{"chance of the target", c.kinds.target.off(50), 0, 0.06},
		{"chance to be best", c.kinds.best.off(50), 0, 0.06},
	}
	if m.drift == 0 {
		out = append(out, limit{"squared error, over that without a trend", c.kinds.drawn / c.kinds.trendless, 0, 1.1})
	}
	return out
}

// table is what came of one market, in words.
func (c came) table(m market, each float64) string {
	var b strings.Builder
	fmt.Fprintf(&b, "## %s, %g sold a kind\n", m.name, each)
	row := func(name string, o offers) {
		fmt.Fprintf(&b, "%s: %.0f later pieces, pays %.0f; reached %.2f an hour for %.2f; three in four %.1f %% of %.0f; "+
			"range %.1f %%, of those to buy %.1f %%\n", name, o.pieces, o.bought, o.reached(), target, o.three(), o.cautious,
			o.range90(), 100*o.boughtWithin/o.bought)
		fmt.Fprintf(&b, "  worth what is asked, said:came %s\n", o.chance)
	}
	row("kind alone", c.plain)
	row("more known", c.known)
	fmt.Fprintf(&b, "kinds: %.0f, range %.1f %%, squared error %.2f of the raw means' and "+
		"%.2f of that without a trend\n", c.kinds.kinds,
		c.kinds.range90(), c.kinds.drawn/c.kinds.raw, c.kinds.drawn/c.kinds.trendless)
	fmt.Fprintf(&b, "  chance of the target %s\n  chance to be best    %s\n", c.kinds.target, c.kinds.best)
	for _, l := range c.limits(m) {
		if !l.met() {
			fmt.Fprintf(&b, "NOT MET: %s is %.2f, not %g to %g\n", l.what, l.is, l.low, l.high)
		}
	}
	return b.String() + "\n"
}

// TestCalibration is the simulator in small: the limits, with the slack that so
// few shops need, in the markets that meet most of them.
func TestCalibration(t *testing.T) {
	const each = 10
	for _, m := range markets[:2] {
		for _, l := range simulate(t, m, each, 8, 8, 8).limits(m) {
			slack := 0.15 * (l.low + l.high) / 2
			if strings.HasPrefix(l.what, "chance") || strings.HasPrefix(l.what, "squared") {
				slack = 0.25
			}
			assert.True(t, l.is >= l.low-slack && l.is <= l.high+slack, "%s, %d a kind: %s is %.2f", m.name, each, l.what, l.is)
		}
	}
}

// TestSimulatorCanFail: offers 40.00 too high would be caught.
func TestSimulatorCanFail(t *testing.T) {
	c := simulate(t, markets[0], 10, 6, 6, 5)
	c.plain.over -= 40 * c.plain.bought
	assert.False(t, c.limits(markets[0])[0].met())
}

const calibrationHead = `Simulated shops, through files; see shops_test.go. Chances are said : came true, by fifths. 600 shops for the kinds, and
5,100 later pieces of the first 300, for each market and number of sales: 10,200 later pieces a market.

Why lines are NOT MET, as far as is seen:
reached an hour, drift: twelve sales in one to two years do not tell a fall of a quarter a year from luck, and looking
for one less cautiously costs more than a tenth of the squared error where there is none. So offers stay too high.
reached an hour, more known, at two sales: a guess that is off is taken for part of what is so, and what it is too high
by is paid. With ten sales of the kind on record it is met.
three chances in four: at two sales a kind that luck has raised is bought on, so the quarter below lies a little too
high; with drift it lies as far too high as the offer.
90 % range, more known, seasonal: how far the season of the sale moves a price is hardly known from two sales a kind.
chance of the target: at two sales the chances at both ends are too sure, the low ones by 0.07, since the kinds' spread
and scatter are judged from a dozen readings; with drift, the fall that is not seen. Skewed with ten sales: by 0.06.
chance to be best: at two sales a skewed market's one lucky sale looks like the best kind. The highest fifth has some
50 kinds in it, a standard error of 0.06.

`

// BenchmarkCalibration is the whole simulator: 600 shops, and 5,100 later
// pieces of the first 300 of them, a market and number of sales. With -update it writes
// testdata/calibration.txt, whose lines NOT MET are the figures that are not.
func BenchmarkCalibration(b *testing.B) {
	path := filepath.Join("testdata", "calibration.txt")
	for b.Loop() {
		var tables [8]string
		var all sync.WaitGroup
		for i := range tables {
			all.Go(func() {
				m, each := markets[i/2], []float64{2, 10}[i%2]
				tables[i] = simulate(b, m, each, 600, 300, 17).table(m, each)
			})
		}
		all.Wait()
		out := strings.TrimSuffix(calibrationHead+strings.Join(tables[:], ""), "\n")
		if *update {
			require.NoError(b, os.MkdirAll("testdata", 0o755))
			require.NoError(b, os.WriteFile(path, []byte(out), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(b, err)
		assert.Equal(b, string(want), out)
	}
}
