// Package closing keeps what was given out true. It seals months, so that what
// the records say of them later comes as corrections in the first open month;
// and it says which records have changed since something was made from them.
//
// A closed month is a file, closed/2026-03.json, and beside it a folder with a
// copy of the records it was made from. file.go says how the file is written;
// View is the ledger as the closed months have it.
package closing

import (
	"crypto/sha256"
	"encoding/hex"
	"iter"
	"maps"
	"slices"
	"strconv"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// SettingsTable is what the shop's choices stand under among the lines.
const SettingsTable = "settings"

// Line is one record as it was when something was made from it. Its
// fingerprint is over its table and its cells in standard form; blank cells,
// and where it stands, are no part of it.
type Line struct {
	Table string `json:"table"`
	fault.Place
	Month       calendar.Month    `json:"month,omitzero"` // that it counts in; none without a day
	DayIn       string            `json:"day_in,omitempty"`
	About       string            `json:"about,omitempty"` // in the owner's words
	Cents       money.Cents       `json:"amount,omitzero"` // that changed hands by it
	Cells       map[string]string `json:"cells"`
	Fingerprint string            `json:"fingerprint"`
}

// LinesOf is EachLine as a list.
func LinesOf(b *ledger.Books) []Line { return slices.Collect(EachLine(b)) }

// EachLine is the shop's choices and the records of all tables, in the order of
// the books. A line is made when it is asked for: those of ten years take more
// room than their records.
func EachLine(b *ledger.Books) iter.Seq[Line] {
	return func(yield func(Line) bool) {
		for _, l := range settingsLines(b.Settings) {
			if l.Fingerprint = fingerprint(l.Table, slices.Sorted(maps.Keys(l.Cells)), l.Cells); !yield(l) {
				return
			}
		}
		var cells []ledger.Cell
		var table string
		var columns []string // of the table, by name
		for r := range b.Records() {
			cells = r.Cells(cells[:0])
			if r.Table != table {
				table, columns = r.Table, columnsByName(cells)
			}
			l := Line{Table: r.Table, Place: r.At, Month: r.Month, DayIn: r.DayIn, About: r.AboutOf(cells), Cents: r.Cents,
				Cells: map[string]string{}}
			for _, c := range cells {
				if text := c.String(); text != "" {
					l.Cells[c.Column] = text
				}
			}
			if l.Fingerprint = fingerprint(l.Table, columns, l.Cells); !yield(l) {
				return
			}
		}
	}
}

func columnsByName(cells []ledger.Cell) []string {
	var out []string
	for _, c := range cells {
		out = append(out, c.Column)
	}
	slices.Sort(out)
	return out
}

// Until is the lines that count by the end of a month, and those without one.
func Until(lines iter.Seq[Line], m calendar.Month) iter.Seq[Line] {
	return func(yield func(Line) bool) {
		for l := range lines {
			if l.Month <= m && !yield(l) {
				return
			}
		}
	}
}

// fingerprint is the first 16 hexadecimal digits of SHA-256 over the table and
// the cells that are not blank, by column; the columns stand by name.
func fingerprint(table string, columns []string, cells map[string]string) string {
	text := strconv.AppendQuote(make([]byte, 0, 512), table)
	for _, column := range columns {
		if cell, there := cells[column]; there {
			text = strconv.AppendQuote(strconv.AppendQuote(text, column), cell)
		}
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8])
}

// settingsLines is the choices that figures rest on, one line each. The
// mileage rates that the program brings are no choice of the shop's.
func settingsLines(s ledger.Settings) []Line {
	list := [][2]string{{"currency", s.Currency}, {"units", s.Units}, {"overhead_by", s.OverheadBy},
		{"coverage", s.Coverage},
		{"tax_supplies", s.TaxSupplies}, {"tax_stock", s.TaxStock}, {"target_hourly", s.TargetHourly.String()},
		{"receipts_over", s.ReceiptsOver.String()}}
	for _, r := range s.Mileage {
		if r.Own && r.PerMile != nil {
			list = append(list, [2]string{"mileage from " + r.From.String(), r.PerMile.RatString()})
		}
	}
	var out []Line
	for _, x := range list {
		out = append(out, Line{Table: SettingsTable, Place: fault.Place{File: "settings.toml"}, About: x[0],
			Cells: map[string]string{"key": x[0], "value": x[1]}})
	}
	return out
}
