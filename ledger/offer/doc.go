// Package offer works out the most to pay for a piece in view: what such
// pieces turned out to be worth, drawn as one quantity toward the kind's and
// the shop's, given what is known of this one. A piece's worth is what it
// would have been right to pay for it, known afterwards: receipts less selling
// costs, parts, supplies, trips and its hours at the wanted rate and the usual
// shop costs of an hour.
//
// HistoryOf gathers a costed ledger's outcomes, one to a sale line and one to
// each piece lost; History.Offer answers one Ask. Worths are drawn by the hour:
// over the usual hours of their kind, so that kinds of long and short work are
// alike. A trend of prices is looked for as in package kinds and carried on to
// the day the piece may be sold: the end of the ledger and the usual days held.
//
// What is known of the piece narrows it. Area, condition and channel move its
// worth as the pieces on record show, drawn toward nothing: area by the kind's
// own pieces, the others over all kinds. A guess (what it sells for, hours,
// parts) is combined with what such pieces have by how far guesses are off,
// and moves the worth as the shop's pieces show, drawn toward plain accounting.
// Of a kind never sold the hours given say how large it is. What the seller
// asks is all there is to pay: tax and pickup are in it.
//
// Everything here is an estimate from past pieces and never posted, so it is
// binary floating point until it is rounded to the cent for printing. The
// printed steps are whole cents and add up.
package offer
