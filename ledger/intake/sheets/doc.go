// Package sheets turns the files of a books folder into sheets: grids of texts
// with places. It knows what a file is, and nothing of tables.
//
// In: a folder. Out: one Sheet after another. Of a file sales.csv
//
//	sold_on,price
//	2026-03-09,"1,250"
//
// comes Sheet{File: "records/sales.csv", Known: "sales"} with the lines
// {Number: 1, Cells: {"sold_on", "price"}} and {Number: 2, Cells: {"2026-03-09", "1,250"}}.
//
// # What is read
//
// .csv, .tsv and .tab, .txt where it is named as a table is, and .xlsx, .xlsm
// and their templates, each by what its bytes are. Plain files are UTF-8 or
// UTF-16, marked or not, else Windows-1252 with a note; what separates their
// cells is found from the column names (comma, semicolon, tab or |); their lines
// end in LF, CRLF or CR; line breaks within quotation marks are kept as they are. A first line
// sep=; is no row. Hidden rows, columns and sheets are read; of merged cells
// the first has the value; a formula is the value it was saved with.
//
// Links are followed within the books folder, to files only; what is no file is
// not opened. The limits are constants in limits.go: what is beyond them is a
// problem, and no part of such a sheet is read.
package sheets
