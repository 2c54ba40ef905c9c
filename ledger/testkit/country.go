package testkit

import (
	"embed"
	"io/fs"
)

//go:embed country/*.toml
var country embed.FS

// InventedCountry is the tax tables of an invented country, XX: other line names in another order, no parts, costs of
// stock taken and given on one line, one line for most expenses.
var InventedCountry, _ = fs.Sub(country, "country")
