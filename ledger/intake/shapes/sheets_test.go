package shapes

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding/unicode"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/ledger/money"
	"piecebook/templates"
)

func TestTablesAreKnownByTheirNames(t *testing.T) {
	const text = "worked_on,hours\n2026-01-09,1\n"
	for _, name := range []string{"hours.csv", "Hours-2026.csv", "HOURS 2026-03.csv", "hours (2).csv", "hours_2.csv",
		"hours march 2026.csv",
		"time sheet.csv", "2026/hours.csv", "Time-Log Mar.csv", "hours.CSV"} {
		res := read(t, file(name, text))
		require.Empty(t, noErrors(t, res), name)
		require.Len(t, res.Books.Hours, 1, name)
	}
	res := read(t, map[string]string{"records/other_income.csv": "got_on,what,group,amount\n2026-01-09,x,scrap,1\n",
		"records/OtherIncome 2026.csv": "got_on,what,group,amount\n2026-01-10,x,scrap,1\n"})
	require.Empty(t, noErrors(t, res))
	require.Len(t, res.Books.OtherIncome, 2)
}

func TestHeadersByOtherNamesAndSettings(t *testing.T) {
	res := read(t, map[string]string{
		"settings.toml":           "[sheets]\n\"Stuff sold\" = \"sales\"\n[columns.sales]\n\"Amt rec'd\" = \"price\"\n",
		"records/Stuff sold.csv":  "Date Sold,PIECE,Platform,Amt Rec'd\n2026-02-01,p1,market,90\n",
		"records/purchases 2.csv": "Purchase Date;Item;Qty;Price\n1/9/2026;primer;2;\"$1,234.50\"\n",
	})
	require.Equal(t, []fault.Code{fault.CodeQuantityUnread}, noErrors(t, res))
	require.Equal(t, []string{"P1"}, res.Books.Sales[0].Pieces)
	require.Equal(t, money.Cents(9000), res.Books.Sales[0].Price)
	require.Equal(t, "Primer", res.Books.Purchases[0].Supply)
	require.Equal(t, "2026-01-09", res.Books.Purchases[0].On.String())
	require.Equal(t, money.Cents(123450), res.Books.Purchases[0].Cost)
}

// A column's own name is stronger than another one's other name: `notes`
// stays unread beside `description`, rather than the two being one column.
func TestOwnHeaderBeatsOtherName(t *testing.T) {
	res := read(t, pieces("piece,kind,got_on,price,area,description,notes", "P1,chair,2026-01-05,5,9,oak,wobbly"))
	require.Equal(t, []fault.Code{fault.CodeHeaderUnknown}, noErrors(t, res))
	require.Equal(t, "oak", res.Books.Pieces[0].Description)
}

func TestLettersAndLineEnds(t *testing.T) {
	const text = "worked_on;hours;task\r\n2026-01-09;1,5;d\u00e9caper\r\n\r\nexample: " +
		"x;;\r\n2026-01-10;2;\"a\r\nb\"\r\n2026-01-11;x;c\r\n"
	utf16 := func(e unicode.Endianness) string {
		s, err := unicode.UTF16(e, unicode.UseBOM).NewEncoder().String(text)
		require.NoError(t, err)
		return s
	}
	latin := []byte{}
	for _, r := range text {
		latin = append(latin, byte(r))
	}
	for name, bytes := range map[string]string{"plain": text, "marked": "\ufeff" + text,
		"little": utf16(unicode.LittleEndian),
		"big":    utf16(unicode.BigEndian), "windows": string(latin)} {
		res := read(t, map[string]string{"settings.toml": "decimal_comma = true", "records/hours.csv": bytes,
			"records/pieces.csv": "", "records/supplies.csv": ""})
		errs := res.Problems.Errors()
		require.Len(t, errs, 1, name)
		require.Equal(t, `records/hours.csv, row 6, column "hours"`, errs[0].Place.String(), "%s: quoted line ends do not "+
			"count, blank lines do", name)
		require.Equal(t, "d\u00e9caper", res.Books.Hours[0].Task, name)
		require.Equal(t, "3/2", res.Books.Hours[0].Hours.String(), name)
		require.Equal(t, []intake.TableTally{{File: "records/hours.csv", Table: "hours", Rows: 4, Used: 2, Refused: 1,
			Examples: 1}}, res.Tally)
	}
}

func TestCarriageReturnsAlone(t *testing.T) {
	res := read(t, file("hours.csv", "worked_on\thours\r2026-01-09\t1\r\r2026-01-10\tx\r"))
	require.Equal(t, `records/hours.csv, row 4, column "hours"`, res.Problems.Errors()[0].Place.String())
	require.Len(t, res.Books.Hours, 1)
}

// A quotation mark inside a cell is itself, as for every spreadsheet program.
func TestInchMarkWithoutQuotes(t *testing.T) {
	res := read(t, file("surfaces.csv", "piece,part,shape,width,height\nP1,top,rectangle,36\",3' 6\"\nP1,\"a "+
		"\"\"b\"\"\",rectangle,\"36\"\"\",1\n"))
	require.Empty(t, noErrors(t, res))
	require.Equal(t, "36", res.Books.Surfaces[0].Width.RatString())
	require.Equal(t, "42", res.Books.Surfaces[0].Height.RatString())
	require.Equal(t, `a "b"`, res.Books.Surfaces[1].Part)
}

// Goal: a workbook's own kinds of cell are read as what a person sees.
func TestWorkbookCells(t *testing.T) {
	for _, is1904 := range []bool{false, true} {
		b := workbook("Hours 2026", func(f *excelize.File) {
			require.NoError(t, f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &is1904}))
			row(f, 1, "worked_on", "pieces", "hours", "task")
			row(f, 3, nil, "P1", 4.4000000000000004, "x")
			row(f, 4, "9 Mar 2026", "P2", nil, 7)
			row(f, 5, "example: 2026-01-01", "P1", 1)
			date, _ := f.NewStyle(&excelize.Style{NumFmt: 14})
			clock, _ := f.NewStyle(&excelize.Style{NumFmt: 20})
			require.NoError(t, f.SetCellValue("Hours 2026", "A3", time.Date(2026, 3, 9, 0, 0, 0, 0, time.UTC)))
			require.NoError(t, f.SetCellStyle("Hours 2026", "A3", "A3", date))
			require.NoError(t, f.SetCellValue("Hours 2026", "C4", 2.5/24))
			require.NoError(t, f.SetCellStyle("Hours 2026", "C4", "C4", clock))
			_, _ = f.NewSheet("Choices")
			_ = f.SetCellValue("Choices", "A1", "bought")
			_, _ = f.NewSheet("Empty")
		})
		res := read(t, file("Shop book.xlsx", b))
		require.Equal(t, []fault.Code{fault.CodeSheetSkipped}, noErrors(t, res))
		require.Len(t, res.Books.Hours, 2)
		require.Equal(t, "2026-03-09", res.Books.Hours[0].On.String())
		require.Equal(t, "2026-03-09", res.Books.Hours[1].On.String())
		require.Equal(t, "22/5", res.Books.Hours[0].Hours.String())
		require.Equal(t, "5/2", res.Books.Hours[1].Hours.String())
		require.Equal(t, "7", res.Books.Hours[1].Task)
		require.Equal(t, "Shop book.xlsx Hours 2026:3", res.Books.Hours[0].At.Short())
	}
}

// In a shop with a decimal comma a number cell still has a point inside the
// workbook, while a text cell is read as the shop writes.
func TestDecimalCommaInWorkbook(t *testing.T) {
	b := workbook("Equipment", func(f *excelize.File) {
		row(f, 1, "bought_on", "what", "cost")
		row(f, 2, "9.3.2026", "saw", 1.25)
		row(f, 3, "2026-03-09", "saw", "1.234,50")
		row(f, 4, "2026-03-09", "saw", 12.1+0.2)
	})
	res := read(t, map[string]string{"settings.toml": "decimal_comma = true\ndates = \"dmy\"", "records/b.xlsx": b})
	require.Empty(t, noErrors(t, res))
	require.Equal(t, []money.Cents{125, 123450, 1230}, []money.Cents{res.Books.Equipment[0].Cost,
		res.Books.Equipment[1].Cost, res.Books.Equipment[2].Cost})
	require.Equal(t, "2026-03-09", res.Books.Equipment[0].On.String())
}

// A single workbook dropped on the program is a folder with that one file.
func TestSingleWorkbook(t *testing.T) {
	b := workbook("Pieces", func(f *excelize.File) {
		row(f, 1, "piece", "kind", "got_on", "price", "area")
		row(f, 2, 101, "chair", "2026-01-05", 40, 12)
	})
	set, err := templates.Load()
	require.NoError(t, err)
	res := intake.Read(fstest.MapFS{"book.xlsx": {Data: []byte(b)}, "reports/2026-01/month.xlsx": {Data: []byte("x")}},
		set)
	require.Empty(t, noErrors(t, res))
	require.Equal(t, "101", res.Books.Pieces[0].ID)
	require.Equal(t, "book.xlsx", res.Books.Pieces[0].At.File)
}

// The areas of the example books are those of its figures, worked out twice
// by others.
func TestExampleAreas(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	res := intake.Read(os.DirFS("../../testdata/example"), set)
	areas := map[string]ledger.Piece{}
	for _, p := range res.Books.Pieces {
		areas[p.ID] = p
	}
	files, err := filepath.Glob("../../testdata/example/figures-*.json")
	require.NoError(t, err)
	compared := 0
	for _, name := range files {
		b, err := os.ReadFile(name)
		require.NoError(t, err)
		var figures struct {
			Pieces []struct{ Piece, Kind, Area string }
		}
		require.NoError(t, json.Unmarshal(b, &figures))
		for _, p := range figures.Pieces {
			require.Equal(t, p.Area, money.Fixed(areas[p.Piece].Area, 2), "%s %s", name, p.Piece)
			compared++
		}
	}
	require.Positive(t, compared)
	t.Log("areas compared:", compared)
}

// Reading the same bytes gives the same fingerprint; one more byte another.
func TestFingerprint(t *testing.T) {
	a, b := read(t, nil).Fingerprint, read(t, nil).Fingerprint
	require.Equal(t, a, b)
	require.Regexp(t, `^[0-9a-f]{12}$`, a)
	require.NotEqual(t, a, read(t, settings("shop = \"A\"")).Fingerprint)
	require.NotEqual(t, a, read(t, map[string]string{"records/pieces.csv": "",
		"records/piece.csv": base["records/pieces.csv"]}).Fingerprint)
}
