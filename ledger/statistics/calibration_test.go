package statistics

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// The calibration simulator: shops whose truth is known, put through Draw.
// Each has so many kinds; their means lie apart by a given part of the scatter
// within them, which is 1; each sells a Poisson number of pieces. Every kind
// with at least one sale is scored, the intervals and means as they would be
// printed were none set apart.

// errorsOf is how the pieces of a kind scatter round its mean.
type errorsOf string

const (
	normal errorsOf = "normal"
	skewed errorsOf = "skewed" // lognormal, shape 0.8, centred, variance 1: skewness 3.7
	uneven errorsOf = "uneven" // normal, each kind's scatter ½, 1 or 2 times the usual
)

type cell struct {
	errors errorsOf
	kinds  int
	sales  float64 // mean a kind
	spread float64 // between ÷ within
}

// score counts what came of a cell's shops.
type score struct {
	kinds, covered         int
	raw, drawn             float64 // Σ squared errors
	shops, rawTop, drawTop int     // shops, and in how many the best kind was picked
}

func (s *score) add(o score) {
	s.kinds, s.covered, s.raw, s.drawn = s.kinds+o.kinds, s.covered+o.covered, s.raw+o.raw, s.drawn+o.drawn
	s.shops, s.rawTop, s.drawTop = s.shops+o.shops, s.rawTop+o.rawTop, s.drawTop+o.drawTop
}

func (s score) coverage() float64 { return float64(s.covered) / float64(s.kinds) }
func (s score) error() float64    { return s.drawn / s.raw }
func (s score) picked(n int) float64 {
	return float64(n) / float64(s.shops)
}

// cells are those of one kind of errors, in order.
func cells(errors errorsOf) []cell {
	var out []cell
	for _, kinds := range []int{3, 6, 12} {
		for _, sales := range []float64{1, 3, 6, 12} {
			for _, spread := range []float64{0.2, 0.5, 1} {
				out = append(out, cell{errors, kinds, sales, spread})
			}
		}
	}
	return out
}

// run simulates the cell's shops, each from its own fixed seed.
func (c cell) run(shops int) score {
	seed := uint64(c.kinds)<<32 | uint64(c.sales)<<16 | uint64(math.Round(c.spread*10))
	var out score
	for shop := range shops {
		rng := rand.New(rand.NewPCG(seed, uint64(shop)<<8|uint64(c.errors[0])))
		truth, groups := c.shop(rng)
		out.add(judge(truth, groups))
	}
	return out
}

func (c cell) shop(rng *rand.Rand) (truth []float64, groups [][]float64) {
	sales := distuv.Poisson{Lambda: c.sales, Src: rng}
	truth, groups = make([]float64, c.kinds), make([][]float64, c.kinds)
	for k := range truth {
		truth[k] = c.spread * rng.NormFloat64()
		scatter := 1.0
		if c.errors == uneven {
			scatter = []float64{0.5, 1, 2}[k%3]
		}
		for range int(sales.Rand()) {
			e := rng.NormFloat64()
			if c.errors == skewed {
				const shape = 0.8
				v := math.Exp(shape * shape)
				e = (math.Exp(shape*e) - math.Sqrt(v)) / math.Sqrt((v-1)*v)
			}
			groups[k] = append(groups[k], truth[k]+scatter*e)
		}
	}
	return truth, groups
}

// judge draws one shop together and compares it with its truth. A shop with
// nothing to judge scatter by is given nothing, and scores nothing.
func judge(truth []float64, groups [][]float64) score {
	h, ok := Draw(groups)
	if !ok {
		return score{}
	}
	s := score{shops: 1}
	best, top, drawnTop := -1, -1, -1
	means, centres := make([]float64, len(truth)), make([]float64, len(truth))
	for k, t := range truth {
		if len(groups[k]) == 0 {
			continue
		}
		b := h.Mean(k)
		means[k], centres[k] = Mean(groups[k]), b.Centre()
		s.kinds++
		// Within the 90 % interval is: neither under its 5 % nor over its 95 %.
		if p := b.Below(t); p >= 0.05 && p <= 0.95 {
			s.covered++
		}
		s.raw += (means[k] - t) * (means[k] - t)
		s.drawn += (centres[k] - t) * (centres[k] - t)
		best, top, drawnTop = larger(truth, best, k), larger(means, top, k), larger(centres, drawnTop, k)
	}
	if top == best {
		s.rawTop = 1
	}
	if drawnTop == best {
		s.drawTop = 1
	}
	return s
}

func larger(of []float64, a, b int) int {
	if a < 0 || of[b] > of[a] {
		return b
	}
	return a
}

// errorLimit is the most that drawing in may leave of the raw means' squared error.
func (c cell) errorLimit() float64 {
	if c.spread == 0.2 || c.spread == 0.5 && c.sales <= 3 {
		return 0.65
	}
	return 1.03
}

// calibrate runs all cells of one kind of errors, prints their table (a row
// for each number of kinds and sales, in each cell how many truths the 90 %
// intervals covered and what the drawing in left of the raw means' squared
// error), and gives each cell's score and all together.
func calibrate(w io.Writer, errors errorsOf, shops int) (map[cell]score, score) {
	each := map[cell]score{}
	var all score
	fmt.Fprintf(w, "\n| %s errors | spread 0.2 | 0.5 | 1 |\n| --- | --- | --- | --- |\n", errors)
	for i, c := range cells(errors) {
		s := c.run(shops)
		each[c] = s
		all.add(s)
		if i%3 == 0 {
			fmt.Fprintf(w, "| %d kinds, %g sales each ", c.kinds, c.sales)
		}
		fmt.Fprintf(w, "| %.1f %%, %.2fx ", 100*s.coverage(), s.error())
		if i%3 == 2 {
			fmt.Fprintln(w, "|")
		}
	}
	fmt.Fprintf(w, "| all together | %.1f %%, %.2fx | best picked | %.1f %%, raw %.1f %% |\n", 100*all.coverage(),
		all.error(),
		100*all.picked(all.drawTop), 100*all.picked(all.rawTop))
	return each, all
}

// hold asserts what the normal cells must show.
func hold(t testing.TB, each map[cell]score, all score, slack float64) {
	assert.InDelta(t, 0.90, all.coverage(), 0.03, "intervals over all cells")
	assert.GreaterOrEqual(t, all.drawTop, all.rawTop, "the best kind picked")
	for c, s := range each {
		assert.GreaterOrEqual(t, s.coverage(), 0.82-slack, c)
		assert.LessOrEqual(t, s.error(), c.errorLimit()+slack, c)
	}
}

// TestCalibration is the simulator in small: 60 shops a cell, with the slack
// that so few need in a single cell and none over all.
func TestCalibration(t *testing.T) {
	each, all := calibrate(io.Discard, normal, 60)
	hold(t, each, all, 0.08)
}

// TestCalibrationCanFail: intervals that take the raw means for truth, or a
// prior that draws everything in, would be caught.
func TestCalibrationCanFail(t *testing.T) {
	var narrow, drawnOver score
	for _, c := range cells(normal) {
		for shop := range 20 {
			truth, groups := c.shop(rand.New(rand.NewPCG(uint64(shop), 7)))
			h, ok := Model{Groups: groups}.drawOver(nodes, 1e-3, steadying)
			if !ok {
				continue
			}
			for k := range truth {
				if len(groups[k]) > 0 && c.spread == 1 && c.sales == 12 {
					b, m := h.Mean(k), Mean(groups[k])
					narrow.kinds++
					if p := b.Below(truth[k]); p >= 0.05 && p <= 0.95 {
						narrow.covered++
					}
					drawnOver.raw += (m - truth[k]) * (m - truth[k])
					drawnOver.drawn += (b.Centre() - truth[k]) * (b.Centre() - truth[k])
				}
			}
		}
	}
	assert.True(t, narrow.coverage() < 0.82 || drawnOver.error() > 1.03, "%v %v", narrow.coverage(), drawnOver.error())
}

var update = flag.Bool("update", false, "write the golden file again")

// BenchmarkCalibration is the whole simulator, 500 shops a cell. With -update it
// writes testdata/calibration.txt; it fails where the normal cells do not hold.
func BenchmarkCalibration(b *testing.B) {
	path := filepath.Join("testdata", "calibration.txt")
	for b.Loop() {
		var out bytes.Buffer
		each, all := calibrate(&out, normal, 500)
		hold(b, each, all, 0)
		b.ReportMetric(100*all.coverage(), "covered_%")
		b.ReportMetric(all.error(), "squared_error_x")
		calibrate(&out, skewed, 500)
		calibrate(&out, uneven, 500)
		if *update {
			require.NoError(b, os.MkdirAll("testdata", 0o755))
			require.NoError(b, os.WriteFile(path, out.Bytes(), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(b, err)
		assert.Equal(b, string(want), out.String())
	}
}

// TestNextPieceIsCovered: the interval for a kind's next reading, which offers
// rest on, holds it with nine chances in ten over all normal cells.
func TestNextPieceIsCovered(t *testing.T) {
	seen, covered, unseen := 0, 0, 0
	for _, c := range cells(normal) {
		for shop := range 30 {
			rng := rand.New(rand.NewPCG(uint64(shop), uint64(c.kinds)<<16|uint64(c.sales)<<8|uint64(10*c.spread)))
			truth, groups := c.shop(rng)
			h, ok := Draw(groups)
			if !ok {
				continue
			}
			for k := range truth {
				p := h.Next(k, 1).Below(truth[k] + rng.NormFloat64())
				seen++
				if p >= 0.05 && p <= 0.95 {
					covered++
				}
				if len(groups[k]) == 0 {
					unseen++
				}
			}
		}
	}
	assert.Greater(t, unseen, 100, "kinds never seen are among them")
	assert.InDelta(t, 0.90, float64(covered)/float64(seen), 0.03)
}
