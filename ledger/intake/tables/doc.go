// Package tables finds the tables on a sheet, and which table each is: most sheets
// are one, but people put two beside each other, or one below the other, turn a
// sheet over or keep a form for each piece.
//
// In: a sheets.Sheet. Out: a Found for the sheet itself, or for each of its tables.
// Of a sheet "Flips"
//
//	Item  Bought  Paid     Item  Sold   Price
//	desk  1/5/26  10       desk  2/3/26 50
//
// come two: the columns A to C, and `Flips!E1`, the columns E to G. Nothing is
// joined across a blank column where the names begin again. The table is the one
// that a sheet or the heading above a part is named for, as settings.toml has it or
// the table itself; one that fits by its column names is proposed and not read.
package tables
