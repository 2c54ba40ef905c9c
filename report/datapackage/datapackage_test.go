package datapackage_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/report/datapackage"
	"piecebook/templates"
)

// render is the package of some sheets, by resource.
func render(t *testing.T, shop datapackage.Shop, sheets ...datapackage.Sheet) map[string]map[string]any {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	b, err := datapackage.Render(set, shop, sheets)
	require.NoError(t, err)
	again, err := datapackage.Render(set, shop, sheets)
	require.NoError(t, err)
	require.Equal(t, string(b), string(again))
	var p struct {
		Title     string
		Resources []map[string]any
	}
	require.NoError(t, json.Unmarshal(b, &p))
	out := map[string]map[string]any{}
	for _, r := range p.Resources {
		out[r["name"].(string)] = r
	}
	require.Len(t, out, len(sheets))
	return out
}

func sheet(table, path string, columns ...datapackage.Column) datapackage.Sheet {
	return datapackage.Sheet{Table: table, Path: path, Separates: ",", Encoding: "utf-8", HeaderRow: 1, Columns: columns,
		SHA256: "00"}
}

func schemaOf(r map[string]any) map[string]any { return r["schema"].(map[string]any) }

// A key leads from a column, by the owner's own header, to the one sheet that
// the other table stands in.
func TestKeys(t *testing.T) {
	pieces := sheet("pieces", "pieces.csv", datapackage.Column{Header: "No.", Field: "piece"},
		datapackage.Column{Header: "Lot no", Field: "lot"})
	lots := sheet("lots", "lots.csv", datapackage.Column{Header: "Id", Field: "lot"})
	got := render(t, datapackage.Shop{}, pieces, lots)
	assert.Equal(t, []any{"No."}, schemaOf(got["pieces"])["primaryKey"])
	assert.Equal(t, []any{map[string]any{"fields": []any{"Lot no"}, "reference": map[string]any{"resource": "lots",
		"fields": []any{"Id"}}}},
		schemaOf(got["pieces"])["foreignKeys"])
	// Without the other table, and into two sheets of it, there is none.
	assert.Nil(t, schemaOf(render(t, datapackage.Shop{}, pieces)["pieces"])["foreignKeys"])
	more := lots
	more.Path = "lots 2026.csv"
	got = render(t, datapackage.Shop{}, pieces, lots, more)
	assert.Nil(t, schemaOf(got["pieces"])["foreignKeys"])
	assert.Equal(t, "lots.csv", got["lots-1"]["path"])
	assert.Equal(t, "lots 2026.csv", got["lots-2"]["path"])
	// Nor without the column that it leads from, or to.
	assert.Nil(t, schemaOf(render(t, datapackage.Shop{}, sheet("pieces", "p.csv", datapackage.Column{Header: "No.",
		Field: "piece"}), lots)["pieces"])["foreignKeys"])
	assert.Nil(t, schemaOf(render(t, datapackage.Shop{}, pieces, sheet("lots", "l.csv", datapackage.Column{Header: "Paid",
		Field: "price"}))["pieces"])["foreignKeys"])
}

// Only columns that are there are described, in the file's order and by its headers.
func TestFields(t *testing.T) {
	own := sheet("other income", "other income.csv", datapackage.Column{Header: "Betrag", Field: "amount"},
		datapackage.Column{Header: "Tag", Field: "got_on"})
	fields := schemaOf(render(t, datapackage.Shop{DecimalComma: true}, own)["other-income"])["fields"].([]any)
	require.Len(t, fields, 2)
	amount, day := fields[0].(map[string]any), fields[1].(map[string]any)
	assert.Equal(t, []any{"Betrag", "amount", "number", ",", ".", false, "30.00"},
		[]any{amount["name"], amount["column"], amount["type"], amount["decimalChar"], amount["groupChar"],
			amount["bareNumber"], amount["example"]})
	assert.Equal(t, []any{"Tag", "got_on", "date", "any"}, []any{day["name"], day["column"], day["type"], day["format"]})
	assert.Equal(t, map[string]any{"required": true}, amount["constraints"])
	// A workbook's numbers have a point whatever the shop writes.
	own.Sheet, own.Separates, own.Encoding = "Income", "", ""
	r := render(t, datapackage.Shop{DecimalComma: true}, own)["other-income"]
	assert.Nil(t, schemaOf(r)["fields"].([]any)[0].(map[string]any)["decimalChar"])
	assert.Equal(t, []any{"xlsx", "Income", nil}, []any{r["format"], r["dialect"].(map[string]any)["sheetName"],
		r["encoding"]})
}

// A table there is not is a mistake of the caller's.
func TestUnknownTable(t *testing.T) {
	set, err := templates.Load()
	require.NoError(t, err)
	_, err = datapackage.Render(set, datapackage.Shop{}, []datapackage.Sheet{sheet("chairs", "chairs.csv")})
	require.ErrorContains(t, err, "chairs")
}
