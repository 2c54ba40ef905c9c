package templates_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"

	"piecebook/templates"
)

func load(t *testing.T) *templates.Set {
	t.Helper()
	s, err := templates.Load()
	require.NoError(t, err)
	return s
}

// The tables are those of RECORDS.md, six of them essential.
func TestTables(t *testing.T) {
	var names, essential []string
	for _, table := range load(t).Tables {
		names = append(names, table.Name)
		if table.Essential {
			essential = append(essential, table.Name)
		}
		require.NotEmpty(t, table.Description)
		require.NotEmpty(t, table.Absence)
	}
	require.Equal(t, []string{"pieces", "lots", "surfaces", "supplies", "purchases", "openings", "schedules", "uses",
		"parts", "hours", "trips",
		"expenses", "equipment", "channels", "sales", "counts", "moves", "removals", "other income", "tax paid", "payouts",
		"statements"}, names)
	require.Equal(t, []string{"pieces", "supplies", "purchases", "uses", "hours", "sales"}, essential)
}

// letters is a name as headers are compared: letters and digits, a currency
// sign kept at the end.
func letters(s string) string {
	sign := ""
	if strings.Contains(s, "$") {
		sign = "$"
	}
	return sign + strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// No name means two columns of one table, nor two tables.
func TestNamesMeanOneThing(t *testing.T) {
	tables := map[string]string{}
	for _, table := range load(t).Tables {
		for _, name := range append([]string{table.Name}, table.OtherNames...) {
			require.Empty(t, tables[letters(name)], "%s of %s", name, table.Name)
			tables[letters(name)] = table.Name
		}
		columns := map[string]string{}
		for _, f := range table.Fields {
			columns[letters(f.Name)] = f.Name
		}
		for _, f := range table.Fields {
			require.NotEmpty(t, f.Description)
			for _, name := range f.OtherNames {
				taken := columns[letters(name)]
				require.Empty(t, taken, "%s is both %s and %s of %s", name, taken, f.Name, table.Name)
				columns[letters(name)] = f.Name
			}
		}
	}
}

// Every descriptor keeps to Table Schema, so that other programs can read it.
func TestDescriptorsAreTableSchema(t *testing.T) {
	types := []string{"string", "number", "integer", "boolean", "date", "year"}
	constraints := []string{"required", "unique", "enum", "minimum", "exclusiveMinimum", "maximum"}
	names, err := filepath.Glob("tables/*.json")
	require.NoError(t, err)
	require.Len(t, names, 22)
	for _, name := range names {
		b, err := os.ReadFile(name)
		require.NoError(t, err)
		var d struct {
			Name   string
			Fields []struct {
				Name, Type  string
				Cell        templates.Cell
				Constraints map[string]any
			}
			PrimaryKey  []string
			ForeignKeys []struct {
				Fields    []string
				Reference struct {
					Resource string
					Fields   []string
				}
			}
		}
		require.NoError(t, json.Unmarshal(b, &d), name)
		own := map[string]bool{}
		for _, f := range d.Fields {
			require.Contains(t, types, f.Type, "%s %s", name, f.Name)
			require.NotEmpty(t, f.Cell, "%s %s", name, f.Name)
			require.False(t, own[f.Name], "%s %s", name, f.Name)
			own[f.Name] = true
			for c := range f.Constraints {
				require.Contains(t, constraints, c)
			}
		}
		for _, key := range d.ForeignKeys {
			require.True(t, own[key.Fields[0]])
			require.NotNil(t, load(t).Table(key.Reference.Resource).Field(key.Reference.Fields[0]), "%s %v", name, key)
		}
	}
}

func TestFigures(t *testing.T) {
	s := load(t)
	require.Len(t, s.Areas, 17)
	require.Equal(t, "30", s.Area(" Dresser").RatString())
	require.Nil(t, s.Area("pulpit"))
	var names, stays []string
	for _, g := range s.Groups {
		names = append(names, g.Name)
		if g.Stays {
			stays = append(stays, g.Name)
		}
	}
	require.Equal(t, choices(s, "supplies", "group"), names)
	require.Equal(t, []string{"filler", "glue", "primer", "paint", "stain", "topcoat", "wax"}, stays)
	require.Equal(t, "13/20", s.Group("Stripper").SqFtPerFlOz.RatString())
	require.Equal(t, "39/4", s.Group("wax").SqFtPerOz.RatString())
	require.Equal(t, int64(250000), s.RatesFor("USD").AtOnceCents("2016-01-01"))
	require.Equal(t, int64(50000), s.RatesFor("USD").AtOnceCents("2015-12-31"))
	require.Len(t, s.RatesFor("USD").Mileage, 13)
	require.True(t, slices.IsSortedFunc(s.RatesFor("USD").Mileage, func(a, b templates.MileageRate) int {
		return strings.Compare(a.From,
			b.From)
	}))
	for _, r := range s.RatesFor("USD").Mileage {
		require.NotEmpty(t, r.Source)
	}
	for word, group := range map[string]string{"Varnish": "topcoat", "gloves": "protective", "sandpaper": "abrasive",
		" shellac ":        "topcoat",
		"mineral  spirits": "solvent", "primer": "", "yogurt": ""} {
		require.Equal(t, group, s.Meant("supplies.group", word), word)
	}
	require.Contains(t, choices(s, "expenses", "group"), "booth rent")
	require.Contains(t, choices(s, "other income", "group"), "rebate")
}

// Goal: an everyday word leads to a word its column takes, and stands for it
// only where it is not itself one.
func TestWordsLeadToChoices(t *testing.T) {
	s := load(t)
	var raw map[string]any
	b, err := os.ReadFile("data/words.toml")
	require.NoError(t, err)
	require.NoError(t, toml.Unmarshal(b, &raw))
	columns := 0
	for column, words := range raw {
		if column == "source" || column == templates.Units {
			continue
		}
		columns++
		table, field, _ := strings.Cut(column, ".")
		choices := choices(s, table, field)
		require.NotEmpty(t, choices, column)
		for meant, list := range words.(map[string]any) {
			require.Contains(t, choices, meant, column)
			for _, word := range list.([]any) {
				require.NotContains(t, choices, word, column)
				require.Equal(t, meant, s.Meant(column, word.(string)))
			}
		}
	}
	require.Equal(t, 12, columns)
}

// choices are the words a choice column takes; nil where there is none such.
func choices(s *templates.Set, table, field string) []string {
	if t := s.Table(table); t != nil && t.Field(field) != nil {
		return t.Field(field).Constraints.Enum
	}
	return nil
}
