package sheets

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
)

// Goal: plain files are split into cells as others split them. Method:
// csv-spectrum 2.0.0 (npm, BSD-2-Clause; testdata/csv-spectrum/README.md), each
// file against the JSON published with it. Line breaks within a cell stay as
// they are, CRLF too.
func TestCSVSpectrum(t *testing.T) {
	files, err := filepath.Glob("testdata/csv-spectrum/*.csv")
	require.NoError(t, err)
	require.Len(t, files, 11)
	for _, file := range files {
		b, err := os.ReadFile(file)
		require.NoError(t, err)
		text, guessed, err := Decode(b)
		require.NoError(t, err, file)
		require.False(t, guessed, file)
		var problems fault.List
		lines, _ := splitText(text, fault.Place{File: file}, func(string) bool { return false }, &problems)
		require.Empty(t, problems.All(), file)
		got := []map[string]string{}
		for _, l := range lines[1:] {
			row := map[string]string{}
			for i, name := range lines[0].Cells {
				row[name] = l.Cells[i]
			}
			require.Len(t, l.Cells, len(lines[0].Cells), file)
			got = append(got, row)
		}
		var want []map[string]string
		b, err = os.ReadFile(strings.TrimSuffix(file, ".csv") + ".json")
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(b, &want))
		require.Equal(t, want, got, file)
	}
}

// Rows of papaparse 5.7.1's own tests (npm, MIT: tests/test-cases.js), written
// there as input and fields. Where ours differs it says why.
func TestCellsAsOthersPartThem(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
		code fault.Code
	}{
		{"a,\tb ,c", []string{"a", "\tb ", "c"}, ""},
		{`A,"B""B""B",C`, []string{"A", `B"B"B`, "C"}, ""},
		{`A,""",""",C`, []string{"A", `","`, "C"}, ""},
		{`A,B",C`, []string{"A", `B"`, "C"}, ""},
		{`A, "B" ,C`, []string{"A", "B", "C"}, ""}, // there ` "B" `: a blank before a quoted cell is no text here
		{`A, "B, D" ,C`, []string{"A", "B, D", "C"}, ""},
		{`A, "B" D,C`, []string{"A", ` "B" D`, "C"}, ""},
		{"a,\"b,c\nd,e,f", nil, fault.CodeQuoteNotClosed},
		{"\"a,\"b,c\"\nd,e,f", nil, fault.CodeStrayQuote},
		{`a,"b"c,d`, nil, fault.CodeStrayQuote},
	} {
		var problems fault.List
		lines, _ := splitText(c.text, fault.Place{File: "x"}, func(string) bool { return false }, &problems)
		if c.code != "" {
			require.True(t, lines[0].Broken, c.text)
			require.Equal(t, c.code, problems.All()[0].Code, c.text)
			continue
		}
		require.Empty(t, problems.All(), c.text)
		require.Equal(t, c.want, lines[0].Cells, c.text)
	}
}
