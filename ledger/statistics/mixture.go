package statistics

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Belief is what is held about a number: a weighted mixture of Student's t
// distributions of one number of degrees of freedom.
type Belief struct {
	freedom float64
	parts   []part
}

type part struct{ weight, centre, scale float64 }

// Centre is the weighted mean of the parts' centres.
func (b Belief) Centre() float64 {
	var sum float64
	for _, p := range b.parts {
		sum += p.weight * p.centre
	}
	return sum
}

// Moved is the belief of the number with another added to it, independent of
// it and near normal, of which the mean and the variance are given.
func (b Belief) Moved(by, variance float64) Belief {
	out := Belief{b.freedom, make([]part, len(b.parts))}
	for i, p := range b.parts {
		out.parts[i] = part{p.weight, p.centre + by, math.Sqrt(p.scale*p.scale + variance)}
	}
	return out
}

// Times is the belief of so many times the number, above zero.
func (b Belief) Times(factor float64) Belief {
	out := Belief{b.freedom, make([]part, len(b.parts))}
	for i, p := range b.parts {
		out.parts[i] = part{p.weight, factor * p.centre, factor * p.scale}
	}
	return out
}

// Variance is that of the mixture; that of the parts by their scale, as if
// they were normal, where under five readings leave them no steady one.
func (b Belief) Variance() float64 {
	centre, longer := b.Centre(), 1.0
	if b.freedom > 4 {
		longer = b.freedom / (b.freedom - 2)
	}
	var sum float64
	for _, p := range b.parts {
		sum += p.weight * (p.scale*p.scale*longer + (p.centre-centre)*(p.centre-centre))
	}
	return sum
}

// Below is the chance that the number is under x.
func (b Belief) Below(x float64) float64 {
	var sum float64
	for _, p := range b.parts {
		sum += p.weight * distuv.StudentsT{Mu: p.centre, Sigma: p.scale, Nu: b.freedom}.CDF(x)
	}
	return sum
}

// Above is the chance that the number is over x.
func (b Belief) Above(x float64) float64 { return 1 - b.Below(x) }

// Quantile is the number under which it lies with chance p, 0 < p < 1, to
// 1e-9 of the scale of its weightiest part: Newton's steps, halving instead
// where one would leave what is known to hold the answer.
func (b Belief) Quantile(p float64) float64 {
	t := tQuantile(b.freedom, p)
	low, high := math.Inf(1), math.Inf(-1)
	heaviest := b.parts[0]
	for _, x := range b.parts {
		q := x.centre + x.scale*t
		low, high = math.Min(low, q), math.Max(high, q)
		if x.weight > heaviest.weight {
			heaviest = x
		}
	}
	// Every part has p below high and not below low, so the whole has too.
	x := heaviest.centre + heaviest.scale*t
	for range 300 {
		over, density := b.Below(x)-p, b.density(x)
		if over < 0 {
			low = x
		} else {
			high = x
		}
		next := x - over/density
		if !(next > low && next < high) {
			next = low + (high-low)/2
		}
		if math.Abs(next-x) <= 1e-9*heaviest.scale {
			return next
		}
		x = next
	}
	return x
}

func (b Belief) density(x float64) float64 {
	var sum float64
	for _, p := range b.parts {
		sum += p.weight * distuv.StudentsT{Mu: p.centre, Sigma: p.scale, Nu: b.freedom}.Prob(x)
	}
	return sum
}

// Within is the interval that leaves as much chance below it as above it.
func (b Belief) Within(level float64) Interval {
	return Interval{b.Quantile((1 - level) / 2), b.Quantile((1 + level) / 2)}
}
