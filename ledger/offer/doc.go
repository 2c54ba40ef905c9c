// Package offer works out the most to pay for a piece in view: what its kind
// brings less all that it costs but the piece itself, and less the hours at
// the owner's target. Everything here is an estimate from past pieces and
// never posted. Estimates are binary floating point until each is rounded to what
// is printed of it; from there on all is exact, each step rounded half to even to
// the cent once, so that the printed steps can be followed with a calculator.
package offer
