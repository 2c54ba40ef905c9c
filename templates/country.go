package templates

import (
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// defaultCountry is whose tables are used by shops with money of no country
// that there are tables for; the year's pages then say that the money differs.
const defaultCountry = "US"

// TaxFor reads the tax tables of the country whose money a shop's currency
// (USD) is. One that no country here has gets the lines and the depreciation of
// the default one, to sort amounts by, and nothing of its law.
func TaxFor(currency string) (*Tax, error) {
	data, err := fs.Sub(files, "data")
	if err != nil {
		return nil, err
	}
	return taxFor(data, currency)
}

// taxFor looks through a folder's lines-XX.toml, by name.
func taxFor(data fs.FS, currency string) (*Tax, error) {
	names, err := fs.Glob(data, "lines-*.toml")
	if err != nil {
		return nil, fmt.Errorf("looking for tax tables: %w", err)
	}
	for _, name := range names {
		country := strings.TrimSuffix(strings.TrimPrefix(path.Base(name), "lines-"), ".toml")
		t, err := ReadTax(data, country)
		if err != nil {
			return nil, fmt.Errorf("reading the tax tables of %s: %w", strings.ToUpper(country), err)
		}
		if t.lines.Money.Code == currency {
			return t, nil
		}
	}
	t, err := ReadTax(data, defaultCountry)
	if err != nil {
		return nil, err
	}
	delete(t.texts, "records")
	return t.texts.read(0)
}
