// Package headers finds what a sheet is: the table it is named for, the row of
// column names, the column of the table that each of them is, and which rows are
// no records.
//
// In: a sheets.Sheet. Out: a Block. Of a sheet "Hours 2026"
//
//	My hours
//	Day         Hrs.   Note
//	2026-03-09  2      sanded
//	Total       2
//
// comes Block{Table: hours, Columns: {"worked_on": 0, "hours": 1, "task": 2},
// Records: row 3}; the title and the totals are each noted and counted.
//
// # How a column is known
//
// By [columns.TABLE] of settings.toml, then by the column's own name or title,
// then by its other names, those only where the column is not there under its
// own. A header that is none of these is noted, and proposed as a column only
// where its name, the other columns and all cells agree.
package headers
