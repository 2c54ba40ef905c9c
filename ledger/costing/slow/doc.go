// Package slow holds tests alone: the rules of the shelf worked out a second,
// slow way, piece by piece as the contract's text says, and compared with
// costing on generated books.
package slow
