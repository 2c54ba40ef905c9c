// Package tables finds the tables on a sheet: most sheets are one, but people
// put two beside each other, or one below the other.
//
// In: a sheets.Sheet, and what says of a row whether it names columns. Out: the
// sheet itself, or one sheet for each of its tables. Of a sheet "Flips"
//
//	Item  Bought  Paid     Item  Sold   Price
//	desk  1/5/26  10       desk  2/3/26 50
//
// come two sheets: the columns A to C, and `Flips!E1`, the columns E to G.
// Nothing is joined across a blank column where the names begin again.
package tables
