package intake_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/templates"
)

// lossCase is a slip by which money would be lost or made without a word, and
// what is said of it.
type lossCase struct {
	name  string
	files map[string]string
	code  fault.Code
	found string // what the message shows
	note  bool
}

// formatted is a workbook of one sheet whose cells have number formats.
func formatted(sheet string, head, cells []any, formats map[string]string) map[string]string {
	return file("book.xlsx", workbook(sheet, func(f *excelize.File) {
		row(f, 1, head...)
		row(f, 2, cells...)
		for cell, code := range formats {
			style, _ := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			_ = f.SetCellStyle(sheet, cell, cell, style)
		}
	}))
}

// Goal: each slip by which money was lost or made without a word is reported.
func TestLossesAreTold(t *testing.T) {
	purchase := []any{"bought_on", "supply", "containers", "cost"}
	for _, c := range []lossCase{
		{"a table emptied to nothing", file("uses.csv", ""+"\n"), fault.CodeFileNotRead, "", false},
		{"a tick box as money", formatted("Parts", []any{"bought_on", "pieces", "what", "cost"},
			[]any{"2026-01-09", "P1", "knobs", true}, nil), fault.CodeMoneyNotRead, "TRUE", false},
		{"a percentage as money", formatted("Sales", []any{"sold_on", "pieces", "price", "fee"},
			[]any{"2026-01-09", "P1", 200, 0.13}, map[string]string{"D2": "0%"}), fault.CodeMoneyNotRead, "13%", false},
		{"a unit in the format of a number of containers", formatted("Purchases", purchase,
			[]any{"2026-01-09", "Primer", 8, 20}, map[string]string{"C2": `0 "fl oz"`}), fault.CodeNumberNotRead,
			"8 fl oz", false},
		{"a scale in the format of money", formatted("Purchases", purchase,
			[]any{"2026-01-09", "Primer", 1, 2}, map[string]string{"D2": `0"k"`}), fault.CodeMoneyNotRead, "2 k", false},
		{"another unit in the format of an area", formatted("Uses", []any{"used_on", "pieces", "supply", "area"},
			[]any{"2026-01-09", "P1", "Primer", 3}, map[string]string{"D2": `0.0 "sq m"`}), fault.CodeUnitNotShops,
			"3 sq m", false},
		{"a comma without quotation marks", file("parts.csv", "bought_on,pieces,what,cost,tax_paid,receipt\n"+
			"2026-01-09,P1,5,8,,\n2026-01-09,P1,5,1,8,,\n2026-01-10,P2,glides,3,0.20,\n"), fault.CodeRowTooLong, "", false},
		{"a mark in miles", file("trips.csv", "on,miles,purpose\n2026-01-09,\"33,740\",market\n"),
			fault.CodeNumberEitherWay, "33,740", true},
		{"a mark in an area", file("uses.csv", "used_on,pieces,supply,area\n2026-01-09,P1,Primer,\"33,740\"\n"),
			fault.CodeNumberEitherWay, "33,740", true},
		{"a mark in a worth", file("pieces.csv", "piece,kind,got_on,price,worth\nP1,desk,2026-01-02,8,\"33,740\"\n"+
			"P2,desk,2026-01-02,8,\n"), fault.CodeNumberEitherWay, "33,740", true},
		{"a time as a part of a day", file("hours.csv", "worked_on,hours\n2026-01-09,0.104166\n"), fault.CodeHoursOfDay,
			"0.104166", false},
		{"the same of a workbook", formatted("Hours", []any{"worked_on", "hours"}, []any{"2026-01-09", 0.104166666666666},
			nil), fault.CodeHoursOfDay, "0.104166666666666", false},
		{"a column of money without a name", file("parts.csv", "bought_on,pieces,what,cost,,receipt\n"+
			"2026-01-09,P1,knobs,8,4.50,R1\n"), fault.CodeHeaderBlank, "", true},
	} {
		res := read(t, c.files)
		found := false
		for _, p := range res.Problems.All() {
			found = found || p.Code == c.code && p.Found == c.found && p.Note == c.note
			if p.Code == fault.CodeHeaderBlank {
				require.EqualValues(t, 450, p.MoneyCents, "what the column holds")
			}
		}
		require.True(t, found, "%s: %v", c.name, res.Problems.All())
	}
}

// Goal: a number whose format shows its unit is read with it, and one whose
// format shows a word that says nothing new as it is.
func TestUnitsOfFormats(t *testing.T) {
	uses := []any{"used_on", "pieces", "supply", "amount"}
	res := read(t, formatted("Uses", uses, []any{"2026-01-09", "P1", "Primer", 8}, map[string]string{"D2": `0 "fl oz"`}))
	require.Empty(t, res.Problems.Errors())
	require.Equal(t, "1/4", res.Books.Uses[0].Amount.RatString(), "8 fl oz of a quart")

	res = read(t, map[string]string{"settings.toml": "decimal_comma = true\n", "records/book.xlsx": workbook("Uses",
		func(f *excelize.File) {
			row(f, 1, uses...)
			row(f, 2, "2026-01-09", "P1", "Primer", 1.6)
			code := `0.0 "fl oz"`
			style, _ := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			_ = f.SetCellStyle("Uses", "D2", "D2", style)
		})})
	require.Empty(t, res.Problems.Errors())
	require.Equal(t, "1/20", res.Books.Uses[0].Amount.RatString())

	res = read(t, formatted("Hours", []any{"worked_on", "hours"}, []any{"2026-01-09", 90},
		map[string]string{"B2": `0 "min"`}))
	require.Empty(t, res.Problems.Errors())
	require.Equal(t, "3/2", res.Books.Hours[0].Hours.RatString())

	res = read(t, formatted("Parts", []any{"bought_on", "pieces", "what", "cost"}, []any{"2026-01-09", "P1", "knobs", 8.5},
		map[string]string{"D2": `0.00 "net"`}))
	require.Empty(t, res.Problems.Errors())
	require.EqualValues(t, 850, res.Books.Parts[0].Cost)
}

// Goal: a row that is wider with every other row is no slip.
func TestSeparatorsAtTheEndOfAllRows(t *testing.T) {
	res := read(t, file("parts.csv", "bought_on,pieces,what,cost\n2026-01-09,P1,knobs,8,\n2026-01-10,P2,glides,3,\n"))
	require.Empty(t, res.Problems.Errors())
}

// Goal: a linked folder, or a link that leads out, is reported rather than passed
// over.
func TestLinksBelowRecords(t *testing.T) {
	dir, elsewhere := t.TempDir(), t.TempDir()
	for name, text := range base {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, filepath.Dir(name)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, "old"), 0o755))
	for name, to := range map[string]string{"2025": "../old", "2024": elsewhere, "gone": "nowhere"} {
		if err := os.Symlink(to, filepath.Join(dir, "records", name)); err != nil {
			t.Skip("this system makes no links: ", err)
		}
	}
	set, err := templates.Load()
	require.NoError(t, err)
	root, err := os.OpenRoot(dir)
	require.NoError(t, err)
	defer root.Close()
	reported := map[string]fault.Code{}
	for _, p := range intake.Read(root.FS(), set).Problems.Errors() {
		reported[p.Place.File] = p.Code
	}
	require.Equal(t, map[string]fault.Code{"records/2025": fault.CodeFileNotRead, "records/2024": fault.CodeFileNotRead,
		"records/gone": fault.CodeFileNotRead}, reported)
}
