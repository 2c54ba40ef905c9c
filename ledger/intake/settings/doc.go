// Package settings reads settings.toml, and writes lines for it.
//
// In: the file's bytes. Out: ledger.Settings, every value that cannot be taken
// being a problem that leaves the default standing. Of
//
//	dates = "dmy"
//	[columns.sales]
//	"Amt" = "price"
//
// comes Settings{DayFirst: true, Columns: {"sales": {"Amt": "price"}}}. Lines
// that would put problems right are proposed in the same form (Proposal), never
// acted on: only the owner knows what is meant.
package settings
