package statistics

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat"
)

// The stated priors of the drawing together.
const (
	// spreadScale: how far groups lie apart, in units of the scatter within
	// them, has a half-Cauchy prior of this scale: it is as likely below the
	// scatter as above it. That is weak: a few groups soon outweigh it. (The
	// family for a hierarchy's spread: Gelman, Bayesian Analysis 1 (2006); from
	// memory.)
	spreadScale = 1.0
	// steadying: each group's own scatter is read as if so many more readings
	// of the scatter common to all stood beside its own.
	steadying = 6.0
	// nodes of Gauss-Legendre in each panel of the grid over the spread. Twice
	// as many change no result by 1e-9.
	nodes = 32
	// panels of the grid: the first from no spread to the prior's scale, the
	// others each so many times further, to e^24 of it.
	panels     = 17
	panelWidth = 1.5 // of the logarithm
	// smallest: readings of one group that are equal are taken as equal to a
	// thousandth of what all readings differ by, so that a tie is not certainty.
	smallest = 1e-6 // of Σ squares
)

// Hierarchy is groups of readings taken as draws around their groups' means,
// and the means as draws around a common one: reading = mean + scatter, mean =
// common + spread, both normal. The common mean and the logarithm of the
// scatter have flat priors, which integrate in closed form for each spread;
// the spread is integrated over a grid.
type Hierarchy struct {
	groups  []summary
	freedom float64
	grid    []spread
}

type summary struct {
	n       float64
	mean    float64
	noise   float64 // variance of the group's mean ÷ the common variance
	scatter float64 // variance of one reading ÷ the common variance
}

// spread is a point of the grid and what follows there.
type spread struct {
	weight    float64 // of the posterior
	variance  float64 // between groups ÷ the common variance within
	common    float64 // mean
	certainty float64 // of the common mean, × the common variance
	unit      float64 // the common variance: its scale in the t distributions
}

// Draw fits the hierarchy. Groups without readings take no part. It is false
// where there is nothing to judge scatter by: under two readings in all, or
// all of them equal.
func Draw(groups [][]float64) (*Hierarchy, bool) {
	return drawOver(groups, nodes, spreadScale, steadying)
}

func drawOver(groups [][]float64, nodes int, scale, steadying float64) (*Hierarchy, bool) {
	h := &Hierarchy{groups: make([]summary, len(groups))}
	within, readings := h.summarise(groups, steadying)
	h.freedom = readings - 1
	if readings < 2 {
		return nil, false
	}
	variances, weights := gridOver(nodes, scale)
	logs := make([]float64, len(variances))
	h.grid = make([]spread, len(variances))
	top := math.Inf(-1)
	for i, variance := range variances {
		g, log, ok := h.at(variance, within)
		if !ok {
			return nil, false
		}
		h.grid[i], logs[i] = g, log+math.Log(weights[i])
		top = math.Max(top, logs[i])
	}
	var sum float64
	for _, l := range logs {
		sum += math.Exp(l - top)
	}
	kept := h.grid[:0]
	for i, g := range h.grid {
		// What weighs under 1e-14 of the whole changes nothing that is printed.
		if g.weight = math.Exp(logs[i]-top) / sum; g.weight > 1e-14 {
			kept = append(kept, g)
		}
	}
	h.grid = kept
	return h, true
}

// gridOver is the grid: variances between groups and what each weighs by the
// prior. Up to the prior's scale the half-Cauchy is flat over the angle whose
// tangent the spread is; beyond it the logarithm of the spread is the smooth
// variable, however far apart the groups lie.
func gridOver(nodes int, scale float64) (variances, weights []float64) {
	x, w := make([]float64, nodes), make([]float64, nodes)
	for panel := range panels {
		low := float64(panel-1) * panelWidth
		if panel == 0 {
			quad.Legendre{}.FixedLocations(x, w, 0, math.Pi/4)
		} else {
			quad.Legendre{}.FixedLocations(x, w, low, low+panelWidth)
		}
		for i := range x {
			ratio, weight := math.Tan(x[i]), w[i]
			if panel > 0 {
				ratio = math.Exp(x[i])
				weight = w[i] * ratio / (1 + ratio*ratio)
			}
			variances = append(variances, scale*scale*ratio*ratio)
			weights = append(weights, weight)
		}
	}
	return variances, weights
}

// summarise fills the groups and gives Σ squares within them, each in units
// of its own scatter, and how many readings there are.
func (h *Hierarchy) summarise(groups [][]float64, steadying float64) (within, readings float64) {
	squares := make([]float64, len(groups))
	var all, freedom float64
	var pooled []float64
	for i, x := range groups {
		pooled = append(pooled, x...)
		n := float64(len(x))
		h.groups[i] = summary{n: n, scatter: 1}
		if n == 0 {
			continue
		}
		readings += n
		h.groups[i].mean = Mean(x)
		if n > 1 {
			squares[i] = (n - 1) * stat.Variance(x, nil)
			all, freedom = all+squares[i], freedom+n-1
		}
	}
	for i := range h.groups {
		g := &h.groups[i]
		if all > 0 && g.n > 1 {
			g.scatter = (steadying + squares[i]/(all/freedom)) / (steadying + g.n - 1)
		}
		if g.n > 0 {
			within += squares[i] / g.scatter
			g.noise = g.scatter / g.n
		}
	}
	if readings > 1 {
		within = max(within, smallest*(readings-1)*stat.Variance(pooled, nil))
	}
	return within, readings
}

// at is the grid's point for a variance between groups, and the logarithm of
// its likelihood; false where there is no scatter at all.
func (h *Hierarchy) at(variance, within float64) (spread, float64, bool) {
	s := spread{variance: variance}
	var log, weighted float64
	for _, g := range h.groups {
		if g.n > 0 {
			v := variance + g.noise
			s.certainty += 1 / v
			weighted += g.mean / v
			log -= math.Log(v) / 2
		}
	}
	s.common = weighted / s.certainty
	squares := within
	for _, g := range h.groups {
		if g.n > 0 {
			squares += (g.mean - s.common) * (g.mean - s.common) / (variance + g.noise)
		}
	}
	if !(squares > 0) {
		return s, 0, false
	}
	s.unit = squares / h.freedom
	return s, log - math.Log(s.certainty)/2 - h.freedom/2*math.Log(squares), true
}

// Mean is what is believed of a group's mean; of a group without readings,
// what is believed of a new group's.
func (h *Hierarchy) Mean(group int) Belief { return h.belief(h.groups[group], 0) }

// Next is what is believed of a group's next reading.
func (h *Hierarchy) Next(group int) Belief {
	return h.belief(h.groups[group], h.groups[group].scatter)
}

// Kept is how much of a group's distance from the common mean is kept: 1 none
// drawn in, 0 wholly.
func (h *Hierarchy) Kept(group int) float64 {
	var kept float64
	for _, s := range h.grid {
		kept += s.weight * s.kept(h.groups[group])
	}
	return kept
}

// Common is what is believed of the mean of all groups.
func (h *Hierarchy) Common() Belief {
	b := Belief{freedom: h.freedom}
	for _, s := range h.grid {
		b.parts = append(b.parts, part{s.weight, s.common, math.Sqrt(s.unit / s.certainty)})
	}
	return b
}

func (s spread) kept(g summary) float64 {
	if g.n == 0 {
		return 0
	}
	return s.variance / (s.variance + g.noise)
}

// belief is that of a group's mean, with the variance of so much more scatter.
func (h *Hierarchy) belief(g summary, more float64) Belief {
	b := Belief{freedom: h.freedom, parts: make([]part, 0, len(h.grid))}
	for _, s := range h.grid {
		kept := s.kept(g)
		own := s.variance // of a group not seen
		if g.n > 0 {
			own = kept * g.noise
		}
		variance := s.unit * (own + (1-kept)*(1-kept)/s.certainty + more)
		b.parts = append(b.parts, part{s.weight, s.common + kept*(g.mean-s.common), math.Sqrt(variance)})
	}
	return b
}
