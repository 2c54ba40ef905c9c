package statistics

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// What the fitted hierarchy says of its groups. `at` is where the columns
// stand, in their order; a column that is not given stands at zero.

// Mean is what is believed of a group's mean; of a group without readings,
// what is believed of a new group's.
func (h *Hierarchy) Mean(group int, at ...float64) Belief { return h.belief(h.groups[group], 0, at) }

// Next is what is believed of the mean of a group's next so many readings.
func (h *Hierarchy) Next(group, readings int, at ...float64) Belief {
	return h.belief(h.groups[group], h.groups[group].scatter/float64(readings), at)
}

// Common is what is believed of the mean of all groups' means.
func (h *Hierarchy) Common(at ...float64) Belief {
	b := Belief{freedom: h.freedom}
	for _, n := range h.grid {
		centre, variance := n.along(h.direction(summary{}, 0, at))
		b.parts = append(b.parts, part{n.weight, h.centre + centre, math.Sqrt(n.unit * variance)})
	}
	return b
}

// Kept is how much of a group's distance from the common mean is kept: 1 none
// drawn in, 0 wholly.
func (h *Hierarchy) Kept(group int) float64 {
	var kept float64
	for _, n := range h.grid {
		kept += n.weight * n.kept(h.groups[group])
	}
	return kept
}

// Effect is by how much one unit of a column moves a reading, drawn toward
// nothing, and the chance that it moves it at all.
func (h *Hierarchy) Effect(column int) (by, moves float64) {
	for _, n := range h.grid {
		by += n.weight * n.effects[column+1]
		if n.moved>>column&1 == 1 {
			moves += n.weight
		}
	}
	return by, moves
}

// draws of the joint belief for Best: the chances are good to about half a
// point in a hundred.
const draws = 20000

// Best is each group's chance to have the highest mean of those that have
// readings, by draws from the joint belief of them all. The draws start from
// a fixed seed, so that the same readings give the same chances.
func (h *Hierarchy) Best() []float64 {
	rng := rand.New(rand.NewPCG(7, 11))
	chances := make([]float64, len(h.groups))
	spread := distuv.ChiSquared{K: h.freedom, Src: rng}
	done, upTo := 0, 0.0
	for _, n := range h.grid {
		upTo += n.weight
		share := int(math.Round(upTo*draws)) - done
		if share <= 0 {
			continue
		}
		done += share
		used := []int{0}
		for c := range h.columns {
			if n.moved>>c&1 == 1 {
				used = append(used, c+1)
			}
		}
		root, ok := choleskyOf(n.sure, len(n.effects), used)
		if !ok {
			continue
		}
		for range share {
			deviation := math.Sqrt(n.unit * h.freedom / spread.Rand())
			chances[h.bestOf(n, root, used, deviation, rng)] += 1.0 / draws
		}
	}
	return chances
}

// bestOf draws all means once, at a grid's point, and gives the highest's group.
func (h *Hierarchy) bestOf(n node, root triangle, used []int, deviation float64, rng *rand.Rand) int {
	size := len(n.effects)
	effects := slices.Clone(n.effects)
	for j := range used {
		z := deviation * rng.NormFloat64()
		for i := j; i < len(used); i++ {
			effects[used[i]] += root.at[i*root.size+j] * z
		}
	}
	best, highest := 0, math.Inf(-1)
	for k, g := range h.groups {
		if g.n == 0 {
			continue
		}
		kept := n.kept(g)
		mean := effects[0] + kept*(g.mean[size]-effects[0])
		for c := 1; c < size; c++ {
			mean -= kept * g.mean[c] * effects[c]
		}
		mean += deviation * math.Sqrt(kept*g.noise) * rng.NormFloat64()
		if mean > highest {
			best, highest = k, mean
		}
	}
	return best
}

// kept is how much of the group's own mean is believed at a grid's point.
func (n node) kept(g summary) float64 {
	if g.n == 0 {
		return 0
	}
	return n.variance / (n.variance + g.noise)
}

// direction is what 1 and the columns count for in a group's mean, where so
// much of its own is kept.
func (h *Hierarchy) direction(g summary, kept float64, at []float64) []float64 {
	out := make([]float64, len(h.columns)+1)
	out[0] = 1
	copy(out[1:], at)
	if kept > 0 {
		for i := range out {
			out[i] -= kept * g.mean[i]
		}
	}
	return out
}

// along is the effects summed along a direction, and the variance of that.
func (n node) along(direction []float64) (centre, variance float64) {
	for i, d := range direction {
		centre += d * n.effects[i]
		for j, e := range direction {
			variance += d * e * n.sure[i*len(direction)+j]
		}
	}
	return centre, variance
}

// belief is that of a group's mean, with the variance of so much more scatter.
func (h *Hierarchy) belief(g summary, more float64, at []float64) Belief {
	b := Belief{freedom: h.freedom, parts: make([]part, 0, len(h.grid))}
	for _, n := range h.grid {
		kept, own := n.kept(g), n.variance // of a group not seen
		if g.n > 0 {
			own = kept * g.noise
		}
		centre, variance := n.along(h.direction(g, kept, at))
		if g.n > 0 {
			centre += kept * g.mean[len(g.mean)-1]
		}
		b.parts = append(b.parts, part{n.weight, h.centre + centre, math.Sqrt(n.unit * (variance + own + more))})
	}
	return b
}
