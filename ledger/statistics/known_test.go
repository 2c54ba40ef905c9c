package statistics

import "math"

// What only tests compare with.

// JamesStein draws means of equal variance toward their own mean by the
// factor 1 - (k-3) · variance ÷ Σ (mean_i - mean)², not below zero: Efron and
// Morris, 'Data Analysis Using Stein's Estimator and its Generalizations',
// Journal of the American Statistical Association 70 (1975). It stands here
// as the known case that the drawing of unequal groups is compared with; false
// under four means or where all are one.
func JamesStein(means []float64, variance float64) (drawn []float64, factor float64, ok bool) {
	k := len(means)
	middle := Mean(means)
	var squares float64
	for _, y := range means {
		squares += (y - middle) * (y - middle)
	}
	if k < 4 || squares == 0 {
		return nil, 0, false
	}
	factor = max(0, 1-float64(k-3)*variance/squares)
	drawn = make([]float64, k)
	for i, y := range means {
		drawn[i] = middle + factor*(y-middle)
	}
	return drawn, factor, true
}

// MeanInterval is where the mean of what a sample was drawn from lies, by
// Student's t; level 0.9 for 90 %. Unknown under two readings.
func MeanInterval(x []float64, level float64) Interval {
	n := float64(len(x))
	if n < 2 {
		return Interval{math.NaN(), math.NaN()}
	}
	half := tQuantile(n-1, (1+level)/2) * Deviation(x) / math.Sqrt(n)
	mean := Mean(x)
	return Interval{mean - half, mean + half}
}

// Draw fits readings with nothing assumed beforehand.
func Draw(groups [][]float64, columns ...Column) (*Hierarchy, bool) {
	return Model{Groups: groups, Columns: columns}.Draw()
}
