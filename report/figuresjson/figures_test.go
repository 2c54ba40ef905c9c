package figuresjson

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/figures"
	"piecebook/report/testkit"
)

// TestFiguresJSONShape: keys in the contract's order, nulls where there is no
// value, lists never null.
func TestFiguresJSONShape(t *testing.T) {
	raw, err := Month(figures.Figures{From: testkit.March - 2, To: testkit.March + 9, Currency: "EUR"})
	require.NoError(t, err)
	var empty map[string]any
	require.NoError(t, json.Unmarshal(raw, &empty))
	assert.Equal(t, "2026", empty["period"])
	assert.Equal(t, Schema, empty["schema"])
	assert.Equal(t, []any{}, empty["pieces"])
	assert.Equal(t, map[string]any{}, empty["statement"].(map[string]any)["expenses"])
	assert.Equal(t, "2026-02/2026-03", periodOf(testkit.March-1, testkit.March))

	raw, err = Month(testkit.SmallShop(t).Month)
	require.NoError(t, err)
	var got struct {
		Pieces []map[string]any `json:"pieces"`
	}
	require.NoError(t, json.Unmarshal(raw, &got))
	c := got.Pieces[2]
	for _, key := range []string{"sold_on", "area", "profit", "profit_after_overhead", "profit_per_hour", "margin",
		"days_held", "sold_less_bought"} {
		value, there := c[key]
		assert.True(t, there, key)
		assert.Nil(t, value, key)
	}
	assert.Equal(t, "0", c["hours"])
	assert.Equal(t, "50.00", c["held"])
	assert.Equal(t, "0.7113", got.Pieces[0]["margin"])
	assert.Equal(t, "31.50", got.Pieces[0]["supply_shares"].([]any)[0].(map[string]any)["coated_area"])
}
