package settings

import (
	"testing"

	"github.com/stretchr/testify/assert"
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
