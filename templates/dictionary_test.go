package templates_test

import (
	"flag"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/templates"
)

var update = flag.Bool("update", false, "rewrite DICTIONARY.md")

// The guide's data dictionary is what the descriptors say.
func TestDictionary(t *testing.T) {
	got := load(t).Dictionary()
	if *update {
		require.NoError(t, os.WriteFile("DICTIONARY.md", []byte(got), 0o644))
	}
	want, err := os.ReadFile("DICTIONARY.md")
	require.NoError(t, err)
	require.Equal(t, string(want), got, "go test ./templates -run Dictionary -update writes it again")
}

// Every column is in the dictionary, with its example and other names; a |
// would part a cell in two.
func TestDictionaryIsWhole(t *testing.T) {
	page := load(t).Dictionary()
	for _, table := range load(t).Tables {
		_, section, found := strings.Cut(page, "\n## "+table.Title+"\n")
		require.True(t, found, table.Title)
		section, _, _ = strings.Cut(section, "\n## ")
		lines := strings.Split(strings.TrimSpace(section), "\n")
		require.Len(t, lines, len(table.Fields)+4, table.Title)
		for i, f := range table.Fields {
			line := lines[4+i]
			assert.Equal(t, 6, strings.Count(line, "|"), line)
			for _, text := range append([]string{f.Title, f.Description, f.Example}, f.OtherNames...) {
				assert.Contains(t, line, text)
			}
		}
	}
}

// Each table has two example lines at least, of its own columns, no needed cell blank,
// choices among the choices; and every column has an example.
func TestExampleRows(t *testing.T) {
	for _, table := range load(t).Tables {
		assert.GreaterOrEqual(t, len(table.ExampleRows), 2, table.Name)
		for _, row := range table.ExampleRows {
			for name := range row {
				assert.NotNil(t, table.Field(name), "%s has no column %s", table.Name, name)
			}
		}
		for _, f := range table.Fields {
			assert.NotEmpty(t, f.Example, "%s %s", table.Name, f.Name)
			for _, row := range table.ExampleRows {
				if f.Constraints.Required {
					assert.NotEmpty(t, row[f.Name], "%s %s", table.Name, f.Name)
				}
				if enum := f.Constraints.Enum; len(enum) > 0 && row[f.Name] != "" {
					assert.True(t, slices.Contains(enum, row[f.Name]), "%s %s: %s", table.Name, f.Name, row[f.Name])
				}
			}
		}
	}
}

// The guide sheets' names are no table's, and only the starter's own sheets
// are taken for guides.
func TestGuides(t *testing.T) {
	for _, table := range load(t).Tables {
		for _, name := range append([]string{table.Name, table.Title}, table.OtherNames...) {
			assert.NotEqual(t, letters(templates.BeginSheet), letters(name))
			assert.NotEqual(t, letters(templates.ListsSheet), letters(name))
		}
	}
	assert.True(t, templates.IsGuide(templates.BeginSheet, templates.BeginOpening+" "))
	assert.True(t, templates.IsGuide(templates.ListsSheet, templates.ListsOpening))
	assert.False(t, templates.IsGuide(templates.ListsSheet, "kind"))
	assert.False(t, templates.IsGuide("Notes", templates.BeginOpening))
	assert.False(t, templates.IsGuide("Notes", ""))
}
