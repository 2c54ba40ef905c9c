package shapes

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"piecebook/ledger/calendar"
	"piecebook/templates"
)

// cells is one file or sheet of the sample: dates as 2026-03-09, numbers with
// a point, each column with its name and kind from the table's description.
type cells struct {
	Table   string     `json:"table"`
	Name    string     `json:"name"` // of the file or sheet
	Columns []string   `json:"columns"`
	Kinds   []string   `json:"kinds"`
	Rows    [][]string `json:"rows"`
}

// sampleTables takes the sample's cells out without the reader under test.
func sampleTables(t testing.TB) []cells {
	t.Helper()
	set, err := templates.Load()
	require.NoError(t, err)
	dir := filepath.Join("..", "..", "..", "sample", "records")
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	var out []cells
	for _, f := range files {
		path := filepath.Join(dir, f.Name())
		if filepath.Ext(path) == ".csv" {
			b, err := os.ReadFile(path)
			require.NoError(t, err)
			lines, err := csv.NewReader(bytes.NewReader(b)).ReadAll()
			require.NoError(t, err)
			out = append(out, tableOf(t, set, strings.TrimSuffix(f.Name(), ".csv"), lines))
			continue
		}
		book, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		for _, sheet := range book.GetSheetList() {
			lines, err := book.GetRows(sheet)
			require.NoError(t, err)
			out = append(out, tableOf(t, set, sheet, lines))
		}
		require.NoError(t, book.Close())
	}
	return out
}

// tableOf names the columns of a sheet and brings its dates into one form.
func tableOf(t testing.TB, set *templates.Set, name string, lines [][]string) cells {
	t.Helper()
	table := set.Table(strings.ToLower(strings.TrimRight(name, " 0123456789")))
	require.NotNil(t, table, name)
	c := cells{Table: table.Name, Name: name}
	for _, head := range lines[0] {
		i := slices.IndexFunc(table.Fields, func(f templates.Field) bool { return f.Name == head || f.Title == head })
		require.GreaterOrEqual(t, i, 0, "%s %s", name, head)
		c.Columns = append(c.Columns, table.Fields[i].Name)
		c.Kinds = append(c.Kinds, string(table.Fields[i].Cell))
	}
	for _, line := range lines[1:] {
		row := make([]string, len(c.Columns))
		for i, text := range line {
			var serial int
			if n, _ := fmt.Sscanf(text, "%d", &serial); n == 1 && c.Kinds[i] == "date" && !strings.Contains(text, "-") {
				text = calendar.Date{Year: 1899, Month: 12, Day: 30}.AddDays(serial).String()
			}
			row[i] = text
		}
		c.Rows = append(c.Rows, row)
	}
	return c
}

// csv writes a sheet as plain text.
func (c cells) csv(comma rune, end string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Comma = comma
	_ = w.WriteAll(append([][]string{c.Columns}, c.Rows...)) // a buffer cannot fail
	return []byte(strings.ReplaceAll(b.String(), "\n", end))
}

// map1 is a copy with each cell written again.
func (c cells) map1(write func(kind, text string) string) cells {
	out := c
	out.Rows = nil
	for _, row := range c.Rows {
		r := slices.Clone(row)
		for i := range r {
			if r[i] != "" {
				r[i] = write(c.Kinds[i], r[i])
			}
		}
		out.Rows = append(out.Rows, r)
	}
	return out
}

// isNumber says that a kind of cell is read as a number.
func isNumber(kind string) bool {
	return slices.Contains([]string{"money", "signed money", "number", "signed number", "whole", "percent",
		"length", "amount",
		"container", "coverage", "hours", "day hours"}, kind)
}

// commas writes numbers with a decimal comma, money with its thousands separated.
func commas(kind, text string) string {
	if !isNumber(kind) {
		return text
	}
	whole, rest, _ := strings.Cut(text, ".")
	if kind == "money" && len(whole) == 4 {
		whole = whole[:1] + "." + whole[1:]
	}
	return strings.TrimSuffix(whole+","+rest, ",")
}

// dayFirst writes dates the other way round.
func dayFirst(mark string) func(kind, text string) string {
	return func(kind, text string) string {
		if d, err := calendar.Parse(text); kind == "date" && err == nil {
			return fmt.Sprintf("%d%s%d%s%d", d.Day, mark, int(d.Month), mark, d.Year)
		}
		return text
	}
}

// asShown writes what a spreadsheet shows: 1,234.50 with a currency sign,
// 9-Mar-26.
func asShown(kind, text string) string {
	if d, err := calendar.Parse(text); kind == "date" && err == nil {
		return fmt.Sprintf("%d-%s-%02d", d.Day, d.Month.String()[:3], d.Year%100)
	}
	if whole, rest, _ := strings.Cut(text, "."); kind == "money" {
		for i := len(whole) - 3; i > 0 && !strings.Contains(whole, "-"); i -= 3 {
			whole = whole[:i] + "," + whole[i:]
		}
		return strings.Replace("$"+whole+"."+(rest + "00")[:2], "$-", "-$", 1)
	}
	return text
}

// textShape is a way of writing plain files.
type textShape struct {
	ending, end string
	comma       rune
	encoding    encoding.Encoding // nil: UTF-8
	before      string            // of the text
	settings    [2]string         // a line of settings.toml, and what it becomes
	more        [2]string         // another
	cell        []func(kind, text string) string
	name        func(c cells) string
	table       func(c cells) cells
	all         func([]cells) []cells
}

// books writes all tables in a shape.
func (s textShape) books(t testing.TB, tables []cells, settings string) fstest.MapFS {
	t.Helper()
	for _, change := range [][2]string{s.settings, s.more} {
		require.Contains(t, settings, change[0])
		settings = strings.Replace(settings, change[0], change[1], 1)
	}
	books := fstest.MapFS{"settings.toml": {Data: []byte(settings)}}
	if s.all != nil {
		tables = s.all(tables)
	}
	for _, c := range tables {
		for _, write := range s.cell {
			c = c.map1(write)
		}
		if s.table != nil {
			c = s.table(c)
		}
		text := append([]byte(s.before), c.csv(s.comma, s.end)...)
		if s.encoding != nil {
			var err error
			text, err = s.encoding.NewEncoder().Bytes(text)
			require.NoError(t, err)
		}
		name := c.Name
		if s.name != nil {
			name = s.name(c)
		}
		books["records/"+name+s.ending] = &fstest.MapFile{Data: text}
	}
	return books
}

var (
	metricDates = [2]string{`dates = "mdy"`, `dates = "dmy"`}
	commaCents  = [2]string{"decimal_comma = false", "decimal_comma = true"}
)

// cafe puts a letter beyond plain ones into a column that is not computed with.
func cafe(kind, text string) string {
	return strings.Replace(text, "shop", "café", 1)
}

// shapesOfText are the ways of writing plain files.
var shapesOfText = map[string]textShape{
	"plain":                                {ending: ".csv", end: "\n", comma: ','},
	"UTF-8 with mark, CRLF":                {ending: ".csv", end: "\r\n", comma: ',', before: "\ufeff", cell: []func(string, string) string{cafe}},
	"UTF-16 little-endian, tabs":           {ending: ".csv", end: "\r\n", comma: '\t', encoding: unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)},
	"UTF-16 big-endian, decimal comma":     {ending: ".csv", end: "\n", comma: ';', encoding: unicode.UTF16(unicode.BigEndian, unicode.UseBOM), settings: commaCents, cell: []func(string, string) string{commas}},
	"UTF-16 little-endian without mark":    {ending: ".CSV", end: "\n", comma: ',', encoding: unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM), cell: []func(string, string) string{cafe}},
	"UTF-16 big-endian without mark, tabs": {ending: ".txt", end: "\r", comma: '\t', encoding: unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM)},
	"Windows-1252, CR, day first":          {ending: ".csv", end: "\r", comma: ';', encoding: charmap.Windows1252, settings: metricDates, cell: []func(string, string) string{cafe, dayFirst("/")}},
	"day first, decimal comma, dots":       {ending: ".csv", end: "\r\n", comma: ';', settings: metricDates, more: commaCents, cell: []func(string, string) string{commas, dayFirst(".")}},
	"as shown":                             {ending: ".csv", end: "\r\n", comma: ',', cell: []func(string, string) string{asShown}},
	"sep line":                             {ending: ".csv", end: "\r\n", comma: ';', before: "sep=;\r\n"},
	"tabs":                                 {ending: ".tsv", end: "\n", comma: '\t'},
	"exported sheet by sheet":              {ending: ".csv", end: "\r\n", comma: ',', name: func(c cells) string { return "Shop book - " + c.Name }},
	"exported all at once":                 {ending: ".csv", end: "\n", comma: ',', name: func(c cells) string { return "Shop book-" + c.Name }},
	"titles and trailing cells":            {ending: ".csv", end: "\n", comma: ';', table: titled},
	"one row a piece":                      {ending: ".csv", end: "\n", comma: ',', all: oneRowEach},
}

// titled has a title, a blank row, group names above the column names, and
// three blank cells after each row.
func titled(c cells) cells {
	wide := len(c.Columns) + 3
	pad := func(row ...string) []string { return append(row, make([]string, wide-len(row))...) }
	rows := [][]string{pad(""), pad("printed", "2026-03-01"), pad(c.Columns...)}
	for _, row := range c.Rows {
		rows = append(rows, pad(row...))
	}
	c.Columns, c.Rows = pad("The Sticky Drawer, all of "+c.Table), rows
	return c
}

// oneRowEach puts the sale of each piece that has one line in Sales onto the
// piece's own row.
func oneRowEach(tables []cells) []cells {
	find := func(table string) *cells {
		return &tables[slices.IndexFunc(tables, func(c cells) bool { return c.Table == table })]
	}
	tables = slices.Clone(tables)
	pieces, sales := find("pieces"), find("sales")
	column := func(c *cells, name string) int { return slices.Index(c.Columns, name) }
	lines := map[string]int{}
	for _, row := range sales.Rows {
		for _, piece := range strings.FieldsFunc(row[column(sales, "pieces")],
			func(r rune) bool { return strings.ContainsRune(";,+", r) }) {
			lines[strings.TrimSpace(piece)]++
		}
	}
	moved := []string{"sold_on", "channel", "price", "fee", "card_fee", "delivery_charged", "delivery_cost", "sales_tax"}
	own := map[string][]string{}
	left := *sales
	left.Rows = nil
	for _, row := range sales.Rows {
		piece := row[column(sales, "pieces")]
		kind := row[column(sales, "type")]
		isPiece := slices.ContainsFunc(pieces.Rows, func(r []string) bool { return r[column(pieces, "piece")] == piece })
		if !isPiece || lines[piece] != 1 || kind != "" && kind != "sale" || row[column(sales, "marketplace_tax")] != "" {
			left.Rows = append(left.Rows, row)
			continue
		}
		for _, name := range moved {
			own[piece] = append(own[piece], row[column(sales, name)])
		}
	}
	wide := *pieces
	wide.Rows = nil
	wide.Columns = append(slices.Clone(wide.Columns), "sold_on", "channel", "sold_price", "fee", "card_fee",
		"delivery_charged", "delivery_cost", "sales_tax")
	wide.Kinds = append(slices.Clone(wide.Kinds), "date", "channel", "money", "money", "money", "money", "money", "money")
	for _, row := range pieces.Rows {
		sale := own[row[column(pieces, "piece")]]
		if sale == nil {
			sale = make([]string, len(moved))
		}
		wide.Rows = append(wide.Rows, append(slices.Clone(row), sale...))
	}
	*pieces, *sales = wide, left
	return tables
}
