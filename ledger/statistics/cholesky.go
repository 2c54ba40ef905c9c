package statistics

import "math"

// triangle is the lower triangular root of a small symmetric positive matrix,
// row by row. The matrices are of one to seven rows and made by the thousand,
// which a library's general ones are too slow for.
type triangle struct {
	size int
	at   []float64
}

// choleskyOf is the root of the part of a matrix of so many columns that stands
// in the given rows and columns; false where it is not positive.
func choleskyOf(of []float64, columns int, used []int) (triangle, bool) {
	t := triangle{len(used), make([]float64, len(used)*len(used))}
	for j, column := range used {
		for i := j; i < t.size; i++ {
			sum := of[used[i]*columns+column]
			for k := range j {
				sum -= t.at[i*t.size+k] * t.at[j*t.size+k]
			}
			if i > j {
				t.at[i*t.size+j] = sum / t.at[j*t.size+j]
				continue
			}
			if !(sum > 0) {
				return t, false
			}
			t.at[j*t.size+j] = math.Sqrt(sum)
		}
	}
	return t, true
}

// halfLogDet is half the logarithm of the matrix's determinant.
func (t triangle) halfLogDet() (log float64) {
	for i := range t.size {
		log += math.Log(t.at[i*t.size+i])
	}
	return log
}

// solve puts the solution of matrix × x = right into right.
func (t triangle) solve(right []float64) []float64 {
	for i := range t.size {
		for k := range i {
			right[i] -= t.at[i*t.size+k] * right[k]
		}
		right[i] /= t.at[i*t.size+i]
	}
	for i := t.size - 1; i >= 0; i-- {
		for k := i + 1; k < t.size; k++ {
			right[i] -= t.at[k*t.size+i] * right[k]
		}
		right[i] /= t.at[i*t.size+i]
	}
	return right
}

// inverse is the matrix's inverse, set into one of so many rows at the given
// places; the others are zero.
func (t triangle) inverse(rows int, used []int) []float64 {
	out, x := make([]float64, rows*rows), make([]float64, t.size)
	for c := range t.size {
		clear(x)
		x[c] = 1
		for i, v := range t.solve(x) {
			out[used[i]*rows+used[c]] = v
		}
	}
	return out
}
