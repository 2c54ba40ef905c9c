package statistics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// shops are random groups of many shapes: few and many, far apart and near,
// much and little scatter.
func shops(n int) [][][]float64 {
	rng := rand.New(rand.NewPCG(1, 2))
	out := make([][][]float64, n)
	for i := range out {
		spread := math.Exp(3 * rng.NormFloat64())
		for range 1 + rng.IntN(15) {
			centre := 20 + spread*rng.NormFloat64()
			var x []float64
			for range rng.IntN(60) / (1 + rng.IntN(20)) {
				x = append(x, centre+5*rng.NormFloat64())
			}
			out[i] = append(out[i], x)
		}
	}
	return out
}

// Goal: the one-dimensional integral is accurate to 1e-3. Method: everything
// printed is worked out on twice the grid as well; differences are measured
// against the width of the belief.
func TestTwiceTheGridChangesNothing(t *testing.T) {
	fitted := 0
	for i, groups := range shops(30) {
		h, ok := Draw(groups)
		twice, okTwice := Model{Groups: groups}.drawOver(2*nodes, spreadScale, steadying)
		require.Equal(t, ok, okTwice)
		if !ok {
			continue
		}
		fitted++
		for k := range min(4, len(groups)) {
			for _, pair := range [][2]Belief{{h.Mean(k), twice.Mean(k)}, {h.Next(k, 1), twice.Next(k, 1)}} {
				a, b := pair[0].Within(0.9), pair[1].Within(0.9)
				width := b.High - b.Low
				assert.InDelta(t, 0, (a.Low-b.Low)/width, 1e-3, "shop %d, kind %d", i, k)
				assert.InDelta(t, 0, (a.High-b.High)/width, 1e-3, "shop %d, kind %d", i, k)
				assert.InDelta(t, 0, (pair[0].Centre()-pair[1].Centre())/width, 1e-3, "shop %d, kind %d", i, k)
				assert.InDelta(t, pair[0].Below(18), pair[1].Below(18), 1e-3)
			}
			assert.InDelta(t, h.Kept(k), twice.Kept(k), 1e-3)
		}
	}
	assert.Greater(t, fitted, 22)
}

// Goal: what is believed does not hang on the currency or on where zero is.
func TestScaleAndShift(t *testing.T) {
	groups := [][]float64{{10, 14, 9}, {31, 22}, {5}, nil}
	moved := make([][]float64, len(groups))
	for i, x := range groups {
		for _, v := range x {
			moved[i] = append(moved[i], 100*v-700)
		}
	}
	a, _ := Draw(groups)
	b, _ := Draw(moved)
	for k := range groups {
		assert.InDelta(t, 100*a.Mean(k).Centre()-700, b.Mean(k).Centre(), 1e-8)
		assert.InDelta(t, 100*a.Mean(k).Quantile(0.05)-700, b.Mean(k).Quantile(0.05), 1e-5)
		assert.InDelta(t, a.Mean(k).Above(12), b.Mean(k).Above(500), 1e-12)
	}
}

// Goal: fewer readings are drawn further, and none wholly.
func TestFewerAreDrawnFurther(t *testing.T) {
	h, ok := Draw([][]float64{{30, 34, 26, 30}, {30}, {10, 12, 8, 11, 9, 10}, nil})
	require.True(t, ok)
	assert.Greater(t, h.Kept(0), h.Kept(1))
	assert.Zero(t, h.Kept(3))
	common := h.Common().Centre()
	assert.Greater(t, h.Mean(0).Centre(), h.Mean(1).Centre())
	assert.Greater(t, h.Mean(1).Centre(), common)
	assert.InDelta(t, common, h.Mean(3).Centre(), 1e-12)
	seen, unseen := h.Mean(1).Within(0.9), h.Mean(3).Within(0.9)
	assert.Greater(t, unseen.High-unseen.Low, seen.High-seen.Low)
	next := h.Next(0, 1).Within(0.9)
	assert.Greater(t, next.High-next.Low, h.Mean(0).Within(0.9).High-h.Mean(0).Within(0.9).Low)
}

// Goal: at the edges it says that it does not know rather than a number.
func TestNothingToJudgeScatterBy(t *testing.T) {
	for name, groups := range map[string][][]float64{
		"none": nil, "empty groups": {nil, nil}, "one reading": {{4}, nil}, "all equal": {{4, 4}, {4}}, "zero": {{0, 0, 0}},
	} {
		_, ok := Draw(groups)
		assert.False(t, ok, name)
	}
	h, ok := Draw([][]float64{{4, 4, 4}, {6}})
	require.True(t, ok, "equal within, unequal between")
	assert.False(t, math.IsNaN(h.Mean(0).Quantile(0.05)))
	h, ok = Draw([][]float64{{-4}, {6}})
	require.True(t, ok, "two readings in all")
	assert.Less(t, h.Mean(0).Quantile(0.05), -4.0)
}

func TestRatio(t *testing.T) {
	// Equal hours: the ratio is the mean an hour, its error the mean's.
	r, ok := RatioOf([]float64{10, 30, 20}, []float64{2, 2, 2})
	require.True(t, ok)
	assert.InDelta(t, 10, r.Of, 1e-12)
	assert.InDelta(t, 5/math.Sqrt(3), r.Error, 1e-12)
	// Worked by hand: 60 ÷ 6 = 10; off by 0, -10, 10; √(200 ÷ 2) ÷ (√3 × 2) = 2.8868.
	r, ok = RatioOf([]float64{10, 20, 30}, []float64{1, 3, 2})
	require.True(t, ok)
	assert.InDelta(t, 10, r.Of, 1e-12)
	assert.InDelta(t, 2.886751346, r.Error, 1e-9)
	assert.InDelta(t, 10, Mean(r.Readings), 1e-12)
	_, ok = RatioOf([]float64{10}, []float64{0})
	assert.False(t, ok, "no hours")
	_, ok = RatioOf(nil, nil)
	assert.False(t, ok)
	r, _ = RatioOf([]float64{-5}, []float64{2})
	assert.InDelta(t, -2.5, r.Of, 1e-12)
	assert.True(t, math.IsNaN(r.Error))
}

func TestWaits(t *testing.T) {
	none := CameWithin(nil, 30, 0.9)
	assert.False(t, none.Known)
	assert.Zero(t, none.Share)
	all := CameWithin([]Wait{{3, true}, {0, true}}, 90, 0.9)
	assert.True(t, all.Known, "all came, so it is known for ever")
	assert.InDelta(t, 1, all.Share, 1e-12)
	assert.Equal(t, Wilson(2, 2, 0.9), all.Interval)
	waiting := []Wait{{40, false}, {20, false}}
	month := CameWithin(waiting, 30, 0.9)
	assert.True(t, month.Known)
	assert.Zero(t, month.Share)
	assert.Equal(t, Wilson(0, 1, 0.9), month.Interval, "only one was watched that long")
	assert.False(t, CameWithin(waiting, 60, 0.9).Known)
}

// Goal: an effect is found where there is one and drawn to nothing where there
// is none. Method: readings with and without a slope of two scatters a unit.
func TestEffects(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	x, flat, sloped := make([][]float64, 4), make([][]float64, 4), make([][]float64, 4)
	for k := range x {
		for range 10 {
			at, noise := -2*rng.Float64(), 5*rng.NormFloat64()
			x[k] = append(x[k], at)
			flat[k] = append(flat[k], 20+4*float64(k)+noise)
			sloped[k] = append(sloped[k], 20+4*float64(k)+noise-10*at)
		}
	}
	column := Column{X: x, None: 0.8, Effect: 1}
	h, ok := Draw(flat, column)
	require.True(t, ok)
	by, moves := h.Effect(0)
	assert.InDelta(t, 0, by, 1)
	assert.Less(t, moves, 0.5)
	h, ok = Draw(sloped, column)
	require.True(t, ok)
	by, moves = h.Effect(0)
	assert.InDelta(t, -10, by, 2.5)
	assert.Greater(t, moves, 0.95)
	assert.InDelta(t, -by, h.Mean(2, -1).Centre()-h.Mean(2).Centre(), 1e-9)
}

// Goal: a joined column moves something exactly where the one before does, and
// one of zeros changes nothing.
func TestJoined(t *testing.T) {
	groups := [][]float64{{20, 25, 18, 31}, {9, 14, 8}, {27, 22}}
	x := [][]float64{{-2, -1, -1.5, 0}, {-1, 0, -2}, {0, -1}}
	zeros := [][]float64{make([]float64, 4), make([]float64, 3), make([]float64, 2)}
	one := Column{X: x, None: 0.6, Effect: 1}
	plain, ok := Draw(groups, one)
	require.True(t, ok)
	joined, ok := Draw(groups, one, Column{X: zeros, Effect: 0.5, Joined: true})
	require.True(t, ok)
	by, moves := plain.Effect(0)
	again, movesAgain := joined.Effect(0)
	_, second := joined.Effect(1)
	assert.InDelta(t, by, again, 1e-9)
	assert.InDelta(t, moves, movesAgain, 1e-9)
	assert.InDelta(t, movesAgain, second, 1e-12)
	assert.InDelta(t, plain.Mean(1).Centre(), joined.Mean(1).Centre(), 1e-9)
}

// Goal: the chances to be best add up to one, fall with the means, and for two
// groups agree with the integral of one mean above the other.
func TestBest(t *testing.T) {
	h, ok := Draw([][]float64{{30, 34, 26, 30}, {28, 31, 25}, {10, 12, 8, 11, 9, 10}, nil})
	require.True(t, ok)
	best := h.Best()
	assert.InDelta(t, 1, best[0]+best[1]+best[2], 1e-9)
	assert.Zero(t, best[3])
	assert.Greater(t, best[0], best[1])
	assert.Less(t, best[2], 0.001)
	assert.Equal(t, best, h.Best())
	// Two groups of one mean and equal readings are alike.
	h, ok = Draw([][]float64{{1, 2, 3}, {3, 1, 2}})
	require.True(t, ok)
	assert.InDelta(t, 0.5, h.Best()[0], 0.01)
}

func ExampleDraw() {
	h, _ := Draw([][]float64{{20, 24, 28}, {10, 12, 8, 14}, {40}})
	for k := range 3 {
		b := h.Mean(k)
		fmt.Printf("%.1f, 90 %% from %.1f to %.1f\n", b.Centre(), b.Quantile(0.05), b.Quantile(0.95))
	}
	// Output:
	// 23.9, 90 % from 19.3 to 28.4
	// 11.6, 90 % from 8.1 to 15.6
	// 37.7, 90 % from 27.9 to 44.9
}
