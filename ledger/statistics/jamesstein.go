package statistics

// JamesStein draws means of equal variance toward their own mean by the
// factor 1 - (k-3) · variance ÷ Σ (mean_i - mean)², not below zero: Efron and
// Morris, 'Data Analysis Using Stein's Estimator and its Generalizations',
// Journal of the American Statistical Association 70 (1975). It stands here
// as the known case that the drawing of unequal groups is held against; false
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
