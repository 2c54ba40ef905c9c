package templates

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The tables are those of the country whose money the shop's is; other money
// gets the default country's.
func TestTaxTablesByCurrency(t *testing.T) {
	data := fstest.MapFS{}
	for country, money := range map[string]string{"US": "USD", "XX": "XXD"} {
		file := map[string]string{"US": "us", "XX": "xx"}[country]
		data["lines-"+file+".toml"] = &fstest.MapFile{Data: []byte("country = '" + country +
			"'\nfirst_year = 2020\nlast_year = 2030\n[money]\ncode = '" + money + "'\n")}
		data["depreciation-"+file+".toml"] = &fstest.MapFile{Data: []byte("last_quarter_percent = '40'\n")}
		data["records-"+file+".toml"] = &fstest.MapFile{}
	}
	for currency, country := range map[string]string{"USD": "US", "XXD": "XX", "EUR": "US"} {
		tax, err := taxFor(data, currency)
		require.NoError(t, err, currency)
		assert.Equal(t, country, tax.Lines(2025).Country, currency)
	}
	tax, err := TaxFor("USD")
	require.NoError(t, err)
	assert.Equal(t, "US", tax.Lines(2025).Country)
}
