package seen_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
	"piecebook/ledger/seen"
)

func note(row int, why string) fault.Problem {
	return fault.Problem{Code: "price-far-from-kind", Note: true, Found: "12", Why: why,
		Place: fault.Place{File: "records/sales.csv", Row: row, Column: "price"}}
}

// near is a note whose words name another row.
func near(row int, median string, other int) fault.Problem {
	return note(row, "").Naming("The median of its kind is %s (%s).", median,
		fault.Place{File: "records/sales.csv", Row: other, Column: "price"})
}

func list(p ...fault.Problem) fault.List {
	var l fault.List
	l.Add(p...)
	return l
}

func text(s string) func(fault.Place) string { return func(fault.Place) string { return s } }

// TestQuietUntilACellChanges goes through what may change about a note.
func TestQuietUntilACellChanges(t *testing.T) {
	was := near(14, "90.00", 3)
	entries := seen.Add(nil, seen.Of(was, "price=12"))
	for _, c := range []struct {
		name  string
		now   fault.Problem
		row   string
		quiet bool
	}{
		{"nothing", was, "price=12", true},
		{"a row put in above", near(15, "90.00", 4), "price=12", true},
		{"a cell of its own row", was, "price=12\nchannel=market", false},
		{"a cell it rests on elsewhere", near(14, "70.00", 3), "price=12", false},
		{"an error", fault.Problem{Code: was.Code, Found: was.Found, Why: was.Why, Place: was.Place}, "price=12", false},
	} {
		shown, quiet := seen.Split(list(c.now), entries, text(c.row))
		require.Equal(t, c.quiet, len(quiet.All()) == 1, c.name)
		require.Equal(t, !c.quiet, len(shown.All()) == 1, c.name)
	}
}

// TestCodesThatStandInFiles: notes as they were marked while the fingerprint was
// taken of the words less what looked like a row's number are still the same
// notes. The fingerprints were computed then.
func TestCodesThatStandInFiles(t *testing.T) {
	sale := fault.Place{File: "records/sales.csv", Row: 3, Column: "price"}
	use := fault.Place{File: "records/Shop book.xlsx", Sheet: "Uses", Row: 7}
	at := note(14, "")
	for want, now := range map[string]fault.Problem{
		"7ebe6d1e4068": at.Naming("The median of its kind is %s (%s).", "90.00", sale),
		"95f1d09aa68b": at.Naming("Uses before it (%s) took %d.", []fault.Place{sale, sale.At("fee"), use}, 2),
		"4fbbbcd551ba": at.Naming("The rows from here to %d stand above the column names, which are in %s.", 2, fault.Row(3)),
		"4803749f0a9f": note(14, "No row is named."),
	} {
		require.Equal(t, want, seen.Of(now, "price=12").Fingerprint, now.Why)
	}
}

// TestWrittenAndReadBack loses nothing, whatever stands in a cell.
func TestWrittenAndReadBack(t *testing.T) {
	odd := note(3, "Two lines\nand \"marks\", a comma.")
	odd.Found = "=1+1; \n\"x\""
	sheet := fault.Problem{Code: "sheet-skipped", Note: true, Place: fault.Place{File: "a.xlsx", Sheet: "Ideas"},
		Why: "No table."}
	want := seen.Add(nil, seen.Of(odd, "a"), seen.Of(sheet, ""))
	var b bytes.Buffer
	require.NoError(t, seen.Write(&b, want))
	got, problems := seen.Read(b.Bytes())
	require.Empty(t, problems.All())
	require.Equal(t, want, got)

	again := seen.Add(got, seen.Of(odd, "b"))
	require.Len(t, again, 2, "the same place takes the older line")
	require.NotEqual(t, want[0].Fingerprint, again[0].Fingerprint)
}

// TestStrangeLinesAreTold and quiet nothing; the others still count.
func TestStrangeLinesAreTold(t *testing.T) {
	good := "x,a.csv,,4,price,1,why,0123456789ab"
	got, problems := seen.Read([]byte("\xEF\xBB\xBFcode,file,sheet,row,column,stands there,note,fingerprint\n" + good +
		"\nmy own line\n"))
	require.Len(t, got, 1)
	require.Equal(t, `seen.csv, row 3: "my own line": This line is not as piecebook writes it, so it quiets no note. `+
		`Delete the line, and type piecebook seen again for its note if it comes back.`, problems.All()[0].String())
	require.Equal(t, fault.CodeSeenNotRead, problems.All()[0].Code)
	got, problems = seen.Read([]byte("\"never closed\n\n"))
	require.Empty(t, got)
	require.Len(t, problems.All(), 1)
}

// TestPlacesAsPeopleTypeThem: every way a place is printed finds it again.
func TestPlacesAsPeopleTypeThem(t *testing.T) {
	plain := fault.Place{File: "records/sales.csv", Row: 14, Column: "price"}
	book := fault.Place{File: "records/Shop book.xlsx", Sheet: "Sales", Row: 4}
	for typed, p := range map[string]fault.Place{
		"sales.csv:14": plain, "records/sales.csv:14": plain, `records\sales.csv:14`: plain, "Sales.csv:14:price": plain,
		`records/sales.csv, row 14, column "price"`: plain, "records/sales.csv, row 14": plain, "sales.csv": plain,
		"Shop book.xlsx Sales:4": book, `records/Shop book.xlsx, sheet "Sales", row 4`: book, "shop book.xlsx sales": book,
	} {
		require.True(t, seen.At(p, typed), typed)
	}
	require.False(t, seen.At(plain, "sales.csv:1"))
	require.False(t, seen.At(book, "sales.csv:4"))
}
