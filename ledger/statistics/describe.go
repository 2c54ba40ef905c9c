package statistics

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Mean is the arithmetic mean; NaN of none.
func Mean(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	return stat.Mean(x, nil)
}

// Deviation is the standard deviation with n-1; NaN under two.
func Deviation(x []float64) float64 {
	if len(x) < 2 {
		return math.NaN()
	}
	return stat.StdDev(x, nil)
}

// QuantileType is one of the nine ways to read a quantile off a sample, by its
// number in Hyndman and Fan, 'Sample Quantiles in Statistical Packages', The
// American Statistician 50 (1996).
type QuantileType int

// The ways that have a use here.
const (
	Empirical QuantileType = 1 // the smallest reading that has at least p of them
	Weibull   QuantileType = 6 // by n+1, the default of the NIST handbook
	Usual     QuantileType = 7 // by n-1, what spreadsheets give; its middle is the median
	Unbiased  QuantileType = 8 // nearly median-unbiased, which Hyndman and Fan advise
)

// Quantile is the reading below which p of the sample lies, 0 <= p <= 1; NaN
// of none, or of an unknown type.
func Quantile(of []float64, p float64, by QuantileType) float64 {
	n := len(of)
	if n == 0 || p < 0 || p > 1 || math.IsNaN(p) {
		return math.NaN()
	}
	var m float64
	switch by {
	case 1, 2, 4:
	case 3:
		m = -0.5
	case 5:
		m = 0.5
	case 6:
		m = p
	case 7:
		m = 1 - p
	case 8:
		m = (p + 1) / 3
	case 9:
		m = p/4 + 3.0/8
	default:
		return math.NaN()
	}
	x := slices.Clone(of)
	slices.Sort(x)
	// A whole n·p+m that binary arithmetic misses by a hair is whole.
	const hair = 1e-12
	place := float64(n)*p + m
	j := math.Floor(place + hair*float64(n))
	g := math.Max(0, place-j)
	whole := g < hair*float64(n)
	switch by {
	case 1:
		g = oneUnless(whole, 0)
	case 2:
		g = oneUnless(whole, 0.5)
	case 3:
		g = oneUnless(whole && math.Mod(j, 2) == 0, 0)
	}
	at := func(i float64) float64 { return x[int(math.Min(math.Max(i, 1), float64(n)))-1] }
	return (1-g)*at(j) + g*at(j+1)
}

func oneUnless(exception bool, then float64) float64 {
	if exception {
		return then
	}
	return 1
}
