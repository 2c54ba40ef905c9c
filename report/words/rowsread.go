package words

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/templates"
)

// tallyLine accounts for one sheet's rows.
func tallyLine(t intake.TableTally) string {
	name := t.File
	if t.Sheet != "" {
		name += fmt.Sprintf(", sheet %q", t.Sheet)
	}
	what := t.Table
	if what == "" {
		what = "no table"
	}
	return fmt.Sprintf("%s (%s): %s", name, what, rowWords(t))
}

// RowsOfSheets accounts for all sheets, a line each; those of a file that hold
// nothing but example lines share one.
func RowsOfSheets(tally []intake.TableTally) []string {
	var out []string
	for len(tally) > 0 {
		file := tally[0].File
		end := slices.IndexFunc(tally, func(t intake.TableTally) bool { return t.File != file })
		if end < 0 {
			end = len(tally)
		}
		empty, sheets := intake.TableTally{}, 0
		for _, t := range tally[:end] {
			if t.Sheet != "" && t.Rows == t.Examples {
				sheets++
				empty.Rows += t.Rows
				empty.Examples += t.Examples
				continue
			}
			out = append(out, tallyLine(t))
		}
		if sheets > 0 {
			out = append(out, fmt.Sprintf("%s, %d %s with nothing filled in: %s", file, sheets, fault.Plural(sheets, "sheet",
				"sheets"), rowWords(empty)))
		}
		tally = tally[end:]
	}
	return out
}

// NothingFilledIn says that there are tables, but nothing of the owner's in
// them.
func NothingFilledIn(tally []intake.TableTally) bool {
	return len(tally) > 0 && !slices.ContainsFunc(tally, func(t intake.TableTally) bool { return t.Rows > t.Examples })
}

// RowsInAll is the last line of check: rows read = rows used + rows skipped.
func RowsInAll(tally []intake.TableTally) string {
	var all intake.TableTally
	for _, t := range tally {
		all.Rows += t.Rows
		all.Used += t.Used
		all.Refused += t.Refused
		all.Examples += t.Examples
		all.NotRecord += t.NotRecord
		all.NotTable += t.NotTable
	}
	return rowWords(all)
}

// rowWords is `12 rows read = 10 used + 2 skipped (1 refused, 1 example)`.
func rowWords(t intake.TableTally) string {
	words := fmt.Sprintf("%d %s read = %d used + %d skipped", t.Rows, fault.Plural(t.Rows, "row", "rows"), t.Used,
		t.Rows-t.Used)
	var why []string
	for _, x := range []struct {
		n    int
		what string
	}{{t.Refused, "refused"}, {t.Examples, "example"}, {t.NotRecord, "totals, headings and column names again"},
		{t.NotTable, "on a sheet that is not a table"}} {
		if x.n > 0 {
			why = append(why, fmt.Sprintf("%d %s", x.n, x.what))
		}
	}
	if len(why) > 0 {
		words += " (" + strings.Join(why, ", ") + ")"
	}
	return words
}

// absentTables is the tables without a row of the owner's, refused ones too.
func absentTables(read *intake.Result, all []templates.Table) []templates.Table {
	// Sales, hours and a schedule may stand on the pieces' own rows, also on
	// those that are refused. Supplies shared by hours or pieces need no uses.
	books := &read.Books
	used := map[string]bool{"sales": len(books.Sales) > 0, "supplies": len(books.Supplies) > 0,
		"hours": len(books.Hours) > 0,
		"uses": slices.ContainsFunc(books.Pieces, func(p ledger.Piece) bool { return p.Schedule != "" }) ||
			slices.ContainsFunc(books.Supplies, func(s ledger.Supply) bool {
				return s.ShareBy == ledger.ByHours || s.ShareBy == ledger.ByPieces
			})}
	for _, t := range read.Tally {
		used[t.Table] = used[t.Table] || t.Used+t.Refused > 0
		if t.Table == "pieces" && t.Refused > 0 {
			used["sales"], used["hours"], used["uses"] = true, true, true
		}
	}
	return slices.DeleteFunc(slices.Clone(all), func(t templates.Table) bool { return used[t.Name] })
}

// Absent says of each table without a row what that leaves out.
func Absent(read *intake.Result, all []templates.Table) []string {
	var out []string
	for _, t := range absentTables(read, all) {
		out = append(out, fmt.Sprintf("No %s. %s", t.Title, t.Absence))
	}
	return out
}

// AbsentInShort is Absent for the terminal: of the six tables that make
// a useful pack each in a line, the others named in one.
func AbsentInShort(read *intake.Result, all []templates.Table) []string {
	var out, others []string
	for _, t := range absentTables(read, all) {
		if t.Essential {
			out = append(out, fmt.Sprintf("No %s. %s", t.Title, t.Absence))
		} else {
			others = append(others, t.Title)
		}
	}
	if len(others) > 0 {
		out = append(out, "Not there, and not needed until they are: "+strings.Join(others, ", ")+".")
	}
	return out
}
