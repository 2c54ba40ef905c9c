package statistics

import "math"

// Ratio is a total over a total, as profit per hour is.
type Ratio struct {
	Of float64 // Σ top ÷ Σ bottom
	// Error is its standard error by linearisation: how much the ratio would
	// move were one item changed, squared and added up, with n/(n-1). NaN under
	// two. (Cochran, Sampling Techniques, 3rd ed. 1977, ch. 6, without its
	// finite population; from memory.)
	Error float64
	// Readings are one to an item: the ratio, and how far the item lies off it
	// in units of the ratio. Their mean is the ratio and their deviation ÷ √n
	// is its error, so that ratios can be judged as means are.
	Readings []float64
}

// RatioOf divides Σ top by Σ bottom; false where the bottoms add up to nothing.
func RatioOf(top, bottom []float64) (Ratio, bool) {
	var over, under float64
	for i := range top {
		over += top[i]
		under += bottom[i]
	}
	if len(top) == 0 || under <= 0 {
		return Ratio{}, false
	}
	n := float64(len(top))
	r := Ratio{Of: over / under, Readings: make([]float64, len(top))}
	for i := range top {
		r.Readings[i] = r.Of + (top[i]-r.Of*bottom[i])/(under/n)
	}
	r.Error = Deviation(r.Readings) / math.Sqrt(n)
	return r, true
}
