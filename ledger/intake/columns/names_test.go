package columns

import (
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/intake/settings"
	"piecebook/templates"
)

// Everyday headers that are known, and ones that must not be.
func TestHeadersAsPeopleWriteThem(t *testing.T) {
	field := func(table, header string) string {
		set, err := templates.Load()
		require.NoError(t, err)
		found, _ := New(set, settings.Default(set)).Fields(set.Table(table), []string{header})
		if found[0] == nil {
			return ""
		}
		return found[0].Name
	}
	for header, want := range map[string]string{"Item #": "piece", "#": "piece", "No.": "piece", "SKU": "piece",
		"Bought": "got_on", "Paid": "price", "Paid ($)": "price", "Bought $": "price",
		"Price (USD)": "price", "Sold": "sold_on", "Sold $": "sold_price", "SOLD FOR": "sold_price", "Fees": "fee", "Fee %": "", "Hrs.": "hours", "Type": "kind", "Where from": "from",
		"Area (sq ft)": "area", "m²": "area", "Where sold": "channel", "Profit": "", "Name": "", "Delivery": "",
		"Area (est)": ""} {
		require.Equal(t, want, field("pieces", header), header)
	}
	require.Equal(t, "fee_percent", field("channels", "Fee %"))
	require.Equal(t, "cost", field("purchases", "Total $"))
}
