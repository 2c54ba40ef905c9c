// Package statistics is what the kinds of furniture are judged by: quantiles,
// means and their spread, intervals, how fast things sell, and the drawing of
// small groups toward the whole. It knows numbers only, no pieces and no
// money. Its results are estimates, printed rounded; none of them is a sum
// that is posted, so binary floating point is right here and nowhere else in
// the ledger.
package statistics
