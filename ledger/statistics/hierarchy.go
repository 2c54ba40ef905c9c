package statistics

import (
	"math"
	"slices"

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
	// steadying: each group's own scatter is taken as if so many more readings
	// of the scatter common to all stood beside its own.
	steadying = 6.0
	// nodes of Gauss-Legendre in each panel of the grid over the spread. Twice
	// as many change nothing printed by 1e-3 of its range.
	nodes = 8
	// panels of the grid: the first from no spread to the prior's scale, the
	// others each so many times further, to e^9 of it.
	panels     = 7
	panelWidth = 1.5 // of the logarithm
	// smallest: readings of one group that are equal are taken as equal to a
	// thousandth of what all readings differ by, so that a tie is not certainty.
	smallest = 1e-6 // of Σ squares
	// faint: what weighs less than this part of the whole is left out.
	faint = 1e-6
	// hopeless: a spread whose logarithm lies so far below the best one's without
	// columns is not tried with any.
	hopeless = 20.0
)

// Column is a thing known of each reading that may move it, alike in every
// group: its date, its size. By how much is drawn toward nothing: with chance
// None it moves nothing, else one unit of it moves a reading by a normal
// amount of mean zero and deviation Effect, in units of the scatter within
// groups (a spike and a slab: Mitchell and Beauchamp, Journal of the American
// Statistical Association 83 (1988); from memory).
type Column struct {
	X      [][]float64 // by group, then by reading, as the readings are
	None   float64     // 0 <= None < 1
	Effect float64     // above zero
	// Joined columns move something where the one before does, without a None of
	// their own.
	Joined bool
}

// Hierarchy is groups of readings taken as draws around their groups' means,
// and the means as draws around a common one: reading = mean + columns +
// scatter, mean = common + spread, all normal. The common mean and the
// logarithm of the scatter have flat priors, which integrate in closed form
// for each spread, as the columns' effects do; the spread is integrated over a
// grid, and whether each column moves anything is summed over.
type Hierarchy struct {
	groups  []summary
	columns []Column
	usual   float64 // Σ squares held beforehand
	centre  float64 // taken off every reading, for the sake of digits
	freedom float64
	grid    []node
}

// summary is what is kept of a group: z is 1, the columns and the reading.
type summary struct {
	n       float64
	mean    []float64 // of z
	within  []float64 // Σ (z - mean)(z - mean)', row by row
	noise   float64   // variance of the group's mean ÷ the common variance
	scatter float64   // variance of one reading ÷ the common variance
}

// node is a point of the grid and what follows there.
type node struct {
	weight   float64   // of the posterior
	variance float64   // between groups ÷ the common variance within
	unit     float64   // the common variance: its scale in the t distributions
	effects  []float64 // of 1 and the columns
	sure     []float64 // their covariance ÷ the common variance, row by row
	moved    int       // bit i: column i moves readings
	used     []int     // 1 and the columns that move something
	root     triangle  // of their precision
}

// Model is readings by group and what is held of them beforehand. The zero
// values of all but Groups hold nothing beforehand.
type Model struct {
	Groups  [][]float64
	Columns []Column
	// Scatter is each group's expected scatter in units of the common one, above
	// zero; nil: all the same.
	Scatter []float64
	// Usual is what the common scatter usually is, which counts as UsualReadings
	// readings beside those there are.
	Usual, UsualReadings float64
}

// Draw fits the hierarchy. Groups without readings take no part. It is false
// where there is nothing to judge scatter by: under two readings in all, or
// all of them equal.
func (m Model) Draw() (*Hierarchy, bool) { return m.drawOver(nodes, spreadScale, steadying) }

func (m Model) drawOver(nodes int, scale, steadying float64) (*Hierarchy, bool) {
	h := &Hierarchy{groups: make([]summary, len(m.Groups)), columns: m.Columns, usual: m.UsualReadings * m.Usual * m.Usual}
	for i := range h.groups {
		h.groups[i].scatter = 1
		if m.Scatter != nil {
			h.groups[i].scatter = m.Scatter[i] * m.Scatter[i]
		}
	}
	readings := h.summarise(m.Groups, steadying)
	if readings < 2 {
		return nil, false
	}
	h.freedom = readings - 1 + m.UsualReadings
	variances, weights := gridOver(nodes, scale)
	points := make([]squares, len(variances))
	for i, variance := range variances {
		points[i] = h.squaresAt(variance, math.Log(weights[i]))
	}
	var logs []float64
	top := math.Inf(-1)
	for moved := range 1 << len(m.Columns) {
		prior := m.prior(moved)
		if math.IsInf(prior, -1) {
			continue
		}
		for _, p := range points {
			n, log, ok := h.at(p, moved)
			if !ok {
				return nil, false
			}
			h.grid, logs = append(h.grid, n), append(logs, log+prior)
			top = math.Max(top, logs[len(logs)-1])
		}
		if len(logs) == len(variances) { // the first: what is hopeless there is so with other columns
			points = likely(points, logs, top)
		}
	}
	h.normalize(logs, top)
	return h, true
}

// likely are the points whose logarithms are not below the top by more than hopeless.
func likely(points []squares, logs []float64, top float64) []squares {
	var out []squares
	for i, p := range points {
		if logs[i] > top-hopeless {
			out = append(out, p)
		}
	}
	return out
}

// prior is the logarithm of the chance that these columns move something and
// the others do not.
func (m Model) prior(moved int) (log float64) {
	for i, c := range m.Columns {
		moves := moved>>i&1 == 1
		switch {
		case c.Joined:
			if moves != (moved>>(i-1)&1 == 1) {
				return math.Inf(-1)
			}
		case moves:
			log += math.Log1p(-c.None)
		default:
			log += math.Log(c.None)
		}
	}
	return log
}

// normalize turns logarithms into weights that add up to one and leaves out what is faint.
func (h *Hierarchy) normalize(logs []float64, top float64) {
	var sum, left float64
	for _, l := range logs {
		sum += math.Exp(l - top)
	}
	kept := h.grid[:0]
	for i, n := range h.grid {
		if n.weight = math.Exp(logs[i]-top) / sum; n.weight > faint {
			n.sure = n.root.inverse(len(n.effects), n.used)
			kept = append(kept, n)
			left += n.weight
		}
	}
	h.grid = kept
	for i := range h.grid {
		h.grid[i].weight /= left
	}
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

// summarise fills the groups and gives how many readings there are.
func (h *Hierarchy) summarise(groups [][]float64, steadying float64) float64 {
	var pooled []float64
	for _, x := range groups {
		pooled = append(pooled, x...)
	}
	readings := float64(len(pooled))
	if readings < 2 {
		return readings
	}
	h.centre = Mean(pooled)
	last := len(h.columns) + 1 // where z has the reading
	squares := last*(last+1) + last
	var all, freedom float64
	for i, y := range groups {
		g := &h.groups[i]
		h.summariseGroup(g, i, y)
		if g.n > 1 {
			all, freedom = all+g.within[squares]/g.scatter, freedom+g.n-1
		}
	}
	var within float64
	for i := range h.groups {
		g := &h.groups[i]
		if g.n == 0 {
			continue
		}
		if all > 0 && g.n > 1 {
			own := g.within[squares] / (all / freedom)
			g.scatter = (steadying*g.scatter + own) / (steadying + g.n - 1)
		}
		g.noise = g.scatter / g.n
		within += g.within[squares] / g.scatter
	}
	if short := smallest*(readings-1)*stat.Variance(pooled, nil) - within; short > 0 {
		for i := range h.groups {
			if g := &h.groups[i]; g.n > 0 {
				g.within[squares] += short * g.scatter * g.n / readings
			}
		}
	}
	return readings
}

// summariseGroup sums up one group.
func (h *Hierarchy) summariseGroup(g *summary, group int, y []float64) {
	size := len(h.columns) + 2
	g.n, g.mean, g.within = float64(len(y)), make([]float64, size), make([]float64, size*size)
	z := make([][]float64, len(y))
	for k := range y {
		z[k] = append(z[k], 1)
		for _, c := range h.columns {
			z[k] = append(z[k], c.X[group][k])
		}
		z[k] = append(z[k], y[k]-h.centre)
		for i, v := range z[k] {
			g.mean[i] += v / g.n
		}
	}
	for k := range z {
		for i := 1; i < size; i++ {
			for j := 1; j < size; j++ {
				g.within[i*size+j] += (z[k][i] - g.mean[i]) * (z[k][j] - g.mean[j])
			}
		}
	}
}

// squares are Z' V⁻¹ Z in units of the common variance, row by row, at a
// variance between groups, and the logarithm of what it weighs beforehand and of
// the groups' determinants.
type squares struct {
	variance float64
	of       []float64
	log      float64
}

func (h *Hierarchy) squaresAt(variance, weight float64) squares {
	size := len(h.columns) + 2
	s := squares{variance: variance, log: weight, of: make([]float64, size*size)}
	for _, g := range h.groups {
		if g.n == 0 {
			continue
		}
		v := variance + g.noise
		s.log -= math.Log(v) / 2
		for i := range size {
			for j := range size {
				s.of[i*size+j] += g.within[i*size+j]/g.scatter + g.mean[i]*g.mean[j]/v
			}
		}
	}
	return s
}

// at is the grid's point for a variance between groups and the columns that
// move something, and the logarithm of its likelihood; false where there is no
// scatter at all.
func (h *Hierarchy) at(s squares, moved int) (node, float64, bool) {
	size := len(h.columns) + 2
	last := size - 1
	sums, log := slices.Clone(s.of), s.log
	used := make([]int, 1, last) // 1 and the columns that move something
	for i := 1; i < last; i++ {
		if moved>>(i-1)&1 == 1 {
			used = append(used, i)
			precision := 1 / (h.columns[i-1].Effect * h.columns[i-1].Effect)
			sums[i*size+i] += precision
			log += math.Log(precision) / 2
		}
	}
	n := node{variance: s.variance, moved: moved, effects: make([]float64, last)}
	root, ok := choleskyOf(sums, size, used)
	if !ok {
		return n, 0, false
	}
	n.used, n.root = used, root
	right := make([]float64, len(used))
	for i, u := range used {
		right[i] = sums[u*size+last]
	}
	left := sums[last*size+last] + h.usual
	for i, x := range root.solve(slices.Clone(right)) {
		n.effects[used[i]] = x
		left -= x * right[i]
	}
	if !(left > 0) {
		return n, 0, false
	}
	n.unit = left / h.freedom
	return n, log - root.halfLogDet() - h.freedom/2*math.Log(left), true
}
