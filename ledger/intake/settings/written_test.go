package settings

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/fault"
	"piecebook/templates"
)

// Lines are written below their section, in place of one of the same name, whatever
// stands there already; where they would say something else, nothing is written.
func TestWritten(t *testing.T) {
	lines := []Proposal{{Line: `dates = "dmy"`}, {Section: "columns.sales", Line: `"Amt" = "price"`},
		{Section: "sheets", Line: `"Flips" = "pieces"`}}
	for text, want := range map[string]string{
		"": "dates = \"dmy\"\n\n[columns.sales]\n\"Amt\" = \"price\"\n\n[sheets]\n\"Flips\" = \"pieces\"\n",
		"# Mine\nshop = \"Oak\"\ndates = \"mdy\"\n[sheets]\n\"Notes\" = \"none\"\n[columns.sales] # ours\n\"Amt\" = \"fee\"\n": "" +
			"# Mine\nshop = \"Oak\"\ndates = \"dmy\"\n[sheets]\n\"Flips\" = \"pieces\"\n\"Notes\" = \"none\"\n" +
			"[columns.sales] # ours\n\"Amt\" = \"price\"\n",
		"shop = \"Oak\"\r\n[sheets]\r\n\"a\" = \"none\"": "dates = \"dmy\"\nshop = \"Oak\"\r\n[sheets]\r\n\"Flips\" = \"pieces\"\n" +
			"\"a\" = \"none\"\n\n[columns.sales]\n\"Amt\" = \"price\"\n",
	} {
		got, ok := Written([]byte(text), lines)
		assert.True(t, ok, text)
		assert.Equal(t, want, got)
	}
	for _, text := range []string{"shop = ", "[columns.\"sales\"]\n\"Fee\" = \"fee\"\n", "sheets = {a = \"none\"}\n"} {
		_, ok := Written([]byte(text), lines)
		assert.False(t, ok, text)
	}
}

// A line is told where it stands in its own section, also where another section has
// one of the same name.
func TestPlaceInSection(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	var problems fault.List
	Read([]byte("[columns.pieces]\n\"Datum\" = \"got_on\"\n[columns.uses]\n\"Datum\" = \"bought_on\"\n"), set, &problems)
	require.Len(t, problems.Errors(), 1)
	assert.Equal(t, 4, problems.Errors()[0].Place.Row)
}
