// Package values reads one cell: its words and what its workbook tells beside
// them become a day, an amount of money, a number, hours, an amount of a supply,
// yes or no, a list. It knows nothing of rows and names.
//
// In: a sheets.Cell and the shop's settings. Out: a value, or the Refusal that
// says why there is none and what to type.
//
//	Money(cell "1,250.50") = 125050 cents
//	Date(cell "3/9/2026", month first) = 2026-03-09, BothOrders
//	Hours(cell "2:30") = 5/2
//
// Package measure has the grammar of numbers, money, amounts and hours as plain
// text; here stands what the cells of spreadsheets add to it. A number cell of a
// workbook is stored with a point whatever the shop's style.
package values
