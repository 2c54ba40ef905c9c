package xlsx_test

import (
	"archive/zip"
	"bytes"
	"io"
	"math/big"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"piecebook/report/workbook"
	"piecebook/report/xlsx"
)

// small makes a book with every kind of cell and words of every awkward sort.
func small(b *workbook.Book) {
	b.Title, b.Shop, b.Subject, b.Period = "Cost & care", "Drawer & Door", "Costs", "March 2026"
	b.Foot, b.Stamp, b.Currency = "0123456789ab", time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC), "USD"
	cover := b.Add("Cover", "Cost & care", workbook.Column{Head: "What"}, workbook.Column{Head: "Amount",
		Kind: workbook.KindMoney})
	data := b.Add("It's: [lines]", "Lines", workbook.Column{Head: "What", Wrap: true}, workbook.Column{Head: "On",
		Kind: workbook.KindDate}, workbook.Column{Head: "Amount", Kind: workbook.KindMoney},
		workbook.Column{Head: "Weight", Kind: workbook.KindNumber}, workbook.Column{Head: "Hours", Kind: workbook.KindHours},
		workbook.Column{Head: "Margin", Kind: workbook.KindPercent})
	data.Note("Two lines of notes,")
	data.Note("=and one that begins like a formula.")
	data.Freeze, data.Filter, data.Landscape = 1, true, true
	data.Row(workbook.First, workbook.Text("=1+1"), workbook.Date(2026, 3, 9), workbook.Money(-123456),
		workbook.Number(big.NewRat(1, 3), 2), workbook.Hours(big.NewRat(5, 2)), workbook.Percent(big.NewRat(-1, 8)))
	data.Row(workbook.Normal, workbook.Text(" _x0041_ <b>&\x01"), workbook.Month(2026, 3), workbook.Money(0))
	data.Row(workbook.Normal, workbook.Text("0012"), workbook.Date(1850, 1, 2), workbook.Money(5).InFull())
	sum := int64(-123451)
	data.Row(workbook.GrandTotal, workbook.Text("All"), workbook.Cell{}, workbook.MoneyIf(&sum).By("SUM("+
		data.HereRange("Amount", data.FirstRow(), data.LastRow())+")"))
	cover.Row(workbook.Normal, workbook.Text("Lines").To(data),
		workbook.Money(sum).By(data.Cell("Amount", data.LastRow())))
	cover.Row(workbook.Normal, workbook.Text("OK").By(`IF(B4<0,"OK","LOOK")`))
}

func written(t *testing.T, compose func(*workbook.Book)) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, xlsx.Write(&out, compose))
	return out.Bytes()
}

// What was put in comes back: values as they are stored, formulas, and words
// as words whatever they begin with.
func TestWrittenComesBack(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(written(t, small)), excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	require.Equal(t, []string{"Cover", "Its lines"}, f.GetSheetList())
	for _, c := range []struct{ sheet, cell, value, formula string }{
		{"Cover", "A1", "Cost & care", ""},
		{"Cover", "B4", "-1234.51", "'Its lines'!$C$9"},
		{"Cover", "A5", "OK", `IF(B4<0,"OK","LOOK")`},
		{"Its lines", "A3", "=and one that begins like a formula.", ""},
		{"Its lines", "A6", "=1+1", ""},
		{"Its lines", "B6", "46090", ""}, // 2026-03-09
		{"Its lines", "C6", "-1234.56", ""},
		{"Its lines", "D6", "0.333333333333333", ""},
		{"Its lines", "E6", "2.5", ""},
		{"Its lines", "F6", "-0.125", ""},
		{"Its lines", "A7", " _x0041_ <b>& ", ""},
		{"Its lines", "C7", "0", ""},
		{"Its lines", "A8", "0012", ""},
		{"Its lines", "B8", "1850-01-02", ""},
		{"Its lines", "C8", "0.05", ""},
		{"Its lines", "C9", "-1234.51", "SUM(C6:C8)"},
	} {
		v, err := f.GetCellValue(c.sheet, c.cell)
		require.NoError(t, err)
		assert.Equal(t, c.value, v, "%s!%s", c.sheet, c.cell)
		formula, err := f.GetCellFormula(c.sheet, c.cell)
		require.NoError(t, err)
		assert.Equal(t, c.formula, formula, "%s!%s", c.sheet, c.cell)
	}
	size, err := f.GetSheetDimension("Its lines")
	require.NoError(t, err)
	assert.Equal(t, "A1:F9", size)
	merged, err := f.GetMergeCells("Its lines")
	require.NoError(t, err)
	assert.Empty(t, merged)
	var names []string
	for _, n := range f.GetDefinedName() {
		names = append(names, n.Scope+" "+n.Name+" "+n.RefersTo)
	}
	assert.Contains(t, names, "Its lines _xlnm.Print_Area 'Its lines'!$A$1:$F$9")
	assert.Contains(t, names, "Its lines _xlnm.Print_Titles 'Its lines'!$5:$5")
	panes, err := f.GetPanes("Its lines")
	require.NoError(t, err)
	assert.True(t, panes.Freeze)
	assert.Equal(t, 5, panes.YSplit)
	props, err := f.GetDocProps()
	require.NoError(t, err)
	assert.Equal(t, "Drawer & Door", props.Creator)
	assert.Equal(t, "2026-03-31T00:00:00Z", props.Created)
	to, target, err := f.GetCellHyperLink("Cover", "A4")
	require.NoError(t, err)
	assert.True(t, to)
	assert.Equal(t, "'Its lines'!A1", target)
}

// The formats show what an accountant expects to see.
func TestFormats(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(written(t, small)))
	require.NoError(t, err)
	for cell, want := range map[string]string{"B6": "2026-03-09", "B7": "2026-03", "C8": "0.05 ", "D6": "0.33 ",
		"E6": "2.50 ", "F6": "(12.5%)"} {
		v, err := f.GetCellValue("Its lines", cell)
		require.NoError(t, err)
		assert.Equal(t, want, v, cell)
	}
}

func TestSameBookSameBytes(t *testing.T) {
	first := written(t, small)
	for range 10 {
		require.True(t, bytes.Equal(first, written(t, small)))
	}
}

// Money beyond what a spreadsheet keeps, or finer than a hundredth, is refused
// with its cell; what it keeps comes back to the cent.
func TestMoneyToTheCent(t *testing.T) {
	write := func(c workbook.Cell) error {
		return xlsx.Write(&bytes.Buffer{}, func(b *workbook.Book) {
			b.Add("A", "A", workbook.Column{Head: "Amount"}).Row(workbook.Normal, c)
		})
	}
	require.NoError(t, write(workbook.Money(999_999_999_999_999)))
	require.NoError(t, write(workbook.Money(-999_999_999_999_999)))
	require.ErrorContains(t, write(workbook.Money(1_000_000_000_000_001)), "A4: 10000000000000.01 has more digits")
	third := workbook.Cell{Kind: workbook.KindMoney, Value: workbook.Exactly(big.NewRat(1, 3))}
	require.ErrorContains(t, write(third), "finer")

	var want []string
	book := written(t, func(b *workbook.Book) {
		s := b.Add("A", "A", workbook.Column{Head: "Amount"})
		for i := range int64(3000) {
			c := (i*i*i*7919 + i) % 999_999_999_999_999
			want = append(want, big.NewRat(c, 100).FloatString(2))
			s.Row(workbook.Normal, workbook.Money(c))
		}
	})
	f, err := excelize.OpenReader(bytes.NewReader(book), excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	rows, err := f.GetRows("A")
	require.NoError(t, err)
	for i, w := range want {
		got, ok := new(big.Rat).SetString(rows[3+i][0])
		require.True(t, ok)
		require.Equal(t, w, got.FloatString(2))
		require.True(t, new(big.Rat).Mul(got, big.NewRat(100, 1)).IsInt(), rows[3+i][0])
	}
}

// A sheet that is written while it is filled is the same as one that is kept: its
// first rows, those after them, and two such sheets filled in turn.
func TestLongSheets(t *testing.T) {
	n := workbook.FirstRows + 500
	book := func(long bool) []byte {
		return written(t, func(b *workbook.Book) {
			var sheets []*workbook.Sheet
			for _, name := range []string{"A", "B"} {
				s := b.Add(name, name, workbook.Column{Head: "What", Wrap: true}, workbook.Column{Head: "Amount",
					Kind: workbook.KindMoney, Summed: true})
				s.Long = long
				sheets = append(sheets, s)
			}
			for i := range n {
				for _, s := range sheets {
					s.Row(workbook.Normal, workbook.Text(s.Name+" <é>"), workbook.Money(int64(i)))
				}
			}
			sheets[0].Row(workbook.GrandTotal, workbook.Text("All").To(sheets[1]), workbook.Money(1))
			cents, _ := sheets[0].Summed("Amount").Cents()
			assert.EqualValues(t, n*(n-1)/2, cents)
			assert.Equal(t, sheets[0].LastRow()-1, sheets[0].LastLine())
			assert.Equal(t, sheets[1].LastRow(), sheets[1].LastLine())
		})
	}
	kept, long := book(false), book(true)
	require.True(t, bytes.Equal(kept, long))
	files, err := zip.NewReader(bytes.NewReader(long), int64(len(long)))
	require.NoError(t, err)
	for _, f := range files.File {
		from, err := f.Open()
		require.NoError(t, err)
		_, err = io.Copy(io.Discard, from) // it compares the checksum
		require.NoError(t, err, f.Name)
	}
	f, err := excelize.OpenReader(bytes.NewReader(long), excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	rows, err := f.GetRows("B")
	require.NoError(t, err)
	require.Len(t, rows, n+3)
	for i, row := range rows[3:] {
		require.Equal(t, []string{"B <é>", strconv.FormatFloat(float64(i)/100, 'f', -1, 64)}, row)
	}
}
