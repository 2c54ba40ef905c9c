package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/report/testkit"
)

// walk is an owner at work in an empty folder: what is typed, and every screen.
type walk struct {
	t       *testing.T
	home    string // where the test runs
	screens strings.Builder
}

func newWalk(t *testing.T) *walk {
	home, err := os.Getwd()
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	return &walk{t: t, home: home}
}

// does notes what the owner does beside the program.
func (k *walk) does(what string) { k.screens.WriteString("\n# " + what + "\n") }

// types runs a command and keeps its screen.
func (k *walk) types(args ...string) {
	shown := make([]string, len(args))
	for i, a := range args {
		if shown[i] = a; strings.Contains(a, " ") {
			shown[i] = fmt.Sprintf("%q", a)
		}
	}
	fmt.Fprintf(&k.screens, "\n$ piecebook %s\n", strings.Join(shown, " "))
	w := terminal.Console{In: strings.NewReader(""), Out: &k.screens, Err: &k.screens,
		Env:        func(string) string { return "" },
		ProgramDir: "."}
	if status := commands.Run(args, w); status != cli.ExitDone {
		fmt.Fprintf(&k.screens, "[exit status %d]\n", status)
	}
}

// marks are short forms of records' bytes, which differ by the program that
// saved the workbook.
var marks = regexp.MustCompile(`\b[0-9a-f]{12}\b`)

// ends compares all screens with the golden file.
func (k *walk) ends(name string) {
	k.t.Chdir(k.home)
	testkit.Golden(k.t, "walk/"+name+".txt", strings.ReplaceAll(marks.ReplaceAllString(k.screens.String(), "(mark)"), `\`,
		"/"))
}

// pastes puts the settings lines that check proposes below those there are.
func (k *walk) pastes(books string) {
	var out bytes.Buffer
	commands.Run([]string{"--books", books, "--json", "check"}, terminal.Console{Out: &out, Err: &out,
		Env: func(string) string { return "" }})
	var answer struct {
		Settings []string `json:"settings"`
	}
	require.NoError(k.t, json.Unmarshal(out.Bytes(), &answer), out.String())
	k.does("pastes the lines into settings.toml")
	dir := books
	if info, err := os.Stat(books); err == nil && !info.IsDir() {
		dir = filepath.Dir(books)
	}
	name := filepath.Join(dir, "settings.toml")
	before, err := os.ReadFile(name)
	if !errors.Is(err, fs.ErrNotExist) {
		require.NoError(k.t, err)
	}
	require.NoError(k.t, os.WriteFile(name, []byte(string(before)+strings.Join(answer.Settings, "\n")+"\n"), 0o644))
}

// fills types cells into a workbook and saves it, in the office program where
// one is installed, else by the library: the screens are the same. Each cell is a
// sheet, its address and what is typed.
func (k *walk) fills(name, what string, cells ...[3]any) {
	k.does(what)
	if officeTypes(k.t, name, cells) {
		return
	}
	book, err := excelize.OpenFile(name)
	require.NoError(k.t, err)
	for _, c := range cells {
		require.NoError(k.t, book.SetCellValue(c[0].(string), c[1].(string), c[2]))
	}
	require.NoError(k.t, book.Save())
	require.NoError(k.t, book.Close())
}

// row is values of one row from column A on; nil leaves a cell as it is.
func row(sheet string, n int, values ...any) (out [][3]any) {
	for i, v := range values {
		if v != nil {
			out = append(out, [3]any{sheet, fmt.Sprintf("%c%d", 'A'+i, n), v})
		}
	}
	return out
}

func rows(all ...[][3]any) (out [][3]any) {
	for _, r := range all {
		out = append(out, r...)
	}
	return out
}

// The walk of an owner with the starter workbook: from an empty folder over
// two months and a correction to the year handed over. Days are as a
// spreadsheet keeps them; 46082 is 2026-03-01.
func TestWalkWithTheWorkbook(t *testing.T) {
	k := newWalk(t)
	book := filepath.Join("books", "records", "Shop book.xlsx")
	k.types()
	k.types("start", "books")
	k.types("--books", "books", "check")
	k.fills(book, "fills in March, with a slip in a price, and saves it in the office program", rows(
		row("Pieces", 4, "P001", "dresser", "oak, three drawers", 46082, "4o", 31.5, "Painted", 46090),
		row("Pieces", 5, "P002", "side chair", nil, 46083, 12.5, 14, nil, 46091, 46110, 55, "3"),
		row("Supplies", 2, "Primer"), row("Supplies", 6, "Cleaner"), row("Supplies", 7, "White paint"),
		row("Supplies", 3, "Sandpaper 120"), row("Supplies", 9, "Clear coat"),
		row("Schedules", 2, "Painted"), row("Schedules", 3, "Painted"), row("Schedules", 4, "Painted"),
		row("Schedules", 5, "Painted"), row("Schedules", 6, "Painted"),
		row("Purchases", 4, 46083, "Primer", 1, 18.99, 1.2), row("Purchases", 5, 46083, "White paint", 1, 24),
		row("Purchases", 6, 46083, "Sandpaper 120", 1, 21.4), row("Purchases", 7, 46083, "Clear coat", 1, 27.5),
		row("Purchases", 8, 46083, "Cleaner", 1, 9.9),
		row("Hours", 4, 46086, "P001", "2:30", "strip"), row("Hours", 5, 46087, "P001; P002", 1.5, "sand"),
		row("Sales", 4, 46109, "P001", "Market", 240, 24))...)
	k.types("--books", "books", "check")
	k.fills(book, "puts the price right", row("Pieces", 4, nil, nil, nil, nil, 40)...)
	k.types("--books", "books", "check")
	k.types("--books", "books", "month")
	k.types("--books", "books", "close", "2026-03")
	k.fills(book, "finds the receipt: the dresser was 42; and fills in April", rows(
		row("Pieces", 4, nil, nil, nil, nil, 42),
		row("Pieces", 6, "P003", "dresser", "pine", 46115, 30, 28, "Painted", 46125),
		row("Hours", 6, 46120, "P003", 5, "paint"), row("Sales", 5, 46135, "P003", "Market", 200, 20),
		row("Counts", 4, 46142, "Primer", 0.25))...)
	k.types("--books", "books", "check")
	k.types("--books", "books", "month")
	k.types("--books", "books", "kinds")
	k.types("--books", "books", "offer", "--kind", "dresser", "--asked", "45")
	k.types("--books", "books", "year", "2026")
	k.types("--books", "books", "handover", "2026")
	t.Chdir("books")
	k.types()
	k.types("--plain", "sheet", "P001", "--text")
	k.ends("workbook")
}

// The walk of an owner whose one sheet stands beside the program, and is
// dropped on it.
func TestWalkWithOneSheet(t *testing.T) {
	k := newWalk(t)
	book := excelize.NewFile()
	require.NoError(t, book.SetSheetName("Sheet1", "Flips"))
	for i, line := range [][]any{{"My flips 2026"}, {"#", "Item", "Date bought", "Paid", "Date sold", "Sold for", "Site",
		"Fees", "Hrs"},
		{1, "Dresser", 46028, 40, 46067, "$285.00", "Marketplace", nil, 11.5},
		{2, "Nightstand", 46031, 15, 46055, 75, "Marketplace", nil, 3},
		{3, "Desk", 46047, 60, nil, nil, nil, nil, 6},
		{4, "Dresser", 46056, 25, 46081, 160, "Booth", 24, "7:30"}} {
		require.NoError(t, book.SetSheetRow("Flips", fmt.Sprintf("A%d", i+1), &line))
	}
	require.NoError(t, book.SaveAs("Flips 2026.xlsx"))
	k.types("Flips 2026.xlsx")
	k.pastes("Flips 2026.xlsx")
	k.types("Flips 2026.xlsx")
	k.pastes("Flips 2026.xlsx")
	k.types("Flips 2026.xlsx")
	k.types("--books", "Flips 2026.xlsx", "kinds")
	k.types("--books", "Flips 2026.xlsx", "offer", "--kind", "dresser")
	k.ends("one-sheet")
}

// metricShop is an owner's own CSV files: the day first, decimal commas,
// square metres, semicolons, and a file named in another language.
var metricShop = map[string]string{
	"Möbel.csv": "Nr;Art;gekauft am;Preis;Fläche m2;fertig am;verkauft am;Verkaufspreis;Stunden\n",
	"pieces.csv": "no;kind;date bought;price;area sq m;finished;sold on;sold for;hours\n" +
		"M1;dresser;03.02.2026;45,00;2,9;14.02.2026;21.02.2026;260,00;9,5\n" +
		"M2;chair;05.02.2026;8,50;1,1;16.02.2026;28.02.2026;55,00;2:30\nM3;chair;05.02.2026;8,50;1,1;;;;1,25\n",
	"supplies.csv":  "name;group;size;covers m2\nGrundierung;primer;750 ml;9\nKreidefarbe weiß;paint;500 ml;6\n",
	"purchases.csv": "date;supply;number;cost\n04.02.2026;Grundierung;1;19,95\n04.02.2026;Kreidefarbe weiß;2;41,80\n",
	"uses.csv":      "date;pieces;supply;coats\n10.02.2026;M1;Grundierung;1\n12.02.2026;M1,M2;Kreidefarbe weiß;2\n",
}

// The walk of an owner with CSV files in a day-first, decimal-comma, metric
// form.
func TestWalkWithMetricFiles(t *testing.T) {
	k := newWalk(t)
	require.NoError(t, os.Mkdir("Werkstatt", 0o755))
	for name, text := range metricShop {
		require.NoError(t, os.WriteFile(filepath.Join("Werkstatt", name), []byte(text), 0o644))
	}
	k.types("--books", "Werkstatt", "check")
	k.pastes("Werkstatt")
	k.types("--books", "Werkstatt", "check")
	k.types("--books", "Werkstatt", "month", "2026-02")
	k.types("--books", "Werkstatt", "why", "M1", "supplies")
	k.types("--books", "Werkstatt", "area")
	k.types("--books", "Werkstatt", "cards", "--paper", "a4")
	k.types("--books", "Werkstatt", "year", "2026")
	k.ends("metric-files")
}
