package intake_test

import (
	"maps"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/intake"
)

// pasted reads records again with what was proposed pasted into settings.toml,
// which must be written as settings are.
func pasted(t *testing.T, files map[string]string) (first, second *intake.Result) {
	t.Helper()
	first = read(t, files)
	block := strings.Join(first.SettingsLines(), "\n") + "\n"
	var values map[string]any
	_, err := toml.Decode(block, &values)
	require.NoError(t, err, block)
	with := maps.Clone(files)
	with["settings.toml"] = block
	return first, read(t, with)
}

// nothing is the base's files taken away.
func nothing(files map[string]string) map[string]string {
	all := map[string]string{"records/pieces.csv": "", "records/supplies.csv": ""}
	maps.Copy(all, files)
	return all
}

// Goal: an owner's own one-sheet spreadsheet is read once what was proposed is
// pasted. Method: headers as people write them, in a workbook with a sheet
// name that says nothing.
func TestOwnSheetIsReadOnceProposalIsPasted(t *testing.T) {
	book := workbook("Sheet1", func(f *excelize.File) {
		row(f, 1, "Item #", "What is it", "Type", "Where from", "Bought", "Paid ($)", "Hrs", "Where sold", "Sold", "Sold for",
			"Fees", "Profit")
		row(f, 2, "1", "Oak, three drawers", "Dresser", "Estate sale", "1/5/2026", 40, 12.5, "Market", "2/14/2026", 295,
			29.5, 225.5)
		row(f, 3, "2", "Rocker", "Chair", "Curb", "1/6/2026", 15, "3h 15m", nil, nil, nil, nil, nil)
		row(f, 4, "Total", nil, nil, nil, nil, 55, 15.75, nil, nil, 295, 29.5, nil)
	})
	first, second := pasted(t, nothing(file("My flips 2026.xlsx", book)))
	require.Empty(t, first.Books.Pieces, "nothing is taken on a guess")
	require.Equal(t, []string{"[sheets]", `"Sheet1" = "pieces"`}, first.SettingsLines())
	noErrors(t, second)
	require.Len(t, second.Books.Pieces, 2)
	require.Len(t, second.Books.Sales, 1)
	require.Len(t, second.Books.Hours, 2)
	p, s := second.Books.Pieces[0], second.Books.Sales[0]
	require.Equal(t, []string{"1", "Dresser", "Oak, three drawers", "Estate sale", "40.00", "2026-01-05"},
		[]string{p.ID, p.Kind, p.Description, p.From, p.Price.String(), p.GotOn.String()})
	require.Equal(t, []string{"Market", "295.00", "29.50", "2026-02-14"}, []string{s.Channel, s.Price.String(),
		s.Fee.String(), s.On.String()})
	require.Equal(t, 1, second.Tally[0].NotRecord)
}

// Goal: each kind of proposal cures what it was made for.
func TestProposalsCureTheirProblem(t *testing.T) {
	for name, c := range map[string]struct {
		files map[string]string
		lines []string
	}{
		"day first and decimal comma": {file("hours.csv", "worked_on;hours\n13/2/2026;1,5\n2/3/2026;2\n"),
			[]string{"# Above all lines in [brackets]; a line of the same name is replaced:", `dates = "dmy"`,
				"decimal_comma = true"}},
		"metric": {nothing(file("pieces.csv", "piece,kind,got_on,price,area (sq m)\nP1,desk,2026-01-05,40,3\n")),
			[]string{"# Above all lines in [brackets]; a line of the same name is replaced:", `units = "metric"`}},
		"misspelt header": {file("hours.csv", "worked_on,hourz,piece\n2026-01-09,1,P1\n"), []string{"[columns.hours]", `"hourz" = "hours"`}},
		"quotes in a header": {file("hours.csv", "worked_on,\"\"\"My\"\" hours\",piece\n2026-01-09,1,P1\n"),
			[]string{"[columns.hours]", `'"My" hours' = "hours"`}},
		"one that it must be": {file("hours.csv", "worked_on,Labor\n2026-01-09,2:30\n"), []string{"[columns.hours]", `"Labor" = "hours"`}},
		"prices in a column of days": {file("sales.csv",
			"item,date sold,sold,channel\nP1,2026-02-01,90,x\nP2,2026-02-01,90,x\nP1,2026-02-03,100,x\n"),
			[]string{"[columns.sales]", `"sold" = "price"`}},
		"two numbers":          {nothing(file("pieces.csv", "No,Item,Type,Bought,Paid\nP1,Oak desk,desk,2026-01-05,40\n")), []string{"[columns.pieces]", `"Item" = "description"`}},
		"a table with a space": {file("sent in.csv", "date,quarter,amount,allowance\n2026-01-20,Q4,5,0.10\n"), []string{"[sheets]", `"sent in" = "tax paid"`}},
	} {
		first, second := pasted(t, c.files)
		require.Equal(t, c.lines, first.SettingsLines(), name)
		noErrors(t, second)
	}
}

// Two sheets of one name that fit two tables are distinguished by their files.
func TestSheetsOfOneNameAreNamedWithTheirFile(t *testing.T) {
	sheet1 := func(rows ...[]any) string {
		return workbook("Sheet1", func(f *excelize.File) {
			for i, cells := range rows {
				row(f, i+1, cells...)
			}
		})
	}
	first, second := pasted(t, nothing(map[string]string{
		"records/flips.xlsx": sheet1([]any{"Item", "Type", "Bought", "Paid"}, []any{"P1", "desk", "2026-01-05", 40}),
		"records/time.xlsx":  sheet1([]any{"Date", "Item", "Hours"}, []any{"2026-01-06", "P1", 4})}))
	require.Equal(t, []string{"[sheets]", `"flips, Sheet1" = "pieces"`, `"time, Sheet1" = "hours"`}, first.SettingsLines())
	noErrors(t, second)
	require.Len(t, second.Books.Pieces, 1)
	require.Len(t, second.Books.Hours, 1)
}

// What settings.toml maps to none is read over without a word.
func TestNoneIsReadOver(t *testing.T) {
	res := read(t, map[string]string{"settings.toml": "[sheets]\n\"Notes to self\" = " +
		"\"none\"\n[columns.hours]\n\"Weather\" = \"none\"\nTask = \"None\"\n",
		"records/Notes to self.csv": "Buy rags\n",
		"records/hours.csv":         "worked_on,hours,Weather,task\n2026-01-09,1,wet,sand\n"})
	require.Empty(t, res.Problems.All())
	require.Empty(t, res.Books.Hours[0].Task)
	require.Equal(t, 1, res.Tally[0].NotTable)
}

// Lines are put below a section that is there, since a second one of its name
// cannot be read.
func TestProposalsForSettingsThatAreThere(t *testing.T) {
	res := read(t, map[string]string{"settings.toml": "dates = \"mdy\"\n[columns.Hours]\n\"Wk\" = \"task\"\n",
		"records/hours.csv": "worked_on,hourz,Wk\n2026-01-09,1,sand\n",
		"records/trips.csv": "on,miles,purpose\n13/2/2026,5,fair\n",
		"records/flips.csv": "Date,Miles,Why\n2026-01-09,5,fair\n"})
	require.Equal(t, []string{"# Above all lines in [brackets]; a line of the same name is replaced:", `dates = "dmy"`,
		"# Below the line [columns.hours] that is there:", `"hourz" = "hours"`, "[sheets]", `"flips" = "trips"`},
		res.SettingsLines())
}

// Two lines of settings.toml that name one sheet or column are refused: which
// of them counts could change from run to run.
func TestSettingsThatNameOneThingTwice(t *testing.T) {
	res := read(t, map[string]string{"settings.toml": "[sheets]\n\"Sheet 1\" = \"hours\"\n\"sheet1\" = " +
		"\"trips\"\n[columns.hours]\n\"Wk #\" = \"task\"\n\"wk no\" = \"hours\"\n"})
	errs := res.Problems.Errors()
	require.Len(t, errs, 2)
	require.Contains(t, errs[0].Fix, `"Sheet 1" and "sheet1" name the same sheet`)
	require.Contains(t, errs[1].Fix, `"Wk #" and "wk no" name the same column`)
}
