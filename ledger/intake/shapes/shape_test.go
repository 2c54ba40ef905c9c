package shapes

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
)

// Goal: what the published case of a bad table has is reported, each in its place.
// Source: the worked case of frictionless-py, data/invalid.csv, whose answer
// is: a blank label at field 3, a label twice at field 4, cells missing in rows
// 2 and 3, row 4 blank, an extra cell in row 5. Rows that are short and rows
// that are blank are none of our errors (RECORDS.md).
func TestPublishedInvalidTable(t *testing.T) {
	res := read(t, map[string]string{
		"settings.toml":       "[sheets]\ninvalid = \"schedules\"\n[columns.schedules]\nid = \"schedule\"\nname = \"supply\"\n",
		"records/invalid.csv": "id,name,,name\n1,english\n1,english\n\n2,german,1,2,3\n",
	})
	type reported struct {
		code   fault.Code
		row    int
		column string
		found  string
	}
	var got []reported
	for _, p := range res.Problems.All() {
		if p.Place.File == "records/invalid.csv" {
			got = append(got, reported{p.Code, p.Place.Row, p.Place.Column, p.Found})
		}
	}
	require.Equal(t, []reported{
		{fault.CodeHeaderBlank, 1, "C", ""},
		{fault.CodeColumnTwice, 1, "name", "name"},
		{fault.CodeRowTooLong, 5, "", "3"},
	}, got)
	require.Contains(t, res.Tally, intake.TableTally{File: "records/invalid.csv", Table: "schedules", Rows: 3, Refused: 3})
}

// What may be records is never taken for a title.
func TestTitlesAreNoRecords(t *testing.T) {
	for text, used := range map[string]int{
		// a title that is a column's name too
		"Hours\nworked_on,hours\n2026-01-09,1\n":                        1,
		"x\n\n\na\nb\n\nc\nd\ne\nf\ng\nworked_on,hours\n2026-01-09,1\n": 1, // nine rows of title
		"My shop,printed 2026-02-01\nworked_on,hours\n2026-01-09,1\n":   1,
		"When,,How long\nworked_on,task,hours\n2026-01-09,x,1\n":        1,
		"worked_on,Work,\n,hours,task\n2026-01-09,1,x\n":                1, // names in two rows
		// one name below is too little to tell: column C is noted
		"worked_on,hours,,task\n,,pieces,\n2026-01-09,1,P1,x\n": 1,
		"worked_on,hours,,\n,,pieces,task\n2026-01-09,1,P1,x\n": 1,
		// a header twice is a row, and reported
		"worked_on,hours\nworked_on,hours\n":                                           0,
		"2026-01-08,P1,2\nworked_on,pieces,hours\n2026-01-09,P1,1\n":                   0, // a record above
		"x\n1\n2\n3\n4\n5\n6\n7\n8\n9\n10\nworked_on,hours\n2026-01-09,1\n":            0, // too far down
		"worked_on,ours\n2026-01-09,1\nworked_on,hours\n2026-01-09,1\n":                0, // a record between two headers
		"\"a\nworked_on,hours\n2026-01-09,1\n":                                         0, // a row that is broken
		"sep=;\nAll hours;;\nworked_on;hours;task\n2026-01-09;1;\"sanded; wiped\"\n":   1,
		"My hours\n\nworked on | hours | task\n2026-01-09 | 1 | \"x | y\"\n":           1,
		"\"worked_on,hours,task\"\n\"2026-01-09,1,\"\"sanded, wiped\"\"\"\n":           1,
		"All my hours of 2026; a title, with marks\nworked_on\thours\n2026-01-09\t1\n": 1,
	} {
		res := read(t, file("hours.csv", text))
		require.Len(t, res.Books.Hours, used, "%q: %v", text, res.Problems.All())
		if used == 0 {
			require.True(t, res.Problems.HasErrors(), "%q", text)
		}
	}
}

// A cell of a workbook is its name as it is shown: with the zeros of its
// format, and never a date or a number with an exponent.
func TestNamesAsShown(t *testing.T) {
	b := workbook("Pieces", func(f *excelize.File) {
		row(f, 1, "piece", "kind", "got_on", "price", "area")
		for i, piece := range []any{7, 8, "0009", 46024, 100000, 10} {
			row(f, i+2, piece, "chair", "2026-01-05", 4, 3)
		}
		format := func(cell, code string) {
			style, _ := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			_ = f.SetCellStyle("Pieces", cell, cell, style)
		}
		format("A2", "000")
		format("A3", "0")
		format("A5", "d-mmm")
		format("A6", "0.00E+00")
		format("A7", `"P"0`)
	})
	res := read(t, map[string]string{"records/pieces.csv": "", "records/b.xlsx": b})
	var names []string
	for _, p := range res.Books.Pieces {
		names = append(names, p.ID)
	}
	require.Equal(t, []string{"007", "8", "0009", "P10"}, names)
	require.Len(t, res.Problems.Errors(), 2)
	for _, p := range res.Problems.Errors() {
		require.Equal(t, fault.CodeNameIsNumber, p.Code)
	}
}

// Texts of a workbook are what a person reads: parts in several styles put
// together, without the reading aids of Japanese, with line ends as such.
// Source of the forms: ECMA-376 part 1, 18.4.6 (rPh), 22.9.2.19 (_xHHHH_).
func TestTextsOfWorkbooks(t *testing.T) {
	b := workbook("Equipment", func(f *excelize.File) {
		row(f, 1, "bought_on", "what", "cost")
		row(f, 2, "2026-01-02", "one", 10)
		row(f, 3, "2026-01-02", "two", 10)
	})
	texts := string(part(t, b, "xl/sharedStrings.xml"))
	texts = strings.Replace(texts, "<t>one</t>",
		`<r><rPr><b/></rPr><t>ran</t></r><r><t xml:space="preserve">dom orbit </t></r><rPh sb="0" eb="1"><t>AID</t></rPh>`, 1)
	texts = strings.Replace(texts, "<t>two</t>", "<t>a_x000D_\nb _x005F_x000D_ &amp; c</t>", 1)
	res := read(t, map[string]string{"records/b.xlsx": string(repack(b, "xl/sharedStrings.xml", []byte(texts)))})
	require.Empty(t, noErrors(t, res))
	require.Equal(t, "random orbit", res.Books.Equipment[0].What)
	require.Equal(t, "a\r\nb _x000D_ & c", res.Books.Equipment[1].What)
}

// Example rows are skipped where the table stands further right, too.
func TestExamplesOfATableApart(t *testing.T) {
	b := workbook("Equipment", func(f *excelize.File) {
		row(f, 4, nil, nil, "bought_on", "what", "cost")
		row(f, 5, nil, nil, "example: 2026-01-02", "saw", 10)
		row(f, 6, nil, nil, "2026-01-02", "saw", 10)
	})
	res := read(t, map[string]string{"records/b.xlsx": b})
	require.Empty(t, noErrors(t, res))
	require.Len(t, res.Books.Equipment, 1)
	require.Equal(t, 1, res.Tally[0].Examples)
}

// What cannot be read is reported by what its bytes are, whatever its name says,
// and what may hold records is never merely skipped.
func TestForeignFiles(t *testing.T) {
	for name, bytes := range map[string]string{
		"book.ods": "PK", "book.numbers": "PK", "book.fods": "<?xml", "book.xlsb": "PK", "book.xls": "<html>", "book.gsheet": "{}",
		"hours.csv": "<html><body>", "sales.csv": "%PDF-1.4", "sales.tsv": "PK\x03\x04", "sales.xlsx": "worked_on,hours\n", "book.xlsm": "\xD0\xCF\x11\xE0",
		"hours.txt": "a\x00b\x00\x00\x00", "lots.csv": "{\"lots\": []}",
	} {
		res := read(t, file(name, bytes))
		require.NotEmpty(t, res.Problems.Errors(), name)
		require.Equal(t, "records/"+name, res.Problems.Errors()[0].Place.File)
	}
	for _, name := range []string{"notes.txt", "photo.jpg", "receipts.pdf"} {
		require.Equal(t, []fault.Code{fault.CodeFileSkipped}, noErrors(t, read(t, file(name, "x"))), name)
	}
	for _, name := range []string{".~lock.book.xlsx#", "~$book.xlsx", ".DS_Store", "Thumbs.db", "desktop.ini"} {
		require.Empty(t, noErrors(t, read(t, file(name, "x"))), name)
	}
}

// A plain file named for a workbook and a sheet is the sheet's table; with a
// bare hyphen only where there are two of the workbook, since `old-hours` is
// more likely a copy put aside.
func TestSheetsExportedAsPlainFiles(t *testing.T) {
	const hours, trips = "worked_on,hours\n2026-01-09,1\n", "on,purpose,miles\n2026-01-09,sale,8\n"
	for _, c := range []struct {
		files map[string]string
		hours int
	}{
		{file("My book - Hours.csv", hours), 1},
		{file("My-book 2026 - Hours 2026-03.csv", hours), 1},
		{file("old-hours.csv", hours), 0},
		{map[string]string{"records/a-hours.csv": hours, "records/b/a-trips.csv": trips}, 0},
		{map[string]string{"records/a-hours.csv": hours, "records/a-trips.csv": trips}, 1},
		{map[string]string{"records/a-hours.csv": hours, "records/a-nothing.csv": "x\n"}, 0},
		{map[string]string{"records/-hours.csv": hours}, 1},
	} {
		require.Len(t, read(t, c.files).Books.Hours, c.hours, c.files)
	}
}

// A row that holds nothing but a remark in a column that is not read is blank;
// the column is reported.
func TestRemarksInRowsOfTheirOwn(t *testing.T) {
	b := workbook("Equipment", func(f *excelize.File) {
		row(f, 1, "bought_on", "what", "cost", "my remarks")
		row(f, 2, "2026-01-02", "saw", 10)
		row(f, 5, nil, nil, nil, "ask Bob", nil, "far")
	})
	res := read(t, map[string]string{"records/b.xlsx": b})
	require.ElementsMatch(t, []fault.Code{fault.CodeHeaderUnknown, fault.CodeHeaderBlank}, noErrors(t, res))
	require.Equal(t, 1, res.Tally[0].Rows)
	res = read(t, file("equipment.csv", "bought_on,what,cost,remarks\n2026-01-02,saw,10,\n,,,ask Bob\n,,,,12\n"))
	require.Equal(t, "records/equipment.csv, row 4", res.Problems.Errors()[0].Place.String(), "after the last name")
	require.Len(t, res.Books.Equipment, 1)
}
