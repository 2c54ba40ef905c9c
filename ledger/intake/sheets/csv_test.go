package sheets

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
)

// The separator is that of the column names, wherever they stand.
func TestSeparator(t *testing.T) {
	known := func(s string) bool { return s == "piece" || s == "kind" || s == "price" }
	for text, want := range map[string]byte{
		"piece,kind":                             ',',
		"piece;kind;a, b, c, d":                  ';',
		"Pieces, bought and sold\n\npiece;price": ';',
		"My pieces\npiece\tkind\n":               '\t',
		"piece|kind":                             '|',
		"a;b":                                    ';',
		"a|b":                                    ',',
		"one":                                    ',',
		"\"x;y;z\",b":                            ',',
		"":                                       ',',
	} {
		require.Equal(t, string(want), string(separator(text, known)), text)
	}
	for text, want := range map[string]string{"sep=;\na;b": "a;b", "sep=,\r\na,b": "a,b", "\"sep=\t\"\ra\tb": "a\tb",
		"sep=;;;\nx": "x", "SEP=;": ""} {
		rest, sep := sepLine(text)
		require.NotZero(t, sep, text)
		require.Equal(t, want, rest, text)
	}
	for _, text := range []string{"sep=x\na", "sep\na", "september=;\n", "sep=\na"} {
		rest, sep := sepLine(text)
		require.Zero(t, sep, text)
		require.Equal(t, text, rest)
	}
}

// A quotation mark that is not closed costs its own row and no other, and the
// rows keep their numbers.
func TestOpenQuoteCostsItsRowOnly(t *testing.T) {
	var problems fault.List
	lines, _ := splitText("a,b\n1,\"x\n2,\"y\"\n3,z\n4,\"w\n", fault.Place{File: "x"}, func(string) bool { return false },
		&problems)
	require.Len(t, lines, 5)
	for i, l := range lines {
		require.Equal(t, i+1, l.Number)
		require.Equal(t, i == 1 || i == 4, l.Broken, i)
	}
	require.Equal(t, []string{"2", "y"}, lines[2].Cells)
	require.Len(t, problems.All(), 2)
}

// Rows put into quotation marks whole are read as what they hold.
func TestRowsInQuotesWhole(t *testing.T) {
	known := func(s string) bool { return s == "piece" || s == "kind" }
	var problems fault.List
	lines, _ := splitText("\"piece,kind\"\n\"P1,\"\"chair, oak\"\"\"\n\n\"P2,x\"\n", fault.Place{File: "x"},
		known, &problems)
	lines = unwrapped(lines, known)
	require.Empty(t, problems.All())
	require.Equal(t, []Line{{Number: 1, Cells: []string{"piece", "kind"}},
		{Number: 2, Cells: []string{"P1", "chair, oak"}}, {Number: 4, Cells: []string{"P2", "x"}}}, lines)
}
