package main

import (
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"piecebook/cmd/piecebook/cli"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/cmd/piecebook/commands"
	"piecebook/cmd/piecebook/terminal"
)

// packed is datapackage.json as another program reads it.
type packed struct {
	Schema    string `json:"$schema"`
	Name      string
	Resources []struct {
		Name, Type, Path, Format, MediaType, Encoding, Hash string
		Bytes                                               int64
		Dialect                                             map[string]any
		Schema                                              struct {
			Fields      []map[string]any
			FieldsMatch string
			PrimaryKey  []string
			ForeignKeys []struct {
				Fields    []string
				Reference struct {
					Resource string
					Fields   []string
				}
			}
		} `json:"schema"`
	}
}

// pack describes a books folder and reads what was written.
func pack(t *testing.T, books string) (string, packed) {
	t.Helper()
	out := t.TempDir()
	require.Equal(t, cli.ExitDone, commands.Run([]string{"--books", books, "--out", out, "check", "--datapackage"},
		terminal.Console{Out: io.Discard, Err: io.Discard, Env: os.Getenv}))
	b, err := os.ReadFile(filepath.Join(out, "datapackage.json"))
	require.NoError(t, err)
	var p packed
	require.NoError(t, json.Unmarshal(b, &p))
	return out, p
}

// What the standard asks of a package, held to the sample's and the example's.
// Source: Data Package v2, datapackage.org/standard: data-package (resources),
// data-resource (name, path, type, hash), table-dialect, table-schema (fields,
// types, fieldsMatch, primaryKey, foreignKeys), glossary (url-or-path).
func TestDataPackageKeepsToTheStandard(t *testing.T) {
	for name, books := range map[string]string{"sample": "../../sample", "example": "../../ledger/testdata/example"} {
		dir, p := pack(t, books)
		assert.Equal(t, "https://datapackage.org/profiles/2.0/datapackage.json", p.Schema)
		require.NotEmpty(t, p.Resources, name)
		fields := map[string]map[string]bool{} // by resource
		for _, r := range p.Resources {
			assert.Nil(t, fields[r.Name], "%s: names are unique", r.Name)
			assert.Regexp(t, `^[a-z0-9._-]+$`, r.Name)
			assert.Equal(t, "table", r.Type)
			fields[r.Name] = keepsToTableSchema(t, r.Name, r.Schema.Fields)
			assert.Equal(t, "subset", r.Schema.FieldsMatch)
			for _, key := range r.Schema.PrimaryKey {
				assert.True(t, fields[r.Name][key], "%s: %s", r.Name, key)
			}
			// A path is relative, with forward slashes, below the descriptor,
			// and in no hidden folder.
			assert.NotRegexp(t, `^[./~]|\\|/\.|://|\.\./`, r.Path)
			info, err := os.Stat(filepath.Join(dir, filepath.FromSlash(r.Path)))
			require.NoError(t, err)
			assert.Equal(t, info.Size(), r.Bytes)
			assert.Regexp(t, `^sha256:[0-9a-f]{64}$`, r.Hash)
			assert.Equal(t, r.Format, strings.TrimPrefix(filepath.Ext(r.Path), "."))
			assert.Equal(t, r.Format == "xlsx", r.Dialect["sheetName"] != nil, "a sheet has a name")
			assert.Equal(t, r.Format == "csv", r.Dialect["delimiter"] != nil && r.Encoding != "")
		}
		keys := 0
		for _, r := range p.Resources {
			for _, k := range r.Schema.ForeignKeys {
				keys++
				require.Len(t, k.Reference.Fields, len(k.Fields))
				require.NotEqual(t, r.Name, k.Reference.Resource)
				for i := range k.Fields {
					assert.True(t, fields[r.Name][k.Fields[i]], "%s: %s", r.Name, k.Fields[i])
					assert.True(t, fields[k.Reference.Resource][k.Reference.Fields[i]], "%s: %v", r.Name, k.Reference)
				}
			}
		}
		assert.Greater(t, keys, 3, name)
	}
}

// fieldTypes is the standard's closed list. Source: Table Schema v2, Field Types.
var fieldTypes = regexp.MustCompile(
	`^(string|number|integer|boolean|object|array|list|datetime|date|time|year|yearmonth|duration|geopoint|geojson|any)$`)

// constraintsOf are those that the standard allows of the types used here.
// Source: Table Schema v2, Field Constraints.
var constraintsOf = map[string]string{
	"string": "required unique enum", "number": "required unique enum minimum maximum exclusiveMinimum exclusiveMaximum",
	"integer": "required unique enum minimum maximum exclusiveMinimum exclusiveMaximum", "boolean": "required enum",
	"date": "required unique enum minimum maximum", "year": "required unique enum minimum maximum",
}

// keepsToTableSchema checks the columns of one resource and returns their names.
func keepsToTableSchema(t *testing.T, resource string, fields []map[string]any) map[string]bool {
	t.Helper()
	require.NotEmpty(t, fields, resource)
	names := map[string]bool{}
	for _, f := range fields {
		name, _ := f["name"].(string)
		kind, _ := f["type"].(string)
		require.NotEmpty(t, name, resource)
		assert.False(t, names[name], "%s: %s twice", resource, name)
		names[name] = true
		assert.Regexp(t, fieldTypes, kind)
		for _, key := range []string{"bareNumber", "decimalChar", "groupChar"} {
			assert.True(t, f[key] == nil || kind == "number", "%s %s: %s is for numbers", resource, name, key)
		}
		if constraints, is := f["constraints"].(map[string]any); is {
			for c := range constraints {
				assert.Contains(t, strings.Fields(constraintsOf[kind]), c, "%s %s, a %s", resource, name, kind)
			}
		}
		assert.NotEmpty(t, f["example"])
	}
	return names
}

// Each resource's first line, read by encoding/csv with the dialect that is
// described, has every field that is described; and the fields' rows are there.
func TestDataPackageNamesWhatIsInTheFiles(t *testing.T) {
	dir, p := pack(t, "../../ledger/testdata/example")
	for _, r := range p.Resources {
		require.Equal(t, "csv", r.Format)
		b, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(r.Path)))
		require.NoError(t, err)
		first, _, _ := strings.Cut(string(b), "\n")
		heads := strings.Split(strings.TrimSpace(first), r.Dialect["delimiter"].(string))
		for _, f := range r.Schema.Fields {
			assert.Contains(t, heads, f["name"], r.Path)
		}
	}
}
