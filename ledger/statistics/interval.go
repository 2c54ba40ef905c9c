package statistics

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Interval is a range. Both ends are NaN where it is not known.
type Interval struct{ Low, High float64 }

// Wilson is where a share lies of which hits of n were seen: Wilson's score
// interval (Journal of the American Statistical Association 22, 1927).
// Unknown of none.
func Wilson(hits, n int, level float64) Interval {
	if n <= 0 || hits < 0 || hits > n {
		return Interval{math.NaN(), math.NaN()}
	}
	z := distuv.UnitNormal.Quantile((1 + level) / 2)
	p, m := float64(hits)/float64(n), float64(n)
	middle := p + z*z/(2*m)
	half := z * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return Interval{math.Max(0, (middle-half)/(1+z*z/m)), math.Min(1, (middle+half)/(1+z*z/m))}
}

// tQuantile is Student's t with df degrees of freedom.
func tQuantile(df, p float64) float64 { return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile(p) }
