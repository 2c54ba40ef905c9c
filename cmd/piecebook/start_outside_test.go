package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
	ledgerkit "piecebook/ledger/testkit"
)

// smallShop is a shop as its owner would type it into the starter workbook:
// the sheet, its columns, and a line each. Numbers stand for dates and amounts
// as a spreadsheet keeps them; 46082 is 2026-03-01.
var smallShop = []struct {
	sheet   string
	columns string
	rows    [][]any
}{
	{"Pieces", "ABMDEQRF", [][]any{
		{"0012", "dresser", "bought", 46082, 40, nil, nil, 31.5},
		{"1E5", "side chair", nil, nil, nil, "L1", 30, 15},
		{"12-5", "side chair", nil, nil, nil, "L1", 20, 15},
		{"P4", "bookcase", "free", 46083, nil, nil, nil, 75},
		{"P5", "coffee table", "client", 46084, nil, nil, nil, 16}}},
	{"Lots", "ABCG", [][]any{{"L1", 46083, 50, 7.5}}},
	{"Supplies", "ABCDE", [][]any{{"Primer", "primer", "1 qt", nil, "100"}, {"Sandpaper 120", "abrasive", "50 sheets", nil, "400"}, {"Gloves", "protective", "100 each", "hours", "50"}}},
	{"Purchases", "ABCDE", [][]any{{46083, "Primer", 2, 37.98, 3.13}, {46083, "Sandpaper 120", 1, 21.4, nil}, {46083, "Gloves", 1, 12.99, 1.07}}},
	{"Uses", "ABCEF", [][]any{{46086, "0012; 1E5; 12-5", "Primer", 2, nil}, {46087, "P4", "Primer", nil, "8 fl oz"}, {46087, "L1", "Sandpaper 120", 3, nil}, {46087, "P5", "Gloves", nil, nil}}},
	{"Hours", "ABCD", [][]any{{46086, "0012", "2:30", "strip"}, {46087, "1E5; 12-5", 1.5, "sand"}, {46088, "P5", 0.1, "look"}}},
	{"Sales", "ABCDE", [][]any{{46108, "0012", "Market", 210, 21}, {46109, "1E5", "Direct", 65.5, nil}}},
	{"Counts", "ABC", [][]any{{46112, "Primer", "1/2"}}},
	{"Expenses", "ABCD", [][]any{{46082, "booth", "booth rent", 120}}},
}

// filledIn lays out a books folder and fills the small shop in.
func filledIn(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "books")
	require.Equal(t, cli.ExitDone, commands.Run([]string{"start", dir}, terminal.Console{Out: io.Discard,
		Err: io.Discard,
		Env: os.Getenv}))
	name := filepath.Join(dir, "records", "Shop book.xlsx")
	book, err := excelize.OpenFile(name)
	require.NoError(t, err)
	for _, s := range smallShop {
		for i, row := range s.rows {
			for j, value := range row {
				cell, err := excelize.JoinCellName(s.columns[j:j+1], 4+i)
				require.NoError(t, err)
				if value != nil {
					require.NoError(t, book.SetCellValue(s.sheet, cell, value))
				}
			}
		}
	}
	require.NoError(t, book.Save())
	require.NoError(t, book.Close())
	return dir
}

// figuresOf are the figures of March 2026, which are there only where nothing
// in the records is wrong.
func marchFigures(t *testing.T, dir string) string {
	t.Helper()
	var out, printed bytes.Buffer
	status := commands.Run([]string{"--books", dir, "--json", "month", "2026-03"}, terminal.Console{Out: &out,
		Err: &printed,
		Env: os.Getenv})
	require.Equal(t, cli.ExitDone, status, printed.String())
	return out.String()
}

// The starter workbook filled in makes a month: pieces by the numbers they
// were typed with, the lot shared, what was sold sold.
func TestStarterMakesAMonth(t *testing.T) {
	figures := marchFigures(t, filledIn(t))
	for _, piece := range []string{"0012", "1E5", "12-5", "P4", "P5"} {
		assert.Contains(t, figures, `"piece": "`+piece+`"`)
	}
	assert.Contains(t, figures, `"gross_receipts": "275.50"`) // 210.00 + 65.50
	assert.Contains(t, figures, `"acquired": "97.50"`)        // 40.00 + 50.00 + 7.50
	assert.Contains(t, figures, `"hours": "2.5"`)
}

// LibreOffice opens the filled-in workbook, saves it, and the same figures are
// read from what it saved, byte for byte.
func TestStarterThroughLibreOffice(t *testing.T) {
	ledgerkit.Needs(t, "libreoffice")
	dir := filledIn(t)
	want := marchFigures(t, dir)
	name := filepath.Join(dir, "records", "Shop book.xlsx")
	before, err := os.ReadFile(name)
	require.NoError(t, err)
	saved := t.TempDir()
	command := exec.Command("libreoffice", "--headless", "-env:UserInstallation=file://"+
		filepath.ToSlash(filepath.Join(t.TempDir(), "profile")),
		"--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", saved, name)
	printed, err := command.CombinedOutput()
	require.NoError(t, err, string(printed))
	after, err := os.ReadFile(filepath.Join(saved, "Shop book.xlsx"))
	require.NoError(t, err, string(printed))
	require.False(t, bytes.Equal(before, after), "LibreOffice writes its own bytes")
	lists := choiceLists(t, name)
	assert.Len(t, lists, 39)
	require.NoError(t, os.WriteFile(name, after, 0o644))
	require.Equal(t, want, marchFigures(t, dir))
	assert.Equal(t, lists, choiceLists(t, name))
	keepsNotesAndFormats(t, name)
}

// choiceLists are the choices of each column, by where they begin: where they
// draw from, and how another word is met. A stop would be wrong anywhere.
func choiceLists(t *testing.T, name string) map[string]string {
	t.Helper()
	book, err := excelize.OpenFile(name)
	require.NoError(t, err)
	defer func() { require.NoError(t, book.Close()) }()
	lists := map[string]string{}
	for _, sheet := range book.GetSheetList() {
		validations, err := book.GetDataValidations(sheet)
		require.NoError(t, err)
		for _, v := range validations {
			require.NotNil(t, v.ErrorStyle)
			assert.NotEqual(t, "stop", *v.ErrorStyle, "%s %s", sheet, v.Sqref)
			first, _, _ := strings.Cut(v.Sqref, ":")
			// LibreOffice leaves out quotation marks that need not be.
			lists[sheet+" "+first] = fmt.Sprint(strings.ReplaceAll(v.Formula1, "'", ""), *v.ErrorStyle, v.ShowErrorMessage)
		}
	}
	return lists
}

// keepsNotesAndFormats looks at what LibreOffice saved: every header still has
// its note, and piece numbers are kept as text far below the last row.
func keepsNotesAndFormats(t *testing.T, name string) {
	t.Helper()
	book, err := excelize.OpenFile(name)
	require.NoError(t, err)
	defer func() { require.NoError(t, book.Close()) }()
	notes := 0
	for _, sheet := range book.GetSheetList() {
		comments, err := book.GetComments(sheet)
		require.NoError(t, err)
		notes += len(comments)
	}
	assert.Equal(t, 173, notes)
	id, err := book.GetCellStyle("Pieces", "A700")
	require.NoError(t, err)
	style, err := book.GetStyle(id)
	require.NoError(t, err)
	if style.CustomNumFmt != nil {
		assert.Equal(t, "@", *style.CustomNumFmt)
	} else {
		assert.Equal(t, 49, style.NumFmt)
	}
}
