// Package offer works out the most to pay for a piece in view: what its kind
// brings less all that it costs but the piece itself, and less the hours at
// the owner's target. Everything here is an estimate from past pieces, in
// cents as binary floating point, rounded when it is shown and never posted.
package offer
