package shapes

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
)

// Goal: a workbook damaged anywhere is reported; none of its rows may go missing
// without a word. Method: one good workbook with one part spoilt at a time.
func TestDamagedWorkbooksAreTold(t *testing.T) {
	good := workbook("Equipment", func(f *excelize.File) {
		row(f, 1, "bought_on", "what", "cost")
		for i := range 40 {
			row(f, i+2, "2026-01-05", "saw", 10)
		}
	})
	require.Empty(t, noErrors(t, read(t, map[string]string{"records/b.xlsx": good})))
	sheet := part(t, good, "xl/worksheets/sheet1.xml")
	texts := part(t, good, "xl/sharedStrings.xml")
	for name, b := range map[string][]byte{
		"a sheet cut in two": repack(good, "xl/worksheets/sheet1.xml", sheet[:len(sheet)/2]),
		"a sheet spoilt inside": repack(good, "xl/worksheets/sheet1.xml", bytes.Replace(sheet, []byte(`<row r="9"`),
			[]byte(`<row r="9`), 1)),
		"a sheet that is empty":     repack(good, "xl/worksheets/sheet1.xml", nil),
		"a sheet that is not there": without(good, "xl/worksheets/sheet1.xml"),
		"texts cut in two":          repack(good, "xl/sharedStrings.xml", texts[:len(texts)/2]),
		"texts that are too few": repack(good, "xl/sharedStrings.xml",
			[]byte(`<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>bought_on</t></si></sst>`)),
		"texts that are not there": without(good, "xl/sharedStrings.xml"),
		"a list without sheets": repack(good, "xl/workbook.xml",
			[]byte(`<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheets></sheets></workbook>`)),
		"a list cut in two":         repack(good, "xl/workbook.xml", []byte(`<workbook><sheets><sheet`)),
		"links that are not there":  without(good, "xl/_rels/workbook.xml.rels"),
		"a file cut in two":         []byte(good[:len(good)/2]),
		"a byte of a sheet changed": spoilt(t, good, "xl/worksheets/sheet1.xml"),
	} {
		res := read(t, map[string]string{"records/b.xlsx": string(b)})
		require.True(t, res.Problems.HasErrors(), "%s: %d rows read and not a word", name, len(res.Books.Equipment))
		for _, p := range res.Problems.Errors() {
			require.Contains(t, []fault.Code{fault.CodeFileNotRead}, p.Code, "%s: %s", name, p)
		}
	}
}

// A sheet cut between two tags looks whole to a careless reader.
func TestSheetCutAnywhereIsTold(t *testing.T) {
	good := workbook("Equipment", func(f *excelize.File) {
		row(f, 1, "bought_on", "what", "cost")
		row(f, 2, "2026-01-05", "saw", 10)
	})
	sheet := part(t, good, "xl/worksheets/sheet1.xml")
	for at := range len(bytes.TrimSpace(sheet)) {
		res := read(t, map[string]string{"records/b.xlsx": string(repack(good, "xl/worksheets/sheet1.xml", sheet[:at]))})
		require.True(t, res.Problems.HasErrors(), "cut at %d", at)
	}
}

// part is the bytes of one part of a workbook.
func part(t *testing.T, b, name string) []byte {
	z, err := zip.NewReader(strings.NewReader(b), int64(len(b)))
	require.NoError(t, err)
	f, err := z.Open(name)
	require.NoError(t, err)
	var out bytes.Buffer
	_, err = out.ReadFrom(f)
	require.NoError(t, err)
	return out.Bytes()
}

// without is a workbook with one part left out.
func without(b, name string) []byte {
	spare := repack(b, name, nil)
	z, err := zip.NewReader(bytes.NewReader(spare), int64(len(spare)))
	if err != nil {
		panic(err)
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range z.File {
		if f.Name != name {
			if err := w.Copy(f); err != nil {
				panic(err)
			}
		}
	}
	_ = w.Close()
	return out.Bytes()
}

// spoilt is a workbook with a figure of a stored part changed without the knowledge
// of its check sum.
func spoilt(t *testing.T, b, name string) []byte {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	z, err := zip.NewReader(strings.NewReader(b), int64(len(b)))
	require.NoError(t, err)
	for _, f := range z.File {
		to, err := w.CreateHeader(&zip.FileHeader{Name: f.Name, Method: zip.Store})
		require.NoError(t, err)
		fmt.Fprintf(to, "%s", part(t, b, f.Name))
	}
	require.NoError(t, w.Close())
	require.Contains(t, out.String(), "<v>10</v>", name)
	return bytes.Replace(out.Bytes(), []byte("<v>10</v>"), []byte("<v>90</v>"), 1)
}
