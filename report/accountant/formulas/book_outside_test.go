package formulas

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/calendar"
	ledgerkit "piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bookgen"
	"piecebook/report"
	"piecebook/report/accountant"
	"piecebook/report/figuresjson"
	"piecebook/report/testkit"
	"piecebook/report/words"
	"piecebook/report/workbook"
	"piecebook/report/xlsx"
)

// cached is the result that stands beside a formula.
var cached = regexp.MustCompile(`(<f>[^<]*</f>)<v>[^<]*</v>`)

// stripped is a workbook without the results beside its formulas, so that
// whoever opens it must work them out.
func stripped(t *testing.T, book []byte) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	require.NoError(t, err)
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	n := 0
	for _, f := range in.File {
		from, err := f.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(from)
		require.NoError(t, err)
		n += len(cached.FindAll(data, -1))
		to, err := w.Create(f.Name)
		require.NoError(t, err)
		_, err = to.Write(cached.ReplaceAll(data, []byte("$1")))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	require.Greater(t, n, 100)
	return out.Bytes()
}

// outsideBooks are the months whose workbooks outside programs look at: of the
// sample, and of generated books.
func outsideBooks(t *testing.T) map[string]report.Input {
	sample := filepath.Join("..", "..", "..", "sample")
	out := map[string]report.Input{}
	for name, m := range map[string]calendar.Month{"first": calendar.MonthOf(2025, 1), "summer": calendar.MonthOf(2025, 8),
		"last": calendar.MonthOf(2026, 2)} {
		out[name] = testkit.Input(t, sample, m)
	}
	out["tiny"] = tinyInput(t) // names like formulas, patterns and numbers
	for _, seed := range []uint64{3, 7} {
		out[fmt.Sprintf("seed%d", seed)] = testkit.Input(t, ledgerkit.Folder(t, bookgen.Files(seed)), 0)
	}
	return out
}

func monthBook(t testing.TB, in report.Input) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, xlsx.Write(&b, func(book *workbook.Book) { accountant.FillMonth(book, in) }))
	return b.Bytes()
}

func openedFile(t *testing.T, path string) *excelize.File {
	t.Helper()
	f, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

// Goal: a spreadsheet program that knows nothing of us, given the formulas
// only, comes to every result that we wrote beside them, and to figures.json.
// Method: LibreOffice, on a copy without the results.
func TestLibreOfficeWorksTheMonthBookOut(t *testing.T) {
	ledgerkit.Needs(t, "libreoffice")
	dir, out := t.TempDir(), t.TempDir()
	args := []string{"--headless", "-env:UserInstallation=file://" + t.TempDir(), "--convert-to", "xlsx", "--outdir", out}
	books := outsideBooks(t)
	for name, in := range books {
		path := filepath.Join(dir, name+".xlsx")
		book := monthBook(t, in)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+"-ours.xlsx"), book, 0o644))
		require.NoError(t, os.WriteFile(path, stripped(t, book), 0o644))
		args = append(args, path)
	}
	said, err := exec.Command("libreoffice", args...).CombinedOutput()
	require.NoError(t, err, string(said))
	for name, in := range books {
		ours, theirs := openedFile(t, filepath.Join(dir, name+"-ours.xlsx")), openedFile(t, filepath.Join(out, name+".xlsx"))
		n := sameResults(t, name, ours, theirs)
		t.Logf("%s: %d results", name, n)
		meetsFigures(t, name, theirs, in)
	}
}

// sameResults holds every cell with a formula to its result in ours: words to
// the letter, money to the cent, other numbers to 12 digits.
func sameResults(t *testing.T, name string, ours, theirs *excelize.File) int {
	t.Helper()
	n, wrong := 0, 0
	for _, sheet := range ours.GetSheetList() {
		mine, err := ours.GetRows(sheet)
		require.NoError(t, err)
		yours, err := theirs.GetRows(sheet)
		require.NoError(t, err)
		for i, row := range mine {
			for j, want := range row {
				got := ""
				if i < len(yours) && j < len(yours[i]) {
					got = yours[i][j]
				}
				n++
				if !sameValue(want, got) && wrong < 20 {
					wrong++
					cell, _ := excelize.CoordinatesToCellName(j+1, i+1)
					formula, _ := ours.GetCellFormula(sheet, cell)
					t.Errorf("%s, %s!%s: %q here, %q there (=%s)", name, sheet, cell, want, got, formula)
				}
			}
		}
	}
	return n
}

func sameValue(want, got string) bool {
	if want == got {
		return true
	}
	a, err := strconv.ParseFloat(want, 64)
	if err != nil {
		return false
	}
	b, err := strconv.ParseFloat(got, 64)
	return err == nil && math.Abs(a-b) <= 1e-9+1e-12*math.Abs(a)
}

// table is a sheet's rows by the words in a column, each a map of head to value.
func table(t *testing.T, f *excelize.File, sheet, key string) map[string]map[string]string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	require.NoError(t, err)
	out := map[string]map[string]string{}
	var heads []string
	for _, row := range rows {
		if heads == nil && len(row) > 1 {
			heads = row
			require.Contains(t, heads, key)
			continue
		}
		line := map[string]string{}
		for i, v := range row {
			if i < len(heads) {
				line[heads[i]] = v
			}
		}
		if heads != nil {
			out[line[key]] = line
		}
	}
	return out
}

// meetsFigures compares what a workbook shows with figures.json to the cent.
func meetsFigures(t *testing.T, name string, f *excelize.File, in report.Input) {
	t.Helper()
	data, err := figuresjson.Month(in.Month)
	require.NoError(t, err)
	var figures struct {
		Pieces    []map[string]any
		Shelf     []map[string]any
		Statement map[string]any
		Stock     map[string]string
	}
	require.NoError(t, json.Unmarshal(data, &figures))
	cents := func(where, want, got string) {
		x, err := strconv.ParseFloat(got, 64)
		assert.NoError(t, err, "%s, %s", name, where)
		if shown := strconv.FormatFloat(x, 'f', 2, 64); shown != want && shown != "-0.00" ||
			shown == "-0.00" && want != "0.00" {
			t.Errorf("%s, %s: %s in figures.json, %s in the workbook", name, where, want, shown)
		}
	}
	column := in.Month.To.Name()
	statement := table(t, f, "Statement", "Line")
	for key, line := range map[string]string{"gross_receipts": "Gross receipts", "refunds": "less: refunds and returns",
		"net_receipts":        "Net receipts",
		"cost_of_pieces_sold": "less: cost of pieces sold", "gross_profit": "Gross profit on pieces sold", "selling_costs": "less: selling costs", "trips": "Trips",
		"equipment": "Equipment written off at once", "shelf_losses": "Shelf losses", "pieces_lost": "Pieces lost, at book cost", "other_income": "Other income",
		"net_profit": "Net profit", "part_payments_unfinished": "included above: part payments on unfinished work", "kept_or_donated": "not in it: pieces kept or donated, at book cost",
		"sales_tax_owed": "not in it: sales tax owed at the end"} {
		cents(key, figures.Statement[key].(string), statement[line][column])
	}
	for group, c := range figures.Statement["expenses"].(map[string]any) {
		cents(group, c.(string), statement[words.GroupLabel(group)][column])
	}
	stock := table(t, f, "Stock roll-forward", "Line")
	for key, line := range map[string]string{"opening": "Opening", "acquired": "Acquired", "parts": "Parts",
		"outside_work": "Outside work", "supplies": "Supplies put in",
		"returned": "Returned", "sold": "less: sold", "removed": "less: removed unsold", "closing": "Closing"} {
		cents("stock "+key, figures.Stock[key], stock[line][column])
	}
	shelf := table(t, f, "Shelf", "Supply")
	for _, s := range figures.Shelf {
		for key, head := range map[string]string{"opening": "Opening", "bought": "Bought", "used": "Used", "lost": "Lost",
			"closing": "Closing"} {
			cents(fmt.Sprint(s["supply"], " ", key), s[key].(string), shelf[s["supply"].(string)][head])
		}
	}
	pieces := table(t, f, "Pieces", "Piece")
	for _, p := range figures.Pieces {
		for key, head := range map[string]string{"receipts": "Receipts", "held": "Part payments held",
			"acquisition": "Acquisition", "parts": "Parts", "outside_work": "Outside work",
			"supplies": "Supplies", "supplies_staying": "Supplies staying", "book_cost": "Book cost", "selling_costs": "Selling costs", "trips": "Trips", "profit": "Profit before shop costs",
			"overhead": "Its shop costs", "profit_after_overhead": "Profit after shop costs",
			"sold_less_bought": "Sold less bought", "profit_per_hour": "An hour before shop costs",
			"profit_per_hour_after_overhead": "An hour after shop costs"} {
			if want, there := p[key].(string); there {
				cents(fmt.Sprint(p["piece"], " ", key), want, pieces[p["piece"].(string)][head])
			} else {
				assert.Empty(t, pieces[p["piece"].(string)][head], "%s %v %s", name, p["piece"], key)
			}
		}
	}
}

// pythonWith skips where Python is not there with a module, as needs does.
func pythonWith(t *testing.T, module string) string {
	t.Helper()
	for _, python := range []string{"/usr/bin/python3", "python3"} {
		if exec.Command(python, "-c", "import "+module).Run() == nil {
			return python
		}
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("Python with %s is not installed, and CI must not skip this", module)
	}
	t.Skipf("Python with %s is not installed", module)
	return ""
}

// openpyxlDump prints every cell that is not empty, in both ways of reading.
const openpyxlDump = `
import sys, openpyxl
for read_only in (False, True):
    book = openpyxl.load_workbook(sys.argv[1], data_only=True, read_only=read_only)
    for sheet in book.worksheets:
        for y, row in enumerate(sheet.iter_rows(values_only=True), 1):
            for x, v in enumerate(row, 1):
                if v is not None and v != "":
                    kind = "n" if isinstance(v, (int, float)) else "d" if hasattr(v, "year") else "s"
                    print(read_only, sheet.title, x, y, kind, repr(v), sep="\t")
`

// Goal: a reader that works nothing out sees every result, whichever way it
// reads, dates as dates and words as words. Method: openpyxl.
func TestOpenpyxlReadsTheMonthBook(t *testing.T) {
	python := pythonWith(t, "openpyxl")
	path := filepath.Join(t.TempDir(), "month.xlsx")
	require.NoError(t, os.WriteFile(path, monthBook(t, testkit.Input(t, filepath.Join("..", "..", "..", "sample"),
		calendar.MonthOf(2026, 2))), 0o644))
	out, err := exec.Command(python, "-c", openpyxlDump, path).Output()
	require.NoError(t, err)
	seen := map[string]map[string]string{"False": {}, "True": {}} // by way, then cell
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		p := strings.SplitN(line, "\t", 6)
		x, _ := strconv.Atoi(p[2])
		y, _ := strconv.Atoi(p[3])
		cell, err := excelize.CoordinatesToCellName(x, y)
		require.NoError(t, err)
		seen[p[0]][p[1]+"!"+cell] = p[4] + p[5]
	}
	require.Equal(t, seen["False"], seen["True"])
	f := openedFile(t, path)
	formulas := 0
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		require.NoError(t, err)
		for i, row := range rows {
			for j, want := range row {
				cell, _ := excelize.CoordinatesToCellName(j+1, i+1)
				got := seen["True"][sheet+"!"+cell]
				formula, _ := f.GetCellFormula(sheet, cell)
				if want == "" || strings.HasPrefix(got, "s") || strings.HasPrefix(got, "d") {
					continue
				}
				if formula != "" {
					formulas++
				}
				if !sameValue(want, strings.TrimPrefix(got, "n")) {
					t.Fatalf("%s!%s: %s here, %s there", sheet, cell, want, got)
				}
			}
		}
	}
	assert.Greater(t, formulas, 2000)
	assert.Contains(t, seen["True"]["Cover!C4"], "OK")
	assert.True(t, strings.HasPrefix(seen["True"]["Postings!B10"], "d"), "a date is a date: %s",
		seen["True"]["Postings!B10"])
}
