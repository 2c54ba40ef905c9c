// Package formulas holds tests alone: every formula of the workbooks for the
// accountant worked out again, by fractions and by programs of other makers, in
// the sample, a tiny shop and generated books.
package formulas
