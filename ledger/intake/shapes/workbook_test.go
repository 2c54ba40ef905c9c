package shapes

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake"
)

// sheetXML puts hand-written cells under a header of Equipment, as other
// programs save them; %s are the rows.
const sheetXML = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` +
	`<row r="1"><c r="A1" t="inlineStr"><is><t>bought_on</t></is></c><c r="B1" t="inlineStr"><is><t>what</t></is></c>` +
	`<c r="C1" t="inlineStr"><is><t>cost</t></is></c><c r="D1" t="inlineStr"><is><t>tax_paid</t></is></c></row>%s</sheetData></worksheet>`

// equipment reads one workbook whose sheet has the given rows.
func equipment(t *testing.T, rows string) *intake.Result {
	b := workbook("Equipment", func(f *excelize.File) { row(f, 1, "bought_on", "what", "cost", "tax_paid") })
	packed := repack(b, "xl/worksheets/sheet1.xml", []byte(fmt.Sprintf(sheetXML, rows)))
	return read(t, map[string]string{"records/b.xlsx": string(packed)})
}

const dated = `<c r="A2"><v>46024</v></c><c r="B2" t="inlineStr"><is><t>saw</t></is></c>`

func TestFormulasOfWorkbooks(t *testing.T) {
	for _, c := range []struct {
		name, rows string
		codes      []fault.Code
		used       int
	}{
		{"a saved formula is its value", `<row r="2">` + dated + `<c r="C2"><f>2*6</f><v>12</v></c></row>`, nil, 1},
		{"an empty text in a column that may be blank", `<row r="2">` + dated + `<c r="C2"><v>12</v></c><c r="D2" t="str"><f>IF(1,"","")</f><v></v></c></row>`, nil, 1},
		{"never saved, where a blank would pass for 0.00", `<row r="2">` + dated + `<c r="C2"><v>12</v></c><c r="D2"><f>C2*0.1</f></c></row>`, []fault.Code{fault.CodeFormulaNoValue}, 0},
		{"never saved, in a needed column", `<row r="2">` + dated + `<c r="C2"><f>2*6</f></c></row>`, []fault.Code{fault.CodeFormulaNoValue}, 0},
		{"a row of nothing else", `<row r="2"><c r="C2"><f>2*6</f></c></row>`, []fault.Code{fault.CodeCellMissing, fault.CodeCellMissing, fault.CodeFormulaNoValue}, 0},
		{"a prepared row of empty texts is blank", `<row r="2"><c r="C2" t="str"><f>IF(1,"","")</f><v></v></c></row>`, nil, 0},
		{"a spreadsheet error", `<row r="2">` + dated + `<c r="C2" t="e"><f>A9</f><v>#REF!</v></c></row>`, []fault.Code{fault.CodeCellError}, 0},
	} {
		res := equipment(t, c.rows)
		var codes []fault.Code
		for _, p := range res.Problems.Errors() {
			codes = append(codes, p.Code)
		}
		require.ElementsMatch(t, c.codes, codes, c.name)
		require.Len(t, res.Books.Equipment, c.used, c.name)
	}
}

// A note written beside a sheet's table is reported and costs no row; in a plain
// file a value after the last name has been cut out of another.
func TestScribbleBesideATable(t *testing.T) {
	res := equipment(t, `<row r="2">`+dated+
		`<c r="C2"><v>12</v></c><c r="G2" t="inlineStr"><is><t>ask Bob</t></is></c></row>`)
	require.Equal(t, []fault.Code{fault.CodeHeaderBlank}, noErrors(t, res))
	require.Len(t, res.Books.Equipment, 1)
	res = read(t, file("equipment.csv", "bought_on,what,cost\n2026-01-02,saw,1,250.00\n"))
	require.Equal(t, fault.CodeRowTooLong, res.Problems.Errors()[0].Code)
}

// A percentage is what the sheet shows, however it is stored.
func TestPercentages(t *testing.T) {
	b := workbook("Channels", func(f *excelize.File) {
		row(f, 1, "channel", "fee_percent", "card_percent")
		row(f, 2, "A", 0.125, 2.99)
		row(f, 3, "B", "12.5%", "2.99 %")
		style, _ := f.NewStyle(&excelize.Style{NumFmt: 10})
		_ = f.SetCellStyle("Channels", "B2", "B2", style)
	})
	res := read(t, map[string]string{"records/b.xlsx": b})
	require.Empty(t, noErrors(t, res))
	for _, c := range res.Books.Channels {
		require.Equal(t, "25/2", c.FeePercent.String(), c.Name)
		require.Equal(t, "299/100", c.CardPercent.String(), c.Name)
	}
}

// Goal: a shop of many pieces is read in time that grows with its rows. A
// count of suggestions, not a clock: past the limit none is made.
func TestSuggestionsAreLimited(t *testing.T) {
	var hours strings.Builder
	hours.WriteString("worked_on,pieces,hours\n")
	for i := range 600 {
		fmt.Fprintf(&hours, "2026-02-01,Q%d,1\n", i%10*1000+i)
	}
	res := read(t, file("hours.csv", hours.String()))
	require.Len(t, res.Problems.Errors(), 1)
	require.Contains(t, res.Problems.Errors()[0].Why, "600 cells", "those without a suggestion are reported together")
}
