package intake

import (
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"

	"piecebook/ledger/fault"
)

func TestDecodeText(t *testing.T) {
	utf16 := func(order unicode.Endianness, text string) string {
		s, err := unicode.UTF16(order, unicode.IgnoreBOM).NewEncoder().String(text)
		require.NoError(t, err)
		return s
	}
	for _, c := range []struct {
		bytes, text string
		guessed     bool
		why         string
	}{
		{"caf\u00e9", "caf\u00e9", false, ""},
		{"caf\xe9", "caf\u00e9", true, ""},
		{"\u00e9t\u00e9 \xe9t\xe9 \x80", "\u00e9t\u00e9 \u00e9t\u00e9 \u20ac", true, ""}, // one row by another program
		{"caf\u00e9 caf\xc3", "", false, halfText},
		{"caf\xc3", "caf\u00c3", true, ""}, // nothing says that it is UTF-8
		{"a,b\n\x1a", "a,b\n", false, ""},
		{utf16(unicode.LittleEndian, "worked_on,\u00e9"), "worked_on,\u00e9", false, ""},
		{utf16(unicode.BigEndian, "worked_on,\u00e9"), "worked_on,\u00e9", false, ""},
		{utf16(unicode.BigEndian, "worked_on,\u00e9")[:15], "", false, noText},
		{"\xff\xfe" + utf16(unicode.LittleEndian, "a")[:1], "", false, halfText},
		{"\xff\xfe\x00\x00a\x00\x00\x00", "", false, noText}, // UTF-32
		{"ab\x00c", "", false, noText},
		{"", "", false, ""},
	} {
		text, guessed, why := decodeText([]byte(c.bytes))
		require.Equal(t, c.text, text, "%q", c.bytes)
		require.Equal(t, c.guessed, guessed, "%q", c.bytes)
		require.Equal(t, c.why, why, "%q", c.bytes)
	}
}

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
	for text, want := range map[string]string{"sep=;\na;b": "a;b", "sep=,\r\na,b": "a,b", "\"sep=\t\"\ra\tb": "a\tb", "sep=;;;\nx": "x", "SEP=;": ""} {
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
	lines, _ := splitText("a,b\n1,\"x\n2,\"y\"\n3,z\n4,\"w\n", fault.Place{File: "x"}, func(string) bool { return false }, &problems)
	require.Len(t, lines, 5)
	for i, l := range lines {
		require.Equal(t, i+1, l.number)
		require.Equal(t, i == 1 || i == 4, l.broken, i)
	}
	require.Equal(t, []string{"2", "y"}, lines[2].cells)
	require.Len(t, problems.All(), 2)
}

// Rows put into quotation marks whole are read as what they hold.
func TestRowsInQuotesWhole(t *testing.T) {
	known := func(s string) bool { return s == "piece" || s == "kind" }
	var problems fault.List
	lines, _ := splitText("\"piece,kind\"\n\"P1,\"\"chair, oak\"\"\"\n\n\"P2,x\"\n", fault.Place{File: "x"}, known, &problems)
	lines = unwrapped(lines, known)
	require.Empty(t, problems.All())
	require.Equal(t, []line{{1, []string{"piece", "kind"}, false}, {2, []string{"P1", "chair, oak"}, false}, {4, []string{"P2", "x"}, false}}, lines)
}
