package shapes

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/calendar"
)

// shapesOfBooks are the ways of writing a workbook.
var shapesOfBooks = map[string]func(testing.TB, []cells) []byte{
	"excelize":                    byExcelize,
	"all text":                    allText,
	"1904, inline, titles, apart": func(t testing.TB, c []cells) []byte { return byHand(t, c, handShape{first: 1904, down: 4, right: 3}) },
	"strict":                      func(t testing.TB, c []cells) []byte { return byHand(t, c, handShape{first: 1900, strict: true}) },
	"no cell names": func(t testing.TB, c []cells) []byte {
		return byHand(t, c, handShape{first: 1900, bare: true, prefix: "x:"})
	},
	"other part names":  func(t testing.TB, c []cells) []byte { return byHand(t, c, handShape{first: 1900, odd: true}) },
	"two rows of names": twoHeaderRows,
}

// at is a cell's name, both from 0.
func at(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column+1, row+1)
	if err != nil {
		panic(err)
	}
	return name
}

// plain says that a text is digits with a sign or a point at most, which a
// workbook keeps as a number.
func plain(text string) bool {
	digits := strings.TrimPrefix(text, "-")
	return digits != "" && strings.Trim(digits, "0123456789.") == "" && strings.Count(digits, ".") <= 1
}

// byExcelize writes dates as dates, numbers as numbers, formulas with their
// values, and a table around the first sheet.
func byExcelize(t testing.TB, tables []cells) []byte {
	f := excelize.NewFile()
	day, err := f.NewStyle(&excelize.Style{NumFmt: 14})
	require.NoError(t, err)
	for i, c := range tables {
		sheet(t, f, i, c.Name)
		for x, column := range c.Columns {
			require.NoError(t, f.SetCellStr(c.Name, at(x, 0), column))
			for y, row := range c.Rows {
				d, err := calendar.Parse(row[x])
				switch cell := at(x, y+1); {
				case row[x] == "":
				case c.Kinds[x] == "date" && err == nil:
					require.NoError(t, f.SetCellInt(c.Name, cell, int64(d.DaysSince(calendar.Date{Year: 1899, Month: 12, Day: 30}))))
					require.NoError(t, f.SetCellStyle(c.Name, cell, cell, day))
				case isNumber(c.Kinds[x]) && plain(row[x]):
					require.NoError(t, f.SetCellDefault(c.Name, cell, row[x]))
				default:
					require.NoError(t, f.SetCellStr(c.Name, cell, row[x]))
				}
			}
		}
	}
	c := tables[0]
	require.NoError(t, f.AddTable(c.Name, &excelize.Table{Range: "A1:" + at(len(c.Columns)-1, len(c.Rows)),
		Name: "first"}))
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.Bytes()
}

// sheet makes the i-th sheet.
func sheet(t testing.TB, f *excelize.File, i int, name string) {
	if i == 0 {
		require.NoError(t, f.SetSheetName(f.GetSheetName(0), name))
		return
	}
	_, err := f.NewSheet(name)
	require.NoError(t, err)
}

// allText writes every cell as text, as shown.
func allText(t testing.TB, tables []cells) []byte {
	f := excelize.NewFile()
	for i, c := range tables {
		sheet(t, f, i, c.Name)
		c = c.map1(asShown)
		for y, row := range append([][]string{c.Columns}, c.Rows...) {
			require.NoError(t, f.SetSheetRow(c.Name, at(0, y), &row))
		}
	}
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.Bytes()
}

// twoHeaderRows has the first half of the columns' names one row above the
// others' and merged with the cell below, as forms have them; half of the
// columns and every tenth row are hidden.
func twoHeaderRows(t testing.TB, tables []cells) []byte {
	f := excelize.NewFile()
	for i, c := range tables {
		sheet(t, f, i, c.Name)
		for x, column := range c.Columns {
			if x >= len(c.Columns)/2 && len(c.Columns)-x >= 2 || x == len(c.Columns)-1 {
				require.NoError(t, f.SetCellStr(c.Name, at(x, 1), column))
				continue
			}
			require.NoError(t, f.SetCellStr(c.Name, at(x, 0), column))
			require.NoError(t, f.MergeCell(c.Name, at(x, 0), at(x, 1)))
			name, err := excelize.ColumnNumberToName(x + 1)
			require.NoError(t, err)
			require.NoError(t, f.SetColVisible(c.Name, name, false))
		}
		for y, row := range c.Rows {
			require.NoError(t, f.SetSheetRow(c.Name, at(0, y+2), &row))
			require.NoError(t, f.SetRowVisible(c.Name, y+3, y%10 != 0))
		}
	}
	b, err := f.WriteToBuffer()
	require.NoError(t, err)
	return b.Bytes()
}

// handShape is a workbook written as XML by hand.
type handShape struct {
	first       int // day 1 is in 1900 or 1904
	down, right int // where the table stands; titles above where there is room
	strict      bool
	bare        bool // rows and cells without their names
	prefix      string
	odd         bool // parts have other names, separated by \
}

const (
	sheetSpace    = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	linkSpace     = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	strictSheets  = "http://purl.oclc.org/ooxml/spreadsheetml/main"
	strictLinks   = "http://purl.oclc.org/ooxml/officeDocument/relationships"
	packageSpace  = "http://schemas.openxmlformats.org/package/2006/relationships"
	contentsSpace = "http://schemas.openxmlformats.org/package/2006/content-types"
)

// byHand writes inline texts, dates as numbers in a date format (in strict
// form as dates of their own kind), and a size that claims the whole grid.
func byHand(t testing.TB, tables []cells, h handShape) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	add := func(name, text string) {
		if h.strict {
			text = strings.NewReplacer(sheetSpace, strictSheets, linkSpace, strictLinks).Replace(text)
		}
		if h.odd {
			name = strings.ReplaceAll(strings.ReplaceAll(name, "xl/workbook.xml", "xl/book1.xml"), "worksheets/sheet", "pages/p")
			name = strings.ReplaceAll(strings.ReplaceAll(name, "workbook.xml.rels", "book1.xml.rels"), "/", `\`)
			text = strings.ReplaceAll(strings.ReplaceAll(text, "xl/workbook.xml", "/xl/book1.xml"), "worksheets/sheet",
				"/xl/pages/p")
		}
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(w, xml.Header+text)
		require.NoError(t, err)
	}
	var sheets, links strings.Builder
	for i, c := range tables {
		fmt.Fprintf(&sheets, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, c.Name, i+1, i+1)
		fmt.Fprintf(&links, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1,
			linkSpace, i+1)
		add(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), h.sheet(c))
	}
	fmt.Fprintf(&links, `<Relationship Id="rId99" Type="%s/styles" Target="styles.xml"/>`, linkSpace)
	add("[Content_Types].xml", `<Types xmlns="`+contentsSpace+
		`"><Default Extension="xml" ContentType="application/xml"/></Types>`)
	add("_rels/.rels", fmt.Sprintf(
		`<Relationships xmlns="%s"><Relationship Id="rId1" Type="%s/officeDocument" Target="xl/workbook.xml"/></Relationships>`, packageSpace, linkSpace))
	add("xl/_rels/workbook.xml.rels", fmt.Sprintf(`<Relationships xmlns="%s">%s</Relationships>`, packageSpace,
		links.String()))
	add("xl/styles.xml", `<styleSheet xmlns="`+sheetSpace+
		`"><numFmts count="1"><numFmt numFmtId="164" formatCode="[$-409]d\-mmm\-yy;@"/></numFmts><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs></styleSheet>`)
	add("xl/workbook.xml",
		fmt.Sprintf(`<workbook xmlns="%s" xmlns:r="%s"><workbookPr date1904="%t"/><sheets>%s</sheets></workbook>`, sheetSpace,
			linkSpace, h.first == 1904, sheets.String()))
	require.NoError(t, z.Close())
	return out.Bytes()
}

// sheet writes one sheet.
func (h handShape) sheet(c cells) string {
	var b strings.Builder
	row := func(y int, cells []string, kinds []string) {
		open := fmt.Sprintf(`<row r="%d" spans="1:16384">`, y+1)
		if h.bare {
			open = "<row>"
		}
		b.WriteString(open)
		for x, text := range cells {
			if text != "" || h.bare {
				b.WriteString(h.cell(x+h.right, y, text, kinds, x))
			}
		}
		b.WriteString("</row>")
	}
	if h.down > 0 {
		row(0, []string{"The Sticky Drawer"}, nil)
		row(1, []string{"", "kept by hand"}, nil)
	}
	row(h.down, c.Columns, nil)
	for y, cells := range c.Rows {
		row(h.down+1+y, cells, c.Kinds)
	}
	text := fmt.Sprintf(`<worksheet xmlns="%s"><dimension ref="A1:XFD1048576"/><sheetData>%s</sheetData></worksheet>`,
		sheetSpace, b.String())
	if h.prefix != "" {
		text = strings.NewReplacer("</", "</"+h.prefix, "<", "<"+h.prefix, "xmlns=", "xmlns:"+strings.Trim(h.prefix, ":")+
			"=").Replace(text)
	}
	return text
}

// cell writes one cell.
func (h handShape) cell(x, y int, text string, kinds []string, column int) string {
	name := fmt.Sprintf(` r="%s"`, at(x, y))
	if h.bare {
		name = ""
	}
	d, err := calendar.Parse(text)
	switch {
	case text == "":
		return "<c" + name + "/>"
	case kinds != nil && kinds[column] == "date" && err == nil && h.strict:
		return fmt.Sprintf(`<c%s t="d" s="1"><v>%sT00:00:00.000</v></c>`, name, d)
	case kinds != nil && kinds[column] == "date" && err == nil:
		first := calendar.Date{Year: 1899, Month: 12, Day: 30}
		if h.first == 1904 {
			first = calendar.Date{Year: 1904, Month: 1, Day: 1}
		}
		return fmt.Sprintf(`<c%s s="1"><v>%d</v></c>`, name, d.DaysSince(first))
	case kinds != nil && isNumber(kinds[column]) && plain(text):
		return fmt.Sprintf(`<c%s><f>%s+0</f><v>%s</v></c>`, name, text, text)
	}
	var escaped bytes.Buffer
	_ = xml.EscapeText(&escaped, []byte(text)) // a buffer cannot fail
	half := escaped.Len() / 2
	if strings.ContainsAny(text, `&<>"'`) {
		half = 0
	}
	return fmt.Sprintf(`<c%s t="inlineStr"><is><r><t xml:space="preserve">%s</t></r><r><rPr><b/></rPr><t xml:space="preserve">%s</t></r></is></c>`, name, escaped.String()[:half], escaped.String()[half:])
}
