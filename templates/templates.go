// Package templates holds what is data, not code: the description of every
// table an owner may fill in, and the dated or customary figures (typical
// areas, starting coverages, mileage rates, limits). It is the single source
// for reading, checking, the starter workbook and the data dictionary.
package templates

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"
)

//go:embed tables/*.json data/*.toml
var files embed.FS

// Set is everything this package holds, ready for use. It is read-only: all
// callers of one Set share it.
type Set struct {
	Tables  []Table // in the order of the starter workbook
	Areas   []TypicalArea
	Kinds   []string // of furniture, those with a usual area too
	Groups  []SupplyGroup
	PerUnit PerUnit
	Rates   []*Rates // of each country, the default one first
	words   map[string]map[string]string
}

// Table describes one table: how its file or sheet is named, what its rows
// hold, and what the pack lacks without it.
type Table struct {
	Name        string   `json:"name"`
	Title       string   `json:"title"`
	Order       int      `json:"order"`
	Essential   bool     `json:"essential"` // one of the six that make a useful pack
	Description string   `json:"description"`
	Absence     string   `json:"absence"` // a sentence
	OtherNames  []string `json:"otherNames"`
	PrimaryKey  []string `json:"primaryKey"`
	Fields      []Field  `json:"fields"`
	// FirstPack are the columns that a first pack needs, in the order they are
	// filled in; none: all of them.
	FirstPack []string `json:"firstPack"`
	// ExampleRows are lines as an owner would write them, by column; a column
	// that is not named is blank. Most tables have two. Supplies and Schedules
	// have the usual ones of three ways to finish, to be changed to the shop's
	// own (common practice, no source).
	ExampleRows []map[string]string `json:"exampleRows"`
	// Descriptor is the table's own file, word for word.
	Descriptor json.RawMessage `json:"-"`
}

// Field describes one column. Type is the standard's, Cell our own kind, which
// decides how a cell is read.
type Field struct {
	Name        string      `json:"name"`
	Title       string      `json:"title"`
	MetricTitle string      `json:"metricTitle"` // in a metric shop, where that is another
	Type        string      `json:"type"`
	Cell        Cell        `json:"cell"`
	Description string      `json:"description"`
	Constraints Constraints `json:"constraints"`
	Default     string      `json:"default"`    // what a blank means, in words
	NeededWhen  string      `json:"neededWhen"` // 'required where ...', in words
	OtherNames  []string    `json:"otherNames"`
	Example     string      `json:"example"` // its own, else that of the first example row that has one
	// NotInStarter: it is read where an owner has it, and not offered.
	NotInStarter bool `json:"notInStarter"`
	// ColumnMayBeMissing: of a needed column, a sheet without it is read all the same.
	ColumnMayBeMissing bool `json:"columnMayBeMissing"`
}

// StarterFields are the columns that the starter workbook offers.
func (t *Table) StarterFields() []Field {
	return slices.DeleteFunc(slices.Clone(t.Fields), func(f Field) bool { return f.NotInStarter })
}

// Constraints are those of Table Schema that we use. Limits are exact decimal
// texts, empty where there is none.
type Constraints struct {
	Required         bool        `json:"required"`
	Unique           bool        `json:"unique"`
	Enum             []string    `json:"enum"`
	Minimum          json.Number `json:"minimum"`
	ExclusiveMinimum json.Number `json:"exclusiveMinimum"`
	Maximum          json.Number `json:"maximum"`
}

// Cell is how a cell is read: the kinds of RECORDS.md, some of them divided.
type Cell string

// The kinds of cell.
const (
	Text         Cell = "text"
	Name         Cell = "name" // the row's own name, which other tables use
	SetName      Cell = "set"
	Date         Cell = "date"
	Year         Cell = "year"
	Money        Cell = "money"
	SignedMoney  Cell = "signed money"
	Number       Cell = "number"
	SignedNumber Cell = "signed number"
	Whole        Cell = "whole"
	Percent      Cell = "percent"
	Length       Cell = "length"
	Amount       Cell = "amount"    // of a supply, in containers or with a unit
	Container    Cell = "container" // an amount that needs its unit
	Coverage     Cell = "coverage"  // a number, or all
	HoursOfAll   Cell = "hours"
	HoursOfDay   Cell = "day hours" // at most 24
	Choice       Cell = "choice"
	YesNo        Cell = "yes-no"
	PieceRef     Cell = "piece"
	PieceList    Cell = "pieces"
	SupplyRef    Cell = "supply"
	LotRef       Cell = "lot"
	ScheduleRef  Cell = "schedule"
	ChannelRef   Cell = "channel"
)

// Load reads everything embedded, once: the set is one for all and not to be
// changed. An error is a mistake in this package's own files, never the owner's.
func Load() (*Set, error) { return loaded() }

var loaded = sync.OnceValues(load)

func load() (*Set, error) {
	s := &Set{}
	names, err := fs.Glob(files, "tables/*.json")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		t, err := loadTable(name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		s.Tables = append(s.Tables, t)
	}
	slices.SortFunc(s.Tables, func(a, b Table) int { return a.Order - b.Order })
	if err := s.loadData(); err != nil {
		return nil, err
	}
	return s, nil
}

// loadTable reads one descriptor.
func loadTable(name string) (Table, error) {
	var t Table
	b, err := files.ReadFile(name)
	if err != nil {
		return t, err
	}
	if err := json.NewDecoder(bytes.NewReader(b)).Decode(&t); err != nil {
		return t, err
	}
	t.Descriptor = b
	for i := range t.Fields {
		f := &t.Fields[i]
		for _, row := range t.ExampleRows {
			if f.Example == "" {
				f.Example = row[f.Name]
			}
		}
	}
	return t, nil
}

// Table finds a table by its exact name; nil where there is none.
func (s *Set) Table(name string) *Table {
	for i := range s.Tables {
		if s.Tables[i].Name == name {
			return &s.Tables[i]
		}
	}
	return nil
}

// Field finds a column by its exact name; nil where there is none.
func (t *Table) Field(name string) *Field {
	for i := range t.Fields {
		if t.Fields[i].Name == name {
			return &t.Fields[i]
		}
	}
	return nil
}

// InOrderOfUse is the columns with those of a first pack in front, and how many
// those are.
func (t *Table) InOrderOfUse() (all []Field, first int) {
	fields := t.StarterFields()
	if len(t.FirstPack) == 0 {
		return fields, len(fields)
	}
	for _, name := range t.FirstPack {
		all = append(all, *t.Field(name))
	}
	for _, f := range fields {
		if !slices.Contains(t.FirstPack, f.Name) {
			all = append(all, f)
		}
	}
	return all, len(t.FirstPack)
}

// Group finds a supply group's figures without regard to case; nil where
// there is none.
func (s *Set) Group(name string) *SupplyGroup {
	for i := range s.Groups {
		if strings.EqualFold(s.Groups[i].Name, name) {
			return &s.Groups[i]
		}
	}
	return nil
}
