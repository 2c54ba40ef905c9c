package packs

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Goal: no two sets of pieces have sheets of one name, on no system.
func TestSheetNamesDoNotMeet(t *testing.T) {
	long := strings.Repeat("é", 300)
	seen := map[string][]string{}
	for _, ids := range [][]string{{"a/b"}, {"a-b"}, {`a\b`}, {"a:b"}, {"a"}, {"a, b"}, {"a", "b"}, {"a."}, {"a "},
		{"a\x1bb"}, {"a\u202eb"},
		{"1", "2", "3", "4"}, {"1", "2", "3", "5"}, {"1", "2", "3", "and 1 more"}, {"1", "2", "3"}, {long}, {long + "x"},
		{sheetNameOf("a/b")}, {"a ~1"}} {
		name := sheetName(ids)
		key := strings.ToLower(name)
		assert.Nil(t, seen[key], "%q and %q both %s", ids, seen[key], name)
		seen[key] = ids
		assert.LessOrEqual(t, len(name), 255)
		assert.NotContains(t, name, "/")
	}
	assert.Equal(t, "sheet P012, P013.pdf", sheetName([]string{"P012", "P013"}))
}

// sheetNameOf is a piece that is named as another's sheet is.
func sheetNameOf(id string) string {
	return strings.TrimSuffix(strings.TrimPrefix(sheetName([]string{id}), "sheet "), ".pdf")
}
