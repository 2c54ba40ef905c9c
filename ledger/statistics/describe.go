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

// Quantile is the reading below which p of the sample lies, 0 <= p <= 1, counted
// by n-1 as spreadsheets do, so that its middle is the median: type 7 of Hyndman
// and Fan, 'Sample Quantiles in Statistical Packages', The American Statistician
// 50 (1996). NaN of none.
func Quantile(of []float64, p float64) float64 {
	n := len(of)
	if n == 0 || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	x := slices.Sorted(slices.Values(of))
	place := float64(n-1) * p
	at := min(int(place), n-1)
	above := place - float64(at)
	return (1-above)*x[at] + above*x[min(at+1, n-1)]
}
