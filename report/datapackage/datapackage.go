// Package datapackage describes the records to other programs, in the open
// standard Data Package, version 2 (datapackage.org): one resource for each
// sheet or file of a table, with the table's own descriptor as its schema.
//
// A package may name only files beside or below its descriptor, so copies of the
// records stand beside it. A foreign key into a table that stands in several
// sheets is left out, since the standard has none such. So is a sheet with
// several tables or one turned over, whose rows the standard cannot describe.
package datapackage

import (
	"encoding/json"
	"fmt"
	"strings"

	"piecebook/templates"
)

// profiles is where the standard's own descriptions stand.
const profiles = "https://datapackage.org/profiles/2.0/"

// Sheet is one sheet or plain file of a table, as it was read.
type Sheet struct {
	Table     string
	Path      string // below the folder of datapackage.json, with forward slashes
	Sheet     string // workbooks only
	Separates string // plain files only: what separates the cells
	Encoding  string // plain files only
	HeaderRow int
	Examples  []int // rows that are no records
	Columns   []Column
	Bytes     int
	SHA256    string // hexadecimal
}

// Column is a column that is read: the file's header and the table's column.
type Column struct{ Header, Field string }

// Shop is what the package as a whole is described by.
type Shop struct {
	Name         string
	DecimalComma bool
}

// The descriptors, with their properties in the order they are read best.
type descriptor struct {
	Schema    string     `json:"$schema"`
	Name      string     `json:"name"`
	Title     string     `json:"title"`
	Resources []resource `json:"resources"`
}

type resource struct {
	Schema      string  `json:"$schema"`
	Name        string  `json:"name"`
	Type        string  `json:"type"`
	Title       string  `json:"title"`
	Description string  `json:"description"`
	Path        string  `json:"path"`
	Format      string  `json:"format"`
	MediaType   string  `json:"mediatype"`
	Encoding    string  `json:"encoding,omitempty"`
	Bytes       int     `json:"bytes"`
	Hash        string  `json:"hash"`
	Dialect     dialect `json:"dialect"`
	Table       table   `json:"schema"`
}

type dialect struct {
	Schema      string `json:"$schema"`
	SheetName   string `json:"sheetName,omitempty"`
	Delimiter   string `json:"delimiter,omitempty"`
	HeaderRows  []int  `json:"headerRows"`
	CommentRows []int  `json:"commentRows,omitempty"`
}

type table struct {
	Schema        string       `json:"$schema"`
	Fields        []field      `json:"fields"`
	FieldsMatch   string       `json:"fieldsMatch"`
	MissingValues []string     `json:"missingValues"`
	PrimaryKey    []string     `json:"primaryKey,omitempty"`
	ForeignKeys   []foreignKey `json:"foreignKeys,omitempty"`
}

// field is a column by the file's own header; Column is the table's name for
// it, which is ours and beyond the standard.
type field struct {
	Name        string          `json:"name"`
	Column      string          `json:"column"`
	Title       string          `json:"title"`
	Type        string          `json:"type"`
	Format      string          `json:"format,omitempty"`
	Description string          `json:"description"`
	Example     string          `json:"example"`
	BareNumber  *bool           `json:"bareNumber,omitempty"`
	DecimalChar string          `json:"decimalChar,omitempty"`
	GroupChar   string          `json:"groupChar,omitempty"`
	TrueValues  []string        `json:"trueValues,omitempty"`
	FalseValues []string        `json:"falseValues,omitempty"`
	Constraints json.RawMessage `json:"constraints,omitempty"`
}

type foreignKey struct {
	Fields    []string `json:"fields"`
	Reference struct {
		Resource string   `json:"resource"`
		Fields   []string `json:"fields"`
	} `json:"reference"`
}

// Render writes datapackage.json. The same sheets give the same bytes.
func Render(set *templates.Set, shop Shop, sheets []Sheet) ([]byte, error) {
	names := resourceNames(sheets)
	d := descriptor{Schema: profiles + "datapackage.json", Name: "shop-records", Title: "Records of " + shop.Name}
	if shop.Name == "" {
		d.Title = "Records of the shop"
	}
	for i, s := range sheets {
		t := set.Table(s.Table)
		if t == nil {
			return nil, fmt.Errorf("there is no table %q", s.Table)
		}
		r := resource{Schema: profiles + "dataresource.json", Name: names[i], Type: "table", Title: t.Title,
			Description: t.Description, Path: s.Path, Bytes: s.Bytes, Hash: "sha256:" + s.SHA256, Format: "csv",
			MediaType: "text/csv", Encoding: s.Encoding,
			Dialect: dialect{profiles + "tabledialect.json", s.Sheet, s.Separates, []int{s.HeaderRow}, s.Examples}}
		if s.Sheet != "" {
			r.Format, r.MediaType = "xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
		}
		var err error
		if r.Table, err = schema(t, s, shop, sheets, names); err != nil {
			return nil, fmt.Errorf("%s: %w", t.Name, err)
		}
		d.Resources = append(d.Resources, r)
	}
	b, err := json.MarshalIndent(d, "", "  ")
	return append(b, '\n'), err
}

// resourceNames are the tables' names, numbered where a table stands in
// several sheets or files.
func resourceNames(sheets []Sheet) []string {
	count, nth := map[string]int{}, map[string]int{}
	for _, s := range sheets {
		count[s.Table]++
	}
	var names []string
	for _, s := range sheets {
		name := strings.ReplaceAll(s.Table, " ", "-")
		if count[s.Table] > 1 {
			nth[s.Table]++
			name = fmt.Sprintf("%s-%d", name, nth[s.Table])
		}
		names = append(names, name)
	}
	return names
}

// schema is a table's descriptor cut to the columns that are there, by the
// names they have there.
func schema(t *templates.Table, s Sheet, shop Shop, sheets []Sheet, names []string) (table, error) {
	var own struct {
		Fields      []field
		PrimaryKey  []string
		ForeignKeys []foreignKey
	}
	if err := json.Unmarshal(t.Descriptor, &own); err != nil {
		return table{}, err
	}
	byName := map[string]field{}
	for _, f := range own.Fields {
		byName[f.Name] = f
	}
	out := table{Schema: profiles + "tableschema.json", FieldsMatch: "subset", MissingValues: []string{""}}
	for _, c := range s.Columns {
		f := byName[c.Field]
		f.Name, f.Column, f.Example = c.Header, c.Field, t.Field(c.Field).Example
		if f.Type == "number" && shop.DecimalComma && s.Sheet == "" {
			f.DecimalChar, f.GroupChar = ",", "."
		} else if f.Type == "number" {
			f.GroupChar = ","
		}
		out.Fields = append(out.Fields, f)
	}
	if key, all := s.headers(own.PrimaryKey); all {
		out.PrimaryKey = key
	}
	for _, k := range own.ForeignKeys {
		if found, ok := k.here(s, sheets, names); ok {
			out.ForeignKeys = append(out.ForeignKeys, found)
		}
	}
	return out, nil
}

// headers are columns by the sheet's own headers; all is false where one is
// not there, or none is asked for.
func (s Sheet) headers(fields []string) (out []string, all bool) {
	for _, f := range fields {
		for _, c := range s.Columns {
			if c.Field == f {
				out = append(out, c.Header)
			}
		}
	}
	return out, len(out) == len(fields) && len(fields) > 0
}

// here is a foreign key by the resources and headers that are there. It is
// left out where the other table is missing or stands in several sheets: the
// standard has no key into more than one.
func (k foreignKey) here(s Sheet, sheets []Sheet, names []string) (foreignKey, bool) {
	var out foreignKey
	found := 0
	for i, other := range sheets {
		if other.Table == k.Reference.Resource {
			fields, all := other.headers(k.Reference.Fields)
			if !all {
				return out, false
			}
			found++
			out.Reference.Resource, out.Reference.Fields = names[i], fields
		}
	}
	fields, all := s.headers(k.Fields)
	out.Fields = fields
	return out, all && found == 1
}
