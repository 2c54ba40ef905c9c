// Package smallbooks is for tests only: books folders of a few lines, given as
// texts by file name, and read.
package smallbooks

import (
	"bytes"
	"fmt"
	"maps"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
	"piecebook/templates"
)

// Base is books without a problem.
var Base = map[string]string{
	"records/pieces.csv":   "piece,kind,got_on,price,area\nP1,dresser,2026-01-05,40,30\nP2,chair,2026-01-06,15,12\n",
	"records/supplies.csv": "supply,group,container,coverage\nPrimer,primer,1 qt,100\nPaper,abrasive,50 sheets,400\n",
}

// Pieces is a one-row file.
func Pieces(head, row string) map[string]string {
	return map[string]string{"records/pieces.csv": head + "\n" + row + "\n"}
}

// File is one file among the records.
func File(name, text string) map[string]string { return map[string]string{"records/" + name: text} }

// Settings is a settings.toml.
func Settings(text string) map[string]string { return map[string]string{"settings.toml": text} }

// UsesHead is a first line of Uses.
const UsesHead = "used_on,pieces,supply,schedule,area,coats,amount\n"

// Workbook makes a one-sheet workbook as bytes.
func Workbook(sheet string, fill func(*excelize.File)) string {
	f := excelize.NewFile()
	_ = f.SetSheetName("Sheet1", sheet)
	fill(f)
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		panic(err)
	}
	return b.String()
}

// Row fills the first sheet's row from column A.
func Row(f *excelize.File, number int, cells ...any) {
	_ = f.SetSheetRow(f.GetSheetName(0), fmt.Sprintf("A%d", number), &cells)
}

// Tables are the templates, loaded once.
var Tables = sync.OnceValues(templates.Load)

// Folder is Base with some files replaced; one without text is left out.
func Folder(files map[string]string) fstest.MapFS {
	folder := fstest.MapFS{}
	all := maps.Clone(Base)
	maps.Copy(all, files)
	for name, text := range all {
		if text != "" {
			folder[name] = &fstest.MapFile{Data: []byte(text)}
		}
	}
	return folder
}

// Read reads Base with some files replaced.
func Read(t testing.TB, files map[string]string) *intake.Result {
	t.Helper()
	set, err := Tables()
	require.NoError(t, err)
	return intake.Read(Folder(files), set)
}

// NoErrors fails on any error and returns the notes' codes.
func NoErrors(t testing.TB, res *intake.Result) []fault.Code {
	t.Helper()
	for _, p := range res.Problems.Errors() {
		t.Error(p)
	}
	var notes []fault.Code
	for _, p := range res.Problems.Notes() {
		notes = append(notes, p.Code)
	}
	return notes
}
